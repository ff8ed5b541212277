import type { Finding } from '../findings/finding.ts';
import { decodeText } from './decode.ts';
import type { PlinthFields } from './fields.ts';
import { type ParsedYaml, parseYaml, splitFrontMatter } from './front-matter.ts';
import { findMergeConflict } from './merge-conflict.ts';
import { nearestName } from './nearest-name.ts';
import { type Project, projectFile } from './project.ts';
import { sectionsOf } from './prose.ts';
import { readingFinding } from './reading-findings.ts';
import type { TechnicalRecord, WrittenLink } from './record.ts';
import { explainSchemaErrors, type SchemaFault } from './schema-messages.ts';
import type { LinkRule, RecordType, SchemaSet } from './schema-set.ts';
import { withoutFaultyRows } from './sound-part.ts';
import type { RefusedFile, SourceFile } from './source-file.ts';

export interface ReadOutcome {
  readonly project: Project;
  /** Ordered by path. One record for each id. */
  readonly records: readonly TechnicalRecord[];
  readonly findings: readonly Finding[];
}

const emptyProject: PlinthFields = {
  device: { name: 'unnamed device', maker: 'unnamed maker' },
};

/** True where a path, or one of its folders, is named in the list. */
const isIgnored = (path: string, ignore: readonly string[]): boolean =>
  ignore.some((entry) => {
    const clean = entry.replace(/^\.\//, '').replace(/\/+$/, '');
    return path === clean || path.startsWith(`${clean}/`);
  });

/** Reads plinth.yaml and every Markdown file. Whatever is wrong with one file is a finding; all others are still read. */
export const readRecords = (
  files: readonly SourceFile[],
  refused: readonly RefusedFile[],
  schemas: SchemaSet,
): ReadOutcome => {
  const findings: Finding[] = [];
  for (const problem of schemas.problems)
    findings.push(
      readingFinding(
        'schema-unusable',
        { file: problem.file, line: problem.line ?? 1, column: problem.column ?? 1 },
        `the schema cannot be used: ${problem.message}`,
        { hint: 'Correct the schema, or take it out of the folder "schemas".' },
      ),
    );
  const project = readProject(files, schemas, findings);
  const ignore = project.fields.ignore ?? [];
  for (const file of refused) {
    if (isIgnored(file.path, ignore)) continue;
    const reason = {
      'too-large': 'is too large',
      'outside-root': 'leads out of the technical file',
      unreadable: 'cannot be opened',
      'not-a-file': 'is not a plain file',
    }[file.reason];
    findings.push(
      readingFinding(
        'file-refused',
        { file: file.path, line: 1, column: 1 },
        `the file ${reason}: ${file.detail}`,
        {
          hint: 'Put the file itself into the technical file, or name it under "ignore" in plinth.yaml.',
        },
      ),
    );
  }
  const byId = new Map<string, TechnicalRecord>();
  const markdown = files
    .filter((file) => /\.md$/i.test(file.path) && !isIgnored(file.path, ignore))
    .sort((a, b) => (a.path < b.path ? -1 : 1));
  for (const file of markdown) {
    const { record, findings: own } = readOnce(file, schemas);
    findings.push(...own);
    if (!record) continue;
    const twin = byId.get(record.id);
    if (twin) {
      findings.push(
        readingFinding(
          'duplicate-id',
          record.yaml.place(['id']),
          `the id ${record.id} is already taken by ${twin.file}`,
          {
            hint: 'Give one of the two records a new id.',
            records: [record.id],
            related: [{ place: twin.yaml.place(['id']), message: `first ${record.id}` }],
          },
        ),
      );
    } else byId.set(record.id, record);
  }
  return { project, records: [...byId.values()], findings };
};

interface ReadFile {
  readonly path: string;
  readonly record: TechnicalRecord | undefined;
  readonly findings: readonly Finding[];
}

/** A file whose bytes are the same object as before says the same as before: it is read once for each set of schemas. */
const readOnce = (file: SourceFile, schemas: SchemaSet): ReadFile => {
  const files = readFiles.get(schemas) ?? new WeakMap<Uint8Array, ReadFile>();
  readFiles.set(schemas, files);
  const known = files.get(file.bytes);
  if (known?.path === file.path) return known;
  const findings: Finding[] = [];
  const read: ReadFile = { path: file.path, record: readRecord(file, schemas, findings), findings };
  files.set(file.bytes, read);
  return read;
};
const readFiles = new WeakMap<SchemaSet, WeakMap<Uint8Array, ReadFile>>();

/** One record by itself, whatever else is wrong with it: for earlier states, whose faults are nobody's business any more. */
export const readSingleRecord = (file: SourceFile, schemas: SchemaSet): TechnicalRecord | undefined =>
  readRecord(file, schemas, []);

/** Findings for what is wrong with a YAML text; `hint` says what to do about a line that cannot be read. */
const yamlFindings = (yaml: ParsedYaml, hint: string): readonly Finding[] => {
  // A record whose id can be read is in doubt by what is wrong with it.
  const id = (yaml.value as { readonly id?: unknown } | null | undefined)?.id;
  const records = typeof id === 'string' ? [id] : [];
  return yaml.problems.map(({ kind, place, message }) =>
    kind === 'duplicate-key'
      ? readingFinding('duplicate-key', place, message, { hint: 'Keep one of the two.', records })
      : readingFinding('broken-front-matter', place, message, { hint, records }),
  );
};

const readProject = (files: readonly SourceFile[], schemas: SchemaSet, findings: Finding[]): Project => {
  const file = files.find((each) => each.path === projectFile);
  const none = parseYaml(projectFile, '', 1);
  if (!file) {
    findings.push(
      readingFinding(
        'project-file-missing',
        { file: projectFile, line: 1, column: 1 },
        'plinth.yaml is missing at the root of the technical file',
        {
          hint: files.some((each) => /^plinth\.ya?ml$/i.test(each.path))
            ? 'Rename the file that is there to plinth.yaml, in small letters.'
            : 'Run "plinth start" in an empty folder, or add plinth.yaml with the device.',
        },
      ),
    );
    return { fields: emptyProject, yaml: none };
  }
  const decoded = decodeText(file.bytes);
  if (!decoded.ok) {
    findings.push(
      readingFinding(
        'not-utf-8',
        { file: file.path, line: decoded.line, column: decoded.column },
        `byte 0x${decoded.byte.toString(16)} is not UTF-8`,
        { hint: 'Save the file as UTF-8.' },
      ),
    );
    return { fields: emptyProject, yaml: none, unread: [[]] };
  }
  const yaml = parseYaml(file.path, decoded.text, 1);
  findings.push(...yamlFindings(yaml, 'Mend this line: nothing of plinth.yaml counts until then.'));
  const { value } = yaml;
  if (value === undefined && yaml.problems.length > 0) return { fields: emptyProject, yaml, unread: [[]] };
  const report = (faults: readonly SchemaFault[]): void => {
    for (const fault of faults)
      findings.push(
        readingFinding(
          fault.code,
          fault.path.length === 0
            ? { file: file.path, line: 1, column: 1 }
            : yaml.place(fault.path, fault.atKey ? 'key' : 'value'),
          fault.message.replace('the front matter', 'plinth.yaml'),
          fault.hint ? { hint: fault.hint } : {},
        ),
      );
  };
  let fields: Partial<PlinthFields> = {};
  // An empty file is empty fields: the device is then reported as missing.
  if (schemas.validateProject(value ?? {})) fields = value as PlinthFields;
  else {
    const errors = schemas.validateProject.errors ?? [];
    report(explainSchemaErrors(errors, value ?? {}, schemas.projectFieldsAt, yaml.written));
    if (value !== null && typeof value === 'object' && !Array.isArray(value))
      return {
        fields: { ...emptyProject, ...pickSound(value as Record<string, unknown>, schemas) },
        yaml,
        unread: unreadFields(value, schemas),
      };
  }
  return { fields: { ...emptyProject, ...fields }, yaml };
};

/** Groups of plinth.yaml whose fields say nothing of each other: a slip in one leaves the others sound. */
const looseGroups: ReadonlySet<string> = new Set(['device', 'phrases', 'declaration']);

/** What is faulty: a field at the top, or one of a group whose fields stand by themselves. */
const unreadFields = (value: unknown, schemas: SchemaSet): readonly (readonly string[])[] => {
  const paths = new Map<string, readonly string[]>();
  schemas.validateProject(value ?? {});
  for (const { instancePath, keyword, params } of schemas.validateProject.errors ?? []) {
    const steps = instancePath.split('/').slice(1);
    const unknown = (params as { readonly additionalProperty?: unknown }).additionalProperty;
    const [group, field] = [
      ...steps,
      ...(keyword === 'additionalProperties' && typeof unknown === 'string' ? [unknown] : []),
    ].map((step) => step.replace(/~1/g, '/').replace(/~0/g, '~'));
    if (group === undefined) continue;
    const path = field !== undefined && looseGroups.has(group) ? [group, field] : [group];
    paths.set(JSON.stringify(path), path);
  }
  return [...paths.values()];
};

/** What of a faulty plinth.yaml is sound by itself, so that one slip does not switch the rest off. */
const pickSound = (value: Record<string, unknown>, schemas: SchemaSet): Partial<PlinthFields> => {
  const top = (fields: Record<string, unknown>): Record<string, unknown> => {
    const faulty = new Set(unreadFields(fields, schemas).map(([group]) => group));
    return Object.fromEntries(
      Object.entries(fields).filter(
        ([key]) => !faulty.has(key) && Object.hasOwn(schemas.projectSchema.properties ?? {}, key),
      ),
    );
  };
  const pruned = { ...value };
  for (const [group, field] of unreadFields(value, schemas)) {
    const fields = group === undefined ? undefined : pruned[group];
    if (group === undefined || field === undefined || fields === null || typeof fields !== 'object') continue;
    pruned[group] = Object.fromEntries(Object.entries(fields).filter(([key]) => key !== field));
  }
  // A group that is faulty without the field, since it needs it, is left out as a whole.
  return top(pruned) as Partial<PlinthFields>;
};

const readRecord = (
  file: SourceFile,
  schemas: SchemaSet,
  findings: Finding[],
): TechnicalRecord | undefined => {
  const top = { file: file.path, line: 1, column: 1 };
  const decoded = decodeText(file.bytes);
  if (!decoded.ok) {
    findings.push(
      readingFinding(
        'not-utf-8',
        { file: file.path, line: decoded.line, column: decoded.column },
        `byte 0x${decoded.byte.toString(16)} is not UTF-8`,
        { hint: 'Save the file as UTF-8.' },
      ),
    );
    return undefined;
  }
  if (decoded.text.trim() === '') {
    findings.push(
      readingFinding('empty-file', top, 'the file is empty', {
        hint: 'Write the record ("plinth new TYPE" gives a start), or delete the file.',
      }),
    );
    return undefined;
  }
  const conflict = findMergeConflict(decoded.text);
  const split = splitFrontMatter(conflict?.text ?? decoded.text);
  if (split === 'missing' || split === 'unclosed') {
    findings.push(
      readingFinding(
        'missing-front-matter',
        top,
        split === 'missing' ? 'the file does not start with front matter' : 'the front matter is not closed',
        {
          hint:
            split === 'missing'
              ? 'Start the file with a line "---", the fields id, type, title and status, and another line "---".'
              : 'End the front matter with a line "---".',
        },
      ),
    );
    return undefined;
  }
  const yaml = parseYaml(file.path, split.yaml, split.yamlLine);
  const value = yaml.value;
  if (conflict) {
    const named = (value as { readonly id?: unknown } | null | undefined)?.id;
    findings.push(
      readingFinding(
        'merge-conflict',
        { file: file.path, line: conflict.line, column: 1 },
        'the file holds the marks of a merge that was not finished',
        {
          hint: 'Keep one version and delete the marks (<<<<<<<, =======, >>>>>>>).',
          records: typeof named === 'string' ? [named] : [],
        },
      ),
    );
  }
  findings.push(...yamlFindings(yaml, 'Mend this line; put text with a colon in quotes.'));
  if (yaml.problems.some((problem) => problem.kind === 'syntax')) return undefined;
  if (value === null || typeof value !== 'object' || Array.isArray(value)) {
    findings.push(
      readingFinding(
        'broken-front-matter',
        { file: file.path, line: 2, column: 1 },
        'the front matter holds no fields',
        { hint: 'Write fields such as "id: UN-01".' },
      ),
    );
    return undefined;
  }
  const fields = value as Record<string, unknown>;
  const id = typeof fields['id'] === 'string' ? fields['id'] : undefined;
  const typeName = typeof fields['type'] === 'string' ? fields['type'] : undefined;
  const type = typeName === undefined ? undefined : schemas.types.get(typeName);
  const records = id ? [id] : [];
  if (!type) {
    if (id === undefined)
      findings.push(
        readingFinding(
          fields['id'] === undefined ? 'missing-field' : 'wrong-value',
          fields['id'] === undefined ? top : yaml.place(['id']),
          fields['id'] === undefined ? 'the field "id" is missing' : 'id is not text',
          { hint: 'Add "id": the prefix of the type, a hyphen and a number.' },
        ),
      );
    const near = typeName ? nearestName(typeName, [...schemas.types.keys()]) : undefined;
    if (typeName === undefined)
      findings.push(
        readingFinding('missing-field', top, 'the field "type" is missing', {
          hint: `Add "type", one of: ${[...schemas.types.keys()].join(', ')}.`,
          records,
        }),
      );
    else
      findings.push(
        readingFinding('unknown-type', yaml.place(['type']), `unknown record type "${typeName}"`, {
          hint: near ? `Did you mean "${near}"?` : `Use one of: ${[...schemas.types.keys()].join(', ')}.`,
          records,
        }),
      );
    return id
      ? makeRecord(id, typeName ?? 'unknown', fields, [], file.path, split.body, split.bodyLine, yaml, false)
      : undefined;
  }
  const sound = yaml.problems.length === 0 && !conflict;
  let faults: readonly SchemaFault[] = [];
  if (!type.validate(fields)) {
    faults = explainSchemaErrors(type.validate.errors ?? [], fields, type.fieldsAt, yaml.written);
    for (const fault of faults)
      findings.push(
        readingFinding(
          fault.code,
          fault.path.length === 0 ? top : yaml.place(fault.path, fault.atKey ? 'key' : 'value'),
          fault.message,
          { records, ...(fault.hint ? { hint: fault.hint } : {}) },
        ),
      );
  }
  if (!id) return undefined;
  // An id of the wrong form has been reported by the schema.
  if (/^[A-Z]{2,5}-/.test(id) && !id.startsWith(`${type.prefix}-`))
    findings.push(
      readingFinding(
        'wrong-prefix',
        yaml.place(['id']),
        `the id ${id} does not start with ${type.prefix}-, the prefix of a ${type.type}`,
        {
          hint: `Rename it to ${type.prefix}-…, or correct the type.`,
          records,
        },
      ),
    );
  const present = new Set(sectionsOf(split.body).map((section) => section.heading.toLowerCase()));
  for (const heading of type.headings)
    if (!present.has(heading.toLowerCase()))
      findings.push(
        readingFinding(
          'missing-heading',
          { file: file.path, line: split.bodyLine, column: 1 },
          `${id} has no heading "${heading}"`,
          { hint: `Add "## ${heading}" and write the section.`, records },
        ),
      );
  const isWhole = sound && faults.length === 0;
  const record = makeRecord(
    id,
    type.type,
    fields,
    writtenLinks(id, fields, type, schemas.types),
    file.path,
    split.body,
    split.bodyLine,
    yaml,
    isWhole,
  );
  const soundPart = sound && !isWhole ? withoutFaultyRows(record, faults, type) : undefined;
  return soundPart ? { ...record, soundPart } : record;
};

const makeRecord = (
  id: string,
  type: string,
  fields: Record<string, unknown>,
  links: readonly WrittenLink[],
  file: string,
  body: string,
  bodyLine: number,
  yaml: TechnicalRecord['yaml'],
  sound: boolean,
): TechnicalRecord => ({
  id,
  type,
  title: typeof fields['title'] === 'string' ? fields['title'] : id,
  status: typeof fields['status'] === 'string' ? fields['status'] : 'draft',
  file,
  sound,
  fields,
  links,
  body,
  bodyLine,
  yaml,
});

const writtenLinks = (
  from: string,
  fields: Record<string, unknown>,
  type: RecordType,
  types: ReadonlyMap<string, RecordType>,
): readonly WrittenLink[] =>
  type.links.flatMap((rule) =>
    valuesAt(fields, rule.path).map(({ value, path }) => ({
      from,
      to: value,
      ...linkFacts(rule),
      relies: reliesOn(rule, value, types),
      path,
    })),
  );

const linkFacts = (rule: LinkRule): Pick<WrittenLink, 'field' | 'relation' | 'inverse' | 'allowed'> => ({
  field: rule.field,
  relation: rule.relation,
  inverse: rule.inverse,
  allowed: rule.to,
});

/** Whether a link is one by which the record rests on what it names. An id tells its type by its prefix. */
const reliesOn = (rule: LinkRule, to: string, types: ReadonlyMap<string, RecordType>): boolean =>
  typeof rule.relies === 'boolean'
    ? rule.relies
    : rule.relies.some((name) => {
        const prefix = types.get(name)?.prefix;
        return prefix !== undefined && to.startsWith(`${prefix}-`);
      });

/** Texts that a path with `*` for list items leads to. */
const valuesAt = (
  root: unknown,
  pattern: readonly string[],
): { value: string; path: (string | number)[] }[] => {
  let found: { value: unknown; path: (string | number)[] }[] = [{ value: root, path: [] }];
  for (const step of pattern)
    found = found.flatMap(({ value, path }) => {
      if (step === '*')
        return Array.isArray(value)
          ? value.map((item, index) => ({
              value: item as unknown,
              path: [...path, index],
            }))
          : [];
      if (value === null || typeof value !== 'object' || !Object.hasOwn(value, step)) return [];
      return [
        {
          value: (value as Record<string, unknown>)[step],
          path: [...path, step],
        },
      ];
    });
  return found.filter(
    (each): each is { value: string; path: (string | number)[] } => typeof each.value === 'string',
  );
};

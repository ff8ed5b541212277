import { documentText } from '../document/document-text.ts';
import type { CompiledMarkdown, MarkdownCompiler, MarkdownOptions } from '../document/markdown.ts';
import type { Block, Document, Signature } from '../document/model.ts';
import { shortCaution } from '../document/short-caution.ts';
import type { Finding } from '../findings/finding.ts';
import { countByLevel } from '../findings/order.ts';
import { applyWaivers } from '../findings/waivers.ts';
import { requiredRoles } from '../graph/approvals.ts';
import { sha256Hex } from '../graph/digest.ts';
import { tightenLevels } from '../graph/tighten-levels.ts';
import { parseYaml } from '../records/front-matter.ts';
import { nearestName } from '../records/nearest-name.ts';
import type { RecordOf, TechnicalRecord } from '../records/record.ts';
import { explainSchemaErrors } from '../records/schema-messages.ts';
import type { SchemaSet } from '../records/schema-set.ts';
import { writingPrompts } from '../records/writing-prompts.ts';
import { notice } from './cells.ts';
import { conditionOutcome } from './condition.ts';
import { olderThanShown } from './document-age.ts';
import { documentFinding } from './document-findings.ts';
import { documentPicture } from './document-pictures.ts';
import { documentRevisions } from './document-revisions.ts';
import { namesEach, recordsForEach, withEach } from './each-record.ts';
import { views } from './index.ts';
import { inlineHint, inlineValue } from './inline-values.ts';
import { type RecordPlaces, recordPlaces } from './record-places.ts';
import type { View, ViewContext } from './view.ts';

export interface DocumentInputs
  extends Omit<ViewContext, 'enclosingLevel' | 'bodyOf' | 'document' | 'placeOf' | 'documentFindings'> {
  readonly schemas: SchemaSet;
  readonly toolVersion: string;
  /** The commit that the file was read at, where it lies in a repository. */
  readonly origin?: DocumentOrigin;
  /** Which documents show which records; not known while the documents are compiled for the first time. */
  readonly places?: RecordPlaces;
  /** What is found in documents, but for what is waived; not known while they are compiled for the first time. */
  readonly foundInDocuments?: readonly Finding[];
}

/** Where the records of a document were read. */
export interface DocumentOrigin {
  /** Full id of the last commit. */
  readonly commit: string;
  /** Whether the files differ from that commit. */
  readonly isDirty: boolean;
}

export interface CompiledDocument {
  readonly record: RecordOf<'document'>;
  /** The record that this copy was written for, in a document with `for_each`. */
  readonly each?: TechnicalRecord;
  readonly document: Document;
  readonly findings: readonly Finding[];
  /** Whether its text says in which documents records are shown. */
  readonly namesPlaces: boolean;
  /** Whether it lists findings. */
  readonly namesFindings: boolean;
  /** Blocks that name records without telling what they say. */
  readonly namesOnly: ReadonlySet<Block>;
}

/** Printed at the foot of every document. */
const caution =
  'This document was compiled from records. It does not say that the device is safe or that the file complies with any law or standard; that is for qualified people to decide, by the law and the standards themselves.';

/** What reads like the id of a record of a type that there is. */
export const recordIdPatternOf = (graph: DocumentInputs['graph']): RegExp =>
  new RegExp(
    `\\b(?:${[...graph.types.values()].map((type) => type.prefix).join('|')})-[0-9](?:[A-Za-z0-9]|[.-](?=[A-Za-z0-9])){0,30}`,
  );

/** Digest over the digests of all records: two documents with the same one were made from the same content. */
export const contentDigest = ({ approvals }: Pick<DocumentInputs, 'approvals'>): string =>
  sha256Hex(
    new TextEncoder().encode([...approvals.digests].map(([id, digest]) => `${id} ${digest}\n`).join('')),
  );

/** Digest over the compiled text: two documents with the same one say the same, whatever else changed in the file. */
export const textDigest = (document: Pick<Document, 'blocks' | 'footnotes'>): string =>
  sha256Hex(new TextEncoder().encode(documentText(document)));

/** Compiles bodies of records as parts of one document. */
export interface BodyCompiler {
  readonly compileBody: (host: TechnicalRecord, more?: Partial<MarkdownOptions>) => CompiledMarkdown;
  /** What views draw from, below a heading of the given level. */
  readonly context: (enclosingLevel: number) => ViewContext;
  /** Gathers what could not be drawn. */
  readonly findings: readonly Finding[];
  /** Whether a view has asked where a record is shown. */
  readonly namesPlaces: () => boolean;
  /** Whether a view has asked what was found in documents. */
  readonly namesFindings: () => boolean;
  /** Blocks of views that name records without telling what they say. */
  readonly namesOnly: ReadonlySet<Block>;
}

/**
 * Compiles prose with its view blocks and inline values, as they stand in the given document. What can't be drawn is a
 * finding at its line. `each` is the record that a document with `for_each` is written for. With `isAwaited` it stands
 * for one that there is not yet: the text is read as for a record that states nothing, and no view is drawn.
 */
export const bodyCompiler = (
  record: RecordOf<'document'>,
  inputs: DocumentInputs,
  compile: MarkdownCompiler,
  each?: TechnicalRecord,
  { isAwaited = false }: { readonly isAwaited?: boolean } = {},
): BodyCompiler => {
  const findings: Finding[] = [];
  let namesPlaces = false;
  let namesFindings = false;
  const namesOnly = new Set<Block>();
  const recordIdPattern = recordIdPatternOf(inputs.graph);
  const base = {
    isRecordId: (id: string): boolean => inputs.graph.record(id) !== undefined,
    recordIdPattern,
    toBeWritten: (comment: string) => writingPrompts(comment).map(({ wanted }) => wanted),
  };
  const options = (host: TechnicalRecord, more: Partial<MarkdownOptions> = {}): MarkdownOptions => ({
    ...base,
    file: host.file,
    firstLine: host.bodyLine,
    expandView: (name, yaml, place, enclosingLevel) => drawView(host, name, yaml, place, enclosingLevel),
    inlineHint,
    inlineValue: (name, label, attributes, place) => {
      const outcome = inlineValue(name, label, attributes, context(0));
      if (!outcome) return undefined;
      if (isAwaited && name !== 'each' && namesEach(label)) return [];
      if ('inlines' in outcome) return outcome.inlines;
      findings.push(documentFinding('unknown-value', place, outcome.message, [record.id], outcome.hint));
      return [
        {
          kind: 'text',
          value: `[${label}: not known]`,
          bold: true,
          tone: 'bad',
        },
      ];
    },
    condition: (attributes, place) => {
      const outcome = conditionOutcome(attributes, context(0));
      // Of a record that is awaited nobody knows: the text stays, and is read.
      if ('holds' in outcome) return isAwaited ? undefined : outcome.holds;
      findings.push(documentFinding('condition-wrong', place, outcome.message, [record.id], outcome.hint));
      return undefined;
    },
    picture: (named, place) =>
      documentPicture(host.file, named, place, { files: inputs.files, records: [record.id] }, (finding) =>
        findings.push(finding),
      ),
    ...more,
  });
  const context = (enclosingLevel: number): ViewContext => ({
    ...inputs,
    document: record,
    ...(each ? { each } : {}),
    enclosingLevel,
    placeOf: (id) => {
      namesPlaces = true;
      return inputs.places?.get(id);
    },
    documentFindings: () => {
      namesFindings = true;
      return inputs.foundInDocuments ?? [];
    },
    bodyOf: (shown, topHeadingLevel) => {
      const compiled = compile(shown.body, options(shown, { topHeadingLevel }));
      findings.push(...compiled.findings);
      return compiled.blocks;
    },
  });
  const drawView = (
    host: TechnicalRecord,
    name: string,
    text: string,
    place: Finding['place'],
    enclosingLevel: number,
  ): readonly Block[] => {
    const view = views.find((each) => each.name === name);
    const schema = inputs.schemas.views.get(name);
    if (!view || !schema) {
      const names = views.map((each) => each.name);
      const near = nearestName(name, names);
      findings.push(
        documentFinding(
          'unknown-view',
          place,
          `unknown view "${name}"`,
          [record.id],
          near ? `Did you mean "${near}"?` : `Use one of: ${names.join(', ')}.`,
        ),
      );
      return [notice(`There is no view "${name}".`, 'bad')];
    }
    const yaml = parseYaml(host.file, text, place.line + 1);
    const report = (at: Finding['place'], message: string, hint: string): void => {
      findings.push(documentFinding('view-body-wrong', at, message, [record.id], hint));
    };
    for (const problem of yaml.problems) report(problem.place, problem.message, 'Mend this line.');
    const written = yaml.value ?? {};
    const body = each && !isAwaited ? withEach(written, each, inputs.graph) : written;
    if (!schema.validate(body))
      for (const fault of explainSchemaErrors(schema.validate.errors ?? [], body, schema.fieldsAt))
        report(
          fault.path.length === 0 ? place : yaml.place(fault.path, fault.atKey ? 'key' : 'value'),
          `${name}: ${fault.message.replace('the front matter', 'what stands in the block')}`,
          fault.hint ?? 'Correct this field.',
        );
    else if (isAwaited) return [];
    else if (yaml.problems.length === 0) {
      const fields = body as Readonly<Record<string, unknown>>;
      const outcome = view.draw(fields, context(enclosingLevel));
      const problems = outcome.problems ?? [];
      for (const problem of problems)
        report(yaml.place(problem.path), `${name}: ${problem.message}`, problem.hint);
      const condition =
        problems.length > 0 ? undefined : emptiedBy(view, fields, outcome.blocks, context(enclosingLevel));
      if (condition !== undefined) {
        findings.push(
          documentFinding(
            'view-empty',
            yaml.place([condition], 'value'),
            `${name}: "${condition}" leaves nothing to show`,
            [record.id],
            'Correct the condition, or put the block between :::when and ::: where nothing is a possible answer.',
          ),
        );
        return [notice('Nothing in the technical file meets the condition of this table.')];
      }
      if (view.namesOnly) for (const block of outcome.blocks) namesOnly.add(block);
      return outcome.blocks;
    }
    return [notice(`The view "${name}" could not be drawn: see the findings.`, 'bad')];
  };
  return {
    compileBody: (host, more) => compile(host.body, options(host, more)),
    context,
    findings,
    namesPlaces: () => namesPlaces,
    namesFindings: () => namesFindings,
    namesOnly,
  };
};

/** Fields of a view block that choose among what there is. */
const narrowingFields = ['where', 'types', 'only', 'clauses'] as const;

/** The field without which a view that shows nothing would show something. */
const emptiedBy = (
  view: View,
  body: Readonly<Record<string, unknown>>,
  blocks: readonly Block[],
  context: ViewContext,
): string | undefined => {
  const isEmpty = (drawn: readonly Block[]): boolean => drawn.every((block) => block.kind === 'notice');
  if (!isEmpty(blocks)) return undefined;
  return narrowingFields.find((field) => {
    if (body[field] === undefined) return false;
    const { [field]: _, ...rest } = body;
    // Drawn to be looked at only: what it would find in bodies is not reported.
    const outcome = view.draw(rest, { ...context, bodyOf: () => [] });
    return !isEmpty(outcome.blocks);
  });
};

/** Compiles one document record. `each` is the record that a document with `for_each` is written for. */
export const compileDocument = (
  record: RecordOf<'document'>,
  inputs: DocumentInputs,
  compile: MarkdownCompiler,
  each?: TechnicalRecord,
): CompiledDocument => {
  const {
    compileBody,
    findings: drawn,
    namesPlaces,
    namesFindings,
    namesOnly,
  } = bodyCompiler(record, inputs, compile, each);
  const compiled = compileBody(record);
  const findings = [...drawn, ...compiled.findings];
  const { project, asOf } = inputs;
  const errors = countByLevel([...inputs.findings, ...findings]).error;
  const warning: readonly Block[] =
    errors > 0
      ? [
          notice(
            // Without their number: a document is not written anew because of one more elsewhere.
            `Findings of level error stand in the technical file as of ${asOf}. This document must not be issued before they are resolved or waived.`,
            'bad',
          ),
        ]
      : [];
  const { device } = project.fields;
  const blocks = [...warning, ...compiled.blocks, ...documentRevisions(record)];
  const number = record.fields.number ?? record.id;
  const suffix = each ? `-${each.id}` : '';
  findings.push(...olderThanShown(record, each, blocks, inputs));
  return {
    record,
    ...(each ? { each } : {}),
    findings,
    namesPlaces: namesPlaces(),
    namesFindings: namesFindings(),
    namesOnly,
    document: {
      id: `${record.id}${suffix}`,
      title: each ? `${record.title} ${each.id}` : record.title,
      ...(each
        ? { subtitle: each.title }
        : record.fields.subtitle
          ? { subtitle: record.fields.subtitle }
          : {}),
      number: `${number}${suffix}`,
      revision: record.fields.revision,
      status: record.status,
      date: record.fields.date ?? asOf,
      organisation: device.maker,
      product: device.code ? `${device.name} ${device.code}` : device.name,
      language: project.fields.language ?? 'en-GB',
      ...(record.fields.contents === false ? { hasContents: false } : {}),
      // Who approved a record answers for what its document tells.
      signatures: signaturesOf(each ?? record, inputs, { hasEarlier: each !== undefined }),
      blocks,
      footnotes: compiled.footnotes,
      caution: shortCaution,
      provenance: [
        {
          name: 'Document',
          value: `${number}${suffix}, revision ${record.fields.revision}`,
        },
        { name: 'Source', value: each ? `${record.file}, for ${each.file}` : record.file },
        { name: 'Stated as of', value: asOf },
        { name: 'Content digest', value: contentDigest(inputs) },
        { name: 'Text digest', value: textDigest({ blocks, footnotes: compiled.footnotes }) },
        ...originEntries(inputs),
        { name: 'Caution', value: caution },
      ],
      recordTitles: new Map([...inputs.graph.records.values()].map((each) => [each.id, each.title])),
    },
  };
};

/** The commit that a document was compiled from, and by which version. */
export const originEntries = ({
  origin,
  toolVersion,
}: Pick<DocumentInputs, 'origin' | 'toolVersion'>): Document['provenance'] => [
  ...(origin
    ? [
        {
          name: 'Git revision',
          value: origin.isDirty ? `${origin.commit}, with changes that are in no commit` : origin.commit,
        },
      ]
    : []),
  { name: 'Compiled with', value: `plinth ${toolVersion}` },
];

/**
 * The approvals of a record, and the roles that have yet to sign.
 *
 * @param hasEarlier whether those are told, too, that the same role gave before: a report is read as approved when its
 *   result was
 */
export const signaturesOf = (
  record: TechnicalRecord,
  { approvals, project }: DocumentInputs,
  { hasEarlier = false }: { readonly hasEarlier?: boolean } = {},
): readonly Signature[] => {
  const states =
    approvals.of(record.id)?.states.filter((each) => hasEarlier || each.state !== 'replaced') ?? [];
  const signed = states.map(
    ({ approval, state }): Signature => ({
      role: approval.role,
      name: approval.name,
      meaning: approval.meaning,
      date: approval.date,
      state: state === 'replaced' ? 'earlier' : state,
    }),
  );
  const open = requiredRoles(project.fields, record.type).filter(
    (role) => !signed.some((each) => each.role === role),
  );
  return [
    ...signed,
    ...open.map(
      (role): Signature => ({
        role,
        name: '',
        meaning: '',
        date: '',
        state: 'unsigned',
      }),
    ),
  ];
};

/** A fault of the text is found once for each record that it is written for; it is told once. */
const toldOnce = (documents: readonly CompiledDocument[]): readonly CompiledDocument[] => {
  const told = new Set<string>();
  return documents.map((compiled) => ({
    ...compiled,
    findings: compiled.findings.filter(({ code, place, message }) => {
      const key = JSON.stringify([code, place, message]);
      return !told.has(key) && told.add(key) !== undefined;
    }),
  }));
};

/**
 * What is found in the texts of documents that wait for the first record to be written for: all that does not hang on
 * what such a record says. Without it a template's slip would be told on the day on which the document is needed.
 */
export const foundInAwaiting = (
  inputs: DocumentInputs,
  compile: MarkdownCompiler,
  only?: ReadonlySet<string>,
): readonly Finding[] =>
  inputs.graph
    .recordsOf('document')
    .filter(({ id, status }) => status !== 'retired' && (only === undefined || only.has(id)))
    .flatMap((record) => {
      const { type } = record.fields.for_each ?? {};
      if (type === undefined || !inputs.graph.types.has(type)) return [];
      if (recordsForEach(record, inputs.graph)?.length !== 0) return [];
      const awaited: TechnicalRecord = { ...record, type, fields: {}, links: [] };
      const { compileBody, findings } = bodyCompiler(record, inputs, compile, awaited, { isAwaited: true });
      const compiled = compileBody(record);
      return [...findings, ...compiled.findings];
    });

/** All documents of the technical file that are not retired, in order of id; those with `for_each` once for each record. */
export const compileDocuments = (
  inputs: DocumentInputs,
  compile: MarkdownCompiler,
  only?: string,
): readonly CompiledDocument[] => {
  const compiledFrom = (record: RecordOf<'document'>, from: DocumentInputs): readonly CompiledDocument[] => {
    const records = recordsForEach(record, inputs.graph);
    return records
      ? toldOnce(records.map((each) => compileDocument(record, from, compile, each)))
      : [compileDocument(record, from, compile)];
  };
  const records = inputs.graph.recordsOf('document').filter((record) => record.status !== 'retired');
  const first = new Map<string, readonly CompiledDocument[]>();
  const firstOf = (record: RecordOf<'document'>): readonly CompiledDocument[] => {
    const known = first.get(record.id) ?? compiledFrom(record, inputs);
    first.set(record.id, known);
    return known;
  };
  // Where a record is shown, and what is found in documents, is known once all of them are compiled; those that tell it
  // are compiled again. What they say of it adds no record and no finding to them, so that twice is enough.
  let places: RecordPlaces | undefined;
  let found: readonly Finding[] | undefined;
  const foundInDocuments = (): readonly Finding[] => {
    const all = [
      ...records.flatMap(firstOf).flatMap(({ findings }) => findings),
      ...foundInAwaiting(inputs, compile),
    ];
    const { tighten, waivers = [] } = inputs.project.fields;
    return applyWaivers(tightenLevels(all, tighten, inputs.graph), waivers, inputs.asOf).standing;
  };
  return records
    .filter((record) => only === undefined || record.id === only)
    .flatMap((record) => {
      const compiled = firstOf(record);
      const tellsPlaces = compiled.some(({ namesPlaces }) => namesPlaces);
      const tellsFindings = compiled.some(({ namesFindings }) => namesFindings);
      if (!tellsPlaces && !tellsFindings) return compiled;
      if (tellsPlaces) places ??= recordPlaces(records.flatMap(firstOf));
      if (tellsFindings) found ??= foundInDocuments();
      return compiledFrom(record, {
        ...inputs,
        ...(places ? { places } : {}),
        ...(found ? { foundInDocuments: found } : {}),
      });
    });
};

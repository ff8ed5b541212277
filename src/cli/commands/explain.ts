import { checks } from '../../checks/index.ts';
import { markdownCodes } from '../../document/markdown-findings.ts';
import { calculations } from '../../evidence/calculations/index.ts';
import { evidenceCodes } from '../../evidence/evidence-findings.ts';
import { evidenceMethods } from '../../evidence/methods/index.ts';
import { studies } from '../../evidence/studies/index.ts';
import type { Explanation } from '../../findings/explanation.ts';
import { waiverCodes } from '../../findings/waiver-idle.ts';
import { readOwnSchemas } from '../../host/own-files.ts';
import { nearestName } from '../../records/nearest-name.ts';
import { readingCodes } from '../../records/reading-findings.ts';
import { type JsonSchema, readSchemas, type SchemaSet } from '../../records/schema-set.ts';
import { isFromMemory, shippedClauseTables } from '../../regulation/clause-tables.ts';
import { reviewCodes } from '../../returned/review-findings.ts';
import { documentCodes } from '../../views/document-findings.ts';
import type { CommandRun } from '../command.ts';
import { topics } from '../explain-topics.ts';
import { Refusal } from '../refusal.ts';
import { wrap } from '../wrap.ts';

interface Page {
  readonly name: string;
  readonly kind:
    | 'Findings while reading'
    | 'Findings in raw data'
    | 'Findings in documents'
    | 'Findings about waivers'
    | 'Findings in returned Word files'
    | 'Checks'
    | 'Evidence methods'
    | 'Record types'
    | 'Clause tables'
    | 'Views'
    | 'Topics';
  readonly title: string;
  readonly facts: readonly string[];
  readonly text: string;
}

const findingPages = (kind: Page['kind'], codes: Readonly<Record<string, Explanation>>): readonly Page[] =>
  Object.entries(codes).map(([name, { title, level, explain }]) => ({
    name,
    kind,
    title,
    facts: [`level: ${level}`],
    text: explain,
  }));

const pages = (schemas: SchemaSet): readonly Page[] => [
  ...findingPages('Findings while reading', readingCodes),
  ...findingPages('Findings in raw data', evidenceCodes),
  ...findingPages('Findings in documents', { ...markdownCodes, ...documentCodes }),
  ...findingPages('Findings about waivers', waiverCodes),
  ...findingPages('Findings in returned Word files', reviewCodes),
  ...checks.map(
    ({ code, title, level, basis, explain, examines }): Page => ({
      name: code,
      kind: 'Checks',
      title,
      facts: [`level: ${level}`, `examines: ${examines}`, `basis: ${basis}`],
      text: explain,
    }),
  ),
  ...[...evidenceMethods, ...calculations, ...studies].map(
    ({ name, title, basis, explain }): Page => ({
      name,
      kind: 'Evidence methods',
      title,
      facts: [`basis: ${basis}`],
      text: explain,
    }),
  ),
  ...[...schemas.types.values()].map(
    (type): Page => ({
      name: type.type,
      kind: 'Record types',
      title: `${type.title} (${type.prefix})`,
      facts: [],
      text: `${type.description}\n\n${fieldList(type.schema, ofEveryRecord)}`,
    }),
  ),
  ...shippedClauseTables.map(
    ({ key, title, source, edition, rows }): Page => ({
      name: key,
      kind: 'Clause tables',
      title,
      facts: [`source: ${source}`, `edition: ${edition}`],
      text: `Titles are in our own words; the text itself decides.\n\n${rows.map((row) => `- \`${row.clause}\`: ${row.title}${isFromMemory(row) ? ' (from memory)' : ''}`).join('\n')}`,
    }),
  ),
  ...[...schemas.views.values()].map(
    ({ name, schema }): Page => ({
      name,
      kind: 'Views',
      title: `View block: ${schema.title ?? name}`,
      facts: [],
      text: `${schema.description ?? ''}\n\n${fieldList(schema)}`,
    }),
  ),
  ...topics.map((topic): Page => ({ ...topic, kind: 'Topics', facts: [] })),
];

/** Fields with what they mean, and the fields within them as `limits.unit`. What every record has is left out at the top. */
const fieldList = (schema: JsonSchema, leftOut: readonly string[] = [], path = ''): string => {
  const required = new Set(schema.required ?? []);
  return Object.entries(schema.properties ?? {})
    .filter(([name]) => !leftOut.includes(name))
    .map(([name, field]) => {
      const values = field.enum ?? field.items?.enum;
      const line = `- \`${path}${name}\`${required.has(name) ? ' (required)' : ''}: ${field.description ?? ''}${values ? ` One of: ${values.join(', ')}.` : ''}`;
      const inner = fieldList(field.items ?? field, [], `${path}${name}.`);
      return inner === '' ? line : `${line}\n${inner}`;
    })
    .join('\n');
};

const ofEveryRecord = ['id', 'type', 'title', 'status', 'states'];

/** Markdown of an explanation as terminal text: lists keep their lines, what is indented stays, paragraphs are folded. */
const asText = (markdown: string, width: number): string =>
  markdown
    .split('\n\n')
    .map((block) =>
      /^ {4}/.test(block)
        ? block.replace(/^ {2}/gm, '')
        : /^[-*|`]/.test(block)
          ? block
              .split('\n')
              .map((line) => wrap(line.replace(/`/g, ''), width, '  ', ''))
              .join('\n')
          : wrap(block.replace(/`/g, ''), width),
    )
    .join('\n\n');

export const run: CommandRun = async (request, terminal) => {
  const all = pages(readSchemas(readOwnSchemas()));
  const width = Math.min(terminal.width, 79);
  if (request.argument === undefined) {
    for (const kind of [...new Set(all.map((page) => page.kind))]) {
      terminal.out(`${kind}\n`);
      const own = all.filter((page) => page.kind === kind);
      const column = Math.max(...own.map((page) => page.name.length)) + 4;
      for (const page of own)
        terminal.out(`${wrap(page.title, width, ' '.repeat(column), `  ${page.name}`.padEnd(column))}\n`);
      terminal.out('\n');
    }
    return 0;
  }
  const page = all.find((each) => each.name === request.argument);
  if (!page) {
    const near = nearestName(
      request.argument,
      all.map((each) => each.name),
    );
    throw new Refusal(
      `there is nothing to explain under "${request.argument}"`,
      near ? `Did you mean "${near}"?` : 'Run "plinth explain" for the list.',
    );
  }
  terminal.out(
    `${page.name}\n${wrap(page.title, width)}\n${page.facts.map((fact) => `${wrap(fact, width, '  ', '')}\n`).join('')}\n${asText(page.text, width)}\n`,
  );
  return 0;
};

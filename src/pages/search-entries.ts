import { documentText } from '../document/document-text.ts';
import type { SearchEntry } from '../document/site.ts';
import { applicabilityWords, legalRows } from '../graph/legal-rows.ts';
import type { TechnicalRecord } from '../records/record.ts';
import type { SiteContext } from './site-context.ts';

/** Text of one entry that is searched: enough for every record and document that people write. */
const longestText = 60_000;
const longestDocumentText = 400_000;

/** Text of a raw-data file that is searched: what its rows are called. */
const longestNames = 6000;

/**
 * Running text without the signs of its markup. Hyphens and underscores within words stay, for ids, dates and words
 * are written with them.
 */
const words = (text: string, longest: number): string =>
  text
    .replace(/^[ \t]*(?:#{1,6}|>|[-*+])[ \t]+/gm, ' ')
    .replace(/^[ \t|:-]+$/gm, ' ')
    .replace(/[|*`]+/g, ' ')
    .replace(/\s+/g, ' ')
    .trim()
    .slice(0, longest);

/** Strings of the front matter, but for digests and what stands elsewhere. */
const fieldText = (value: unknown, name = '', depth = 0): string => {
  if (name === 'approvals' || name === 'sha256' || name === 'id' || name === 'type' || name === 'title')
    return '';
  if (typeof value === 'string' || typeof value === 'number') return String(value);
  if (typeof value !== 'object' || value === null || depth > 6) return '';
  return Object.entries(value)
    .map(([key, inner]) => fieldText(inner, Array.isArray(value) ? name : key, depth + 1))
    .filter((text) => text !== '')
    .join(' ');
};

/** Who approved a record, in which role and when, and why it stands as it does. */
const judgementText = (record: TechnicalRecord, context: SiteContext): string =>
  [
    ...(context.approvals.of(record.id)?.states ?? [])
      .filter(({ state }) => state !== 'replaced')
      .map(({ approval, state }) =>
        [approval.name, approval.role, approval.meaning, approval.date, state].join(' '),
      ),
    context.standing.get(record.id)?.reason ?? '',
    context.evidence.get(record.id)?.reason ?? '',
  ].join(' ');

/** Cells of a raw-data file that name something, such as units and lots; measured values are not searched. */
const namesIn = (file: string, context: SiteContext): string => {
  const names = new Set<string>();
  for (const column of context.tableOf(file)?.columns ?? [])
    for (const { text } of column.cells) if (/\p{L}/u.test(text)) names.add(text);
  return [...names].join(' ').slice(0, longestNames);
};

/** What people call the clauses of a table before their number: `GSPR 10.4`; `820.30` says it itself. */
const clauseName = (table: string, short: string | undefined, clause: string): string => {
  const before = table === 'eu-mdr-annex-1' ? 'GSPR' : short || table;
  return clause.startsWith(before) ? clause : `${before} ${clause}`;
};

function* clauseEntries(context: SiteContext): Generator<SearchEntry> {
  for (const { record, table, clause, applicable, path } of legalRows(context.graph)) {
    const known = context.clauseTables.inUse(table);
    yield {
      path: context.recordPaths.get(record.id) ?? '',
      id: clauseName(table, known?.short, clause),
      title: known?.byClause.get(clause)?.title ?? (path.length === 0 ? record.title : `in ${record.id}`),
      kind: 'Clause',
      state: applicabilityWords(applicable),
      text: `${table} ${known?.title ?? ''} ${record.id}`,
    };
  }
}

/** Everything that the search of the copy finds: records, clauses, documents, raw data, findings and the lists. */
export function* searchEntries(context: SiteContext): Generator<SearchEntry> {
  const { graph, standing, evidence, findings } = context;
  for (const record of graph.records.values())
    yield {
      path: context.recordPaths.get(record.id) ?? '',
      id: record.id,
      title: record.title,
      kind: graph.types.get(record.type)?.title ?? record.type,
      state: standing.get(record.id)?.state ?? evidence.get(record.id)?.verdict ?? record.status,
      text: words(
        [
          fieldText(record.fields),
          record.type === 'document' ? '' : record.body,
          judgementText(record, context),
        ].join('\n'),
        longestText,
      ),
    };
  yield* clauseEntries(context);
  for (const compiled of context.documents)
    yield {
      path: context.documentPaths.get(compiled) ?? '',
      id: compiled.document.id,
      title: compiled.each ? `${compiled.document.title}, ${compiled.each.title}` : compiled.document.title,
      kind: 'Document',
      state: compiled.document.status,
      text: words(`${compiled.document.number} ${documentText(compiled.document)}`, longestDocumentText),
    };
  for (const raw of context.raw.values())
    yield {
      path: raw.pagePath,
      id: raw.file.split('/').at(-1) ?? raw.file,
      title: raw.records.map(({ id, title }) => `${id} ${title}`).join(', '),
      kind: 'Raw data',
      state: '',
      text: `${raw.file} ${namesIn(raw.file, context)}`,
    };
  for (const code of new Set(findings.map((finding) => finding.code)))
    yield {
      path: `findings.html#${code}`,
      id: code,
      title: `${findings.filter((finding) => finding.code === code).length} standing`,
      kind: 'Finding',
      state: findings.find((finding) => finding.code === code)?.level ?? '',
      text: findings
        .filter((finding) => finding.code === code)
        .slice(0, 20)
        .map((finding) => finding.message)
        .join(' '),
    };
}

import { documentText } from '../document/document-text.ts';
import type { SearchEntry } from '../document/site.ts';
import type { SiteContext } from './site-context.ts';

/** Text of one entry that is searched; what lies beyond is found by opening the page. */
const longestText = 1500;
const longestDocumentText = 30_000;

const words = (text: string, longest: number): string =>
  text
    .replace(/[\s|#*_`>-]+/g, ' ')
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

/** Everything that the search of the copy finds: records, documents, raw data, findings and the lists. */
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
        `${fieldText(record.fields)} ${record.type === 'document' ? '' : record.body}`,
        longestText,
      ),
    };
  for (const compiled of context.documents)
    yield {
      path: context.documentPaths.get(compiled) ?? '',
      id: compiled.document.number,
      title: compiled.each ? `${compiled.document.title}, ${compiled.each.title}` : compiled.document.title,
      kind: 'Document',
      state: compiled.document.status,
      text: words(documentText(compiled.document), longestDocumentText),
    };
  for (const raw of context.raw.values())
    yield {
      path: raw.pagePath,
      id: raw.file.split('/').at(-1) ?? raw.file,
      title: raw.records.map(({ id, title }) => `${id} ${title}`).join(', '),
      kind: 'Raw data',
      state: '',
      text: raw.file,
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

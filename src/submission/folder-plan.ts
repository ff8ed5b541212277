import type { DataFiles } from '../evidence/evaluate.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import type { RecordOf, TechnicalRecord } from '../records/record.ts';
import type { ClauseRow, ClauseTable } from '../regulation/clause-tables.ts';
import { deliverableName, wordsOfName } from './deliverable-name.ts';
import { rawDataOf } from './raw-data-of.ts';
import type { RowContent, SubmissionTable } from './submission-rows.ts';

/** A document as it is laid into the folder; `each` where it is written for each record of a type. */
export interface DocumentCopy {
  readonly document: RecordOf<'document'>;
  readonly each?: TechnicalRecord;
}

/** A file of the folder, by its path there without the ending of a document. */
export type PlannedFile =
  | { readonly kind: 'document'; readonly path: string; readonly copy: DocumentCopy }
  | { readonly kind: 'file'; readonly path: string; readonly source: string };

/** The folder that a submission becomes. */
export interface FolderPlan {
  readonly name: string;
  readonly files: readonly PlannedFile[];
  /** What one content entry of a row becomes, in order. */
  readonly filesOf: (content: RowContent) => readonly PlannedFile[];
}

export interface FolderContext {
  readonly graph: TraceGraph;
  readonly files: DataFiles;
  /** The copies in which a document is written. */
  readonly copiesOf: (document: RecordOf<'document'>) => readonly DocumentCopy[];
}

const copyKey = ({ document, each }: DocumentCopy): string => `${document.id}/${each?.id ?? ''}`;

/** The row above all others of a row: it gives the folder its name. */
const topOf = (row: ClauseRow, table: ClauseTable): ClauseRow => {
  let at = row;
  for (let steps = 0; at.parent !== undefined && steps <= table.rows.length; steps += 1) {
    const above = table.byClause.get(at.parent);
    if (!above) break;
    at = above;
  }
  return at;
};

/** Longest name of a folder. Windows opens no path of more than 260 signs, and the folder is moved to places we do not know. */
const longestFolder = 48;

const folderWords = (row: ClauseRow, table: ClauseTable): string => {
  const words = [table.short, row.clause, row.title].map(wordsOfName).filter((each) => each !== '');
  const name = words.join('-');
  return name.length <= longestFolder ? name : name.slice(0, longestFolder + 1).replace(/-[^-]*$/, '');
};

/** Names that Windows keeps for devices, with any ending. */
const deviceName = /^(?:con|prn|aux|nul|com[0-9]|lpt[0-9])(?=\.|$)/i;

/** A path of the technical file as it is laid into the folder: signs that a system could read otherwise are replaced. */
const safePath = (path: string): string =>
  path
    .split('/')
    .map(
      (step) =>
        step
          .normalize('NFKD')
          .replace(/\p{M}+/gu, '')
          .replace(/[^A-Za-z0-9._-]+/g, '-')
          .replace(/^[.-]+|[.-]+$/g, '')
          .replace(deviceName, '$&-') || 'x',
    )
    .join('/');

/** Names of the folders by table and topmost row. The number is the place of the part, so that it stays the same whatever the parts before it hold. */
const folderNames = (tables: readonly SubmissionTable[]): ReadonlyMap<string, string> => {
  const parts = tables.flatMap(({ table }) =>
    table.rows.filter((row) => topOf(row, table) === row).map((row) => ({ table, row })),
  );
  const digits = Math.max(2, String(parts.length).length);
  return new Map(
    parts.map(({ table, row }, index) => [
      `${table.key}/${row.clause}`,
      `${String(index + 1).padStart(digits, '0')}-${folderWords(row, table)}`,
    ]),
  );
};

/**
 * Lays out the folder of a submission: a numbered folder for each part of the tables, in their order. A document lies
 * once, where it is named first, under its usual name; raw data and files keep their paths in a folder of their own.
 */
export const planFolder = (
  submission: RecordOf<'submission'>,
  tables: readonly SubmissionTable[],
  context: FolderContext,
): FolderPlan => {
  const documents = new Map<string, PlannedFile>();
  const sources = new Map<string, PlannedFile>();
  const taken = new Set<string>();
  const folders = folderNames(tables);
  const folderOf = (row: ClauseRow, table: ClauseTable): string =>
    folders.get(`${table.key}/${topOf(row, table).clause}`) ?? 'other';
  const addFile = (source: string): void => {
    if (sources.has(source) || !context.files.has(source)) return;
    let path = `data/${safePath(source)}`;
    for (let more = 2; taken.has(path.toLowerCase()); more += 1)
      path = `data/${safePath(source).replace(/(\.[^./]*)?$/, `-${more}$1`)}`;
    taken.add(path.toLowerCase());
    sources.set(source, { kind: 'file', path, source });
  };
  for (const { table, rows } of tables)
    for (const { row, entry, isOwn } of rows) {
      if (!isOwn || !entry) continue;
      for (const content of entry.written.content ?? []) {
        for (const copy of copiesIn(content, context)) {
          const key = copyKey(copy);
          if (documents.has(key)) continue;
          const path = `${folderOf(row, table)}/${deliverableName(copy.document, copy.each)}`;
          documents.set(key, { kind: 'document', path, copy });
        }
        for (const source of sourcesIn(content, context)) addFile(source);
      }
    }
  return {
    name: `${submission.id}-${wordsOfName(submission.title)}`,
    files: [...documents.values(), ...[...sources.values()].sort((a, b) => (a.path < b.path ? -1 : 1))],
    filesOf: (content) => [
      ...copiesIn(content, context).flatMap((copy) => documents.get(copyKey(copy)) ?? []),
      ...sourcesIn(content, context).flatMap((source) => sources.get(source) ?? []),
    ],
  };
};

const copiesIn = (content: RowContent, { graph, copiesOf }: FolderContext): readonly DocumentCopy[] => {
  const document = content.document === undefined ? undefined : graph.recordOf('document', content.document);
  if (!document || document.status === 'retired') return [];
  const wanted = content.for && new Set(content.for);
  return copiesOf(document).filter(({ each }) => !wanted || (each !== undefined && wanted.has(each.id)));
};

const sourcesIn = (content: RowContent, { graph, files }: FolderContext): readonly string[] => {
  if (content.file !== undefined) return [content.file];
  if (content.raw_data !== undefined)
    return rawDataOf(content.raw_data, graph, files).map((each) => each.path);
  return [];
};

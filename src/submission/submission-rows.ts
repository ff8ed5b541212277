import type { RecordOf } from '../records/record.ts';
import type { ClauseRow, ClauseTable, ClauseTables } from '../regulation/clause-tables.ts';

type Submission = RecordOf<'submission'>;
type WrittenTable = Submission['fields']['tables'][number];

/** An entry of a submission as it is written. */
export type WrittenRow = WrittenTable['rows'][number];

/** One thing that answers a row. */
export type RowContent = NonNullable<WrittenRow['content']>[number];

/** An entry, and where it stands in the front matter. */
export interface SubmissionEntry {
  readonly written: WrittenRow;
  readonly path: readonly (string | number)[];
}

/**
 * How a row of the table stands in a submission. `answered` and `left empty` also where that is said of a row above;
 * `heading`: nothing is said of the row itself, but of rows below it; `missing`: nothing is said of it at all.
 */
export type RowState = 'answered' | 'left empty' | 'heading' | 'missing';

export interface SubmissionRow {
  readonly table: ClauseTable;
  readonly row: ClauseRow;
  readonly state: RowState;
  /** The entry that speaks of the row: its own, or that of the nearest row above which has one. */
  readonly entry?: SubmissionEntry;
  /** Whether the entry is that of the row itself. */
  readonly isOwn: boolean;
}

/** A table of contents that a submission follows, with all its rows. */
export interface SubmissionTable {
  readonly table: ClauseTable;
  readonly index: number;
  readonly rows: readonly SubmissionRow[];
}

/** Where an entry stands in the front matter. */
export const entryPath = (table: number, row: number): readonly (string | number)[] => [
  'tables',
  table,
  'rows',
  row,
];

/** The rows of the tables that a submission follows. Tables that are not known are left out: a check names them. */
export const submissionTables = (submission: Submission, tables: ClauseTables): readonly SubmissionTable[] =>
  submission.fields.tables.flatMap((written, index) => {
    const table = tables.inUse(written.table);
    return table ? [{ table, index, rows: rowsOf(written, index, table) }] : [];
  });

const rowsOf = (written: WrittenTable, index: number, table: ClauseTable): readonly SubmissionRow[] => {
  const entries = new Map<string, SubmissionEntry>();
  for (const [at, each] of written.rows.entries())
    if (!entries.has(each.clause)) entries.set(each.clause, { written: each, path: entryPath(index, at) });
  const parents = new Set(table.rows.flatMap((row) => row.parent ?? []));
  /** The entry of the row, or of the nearest one above it. */
  const entryOf = (row: ClauseRow): SubmissionEntry | undefined => {
    let at: ClauseRow | undefined = row;
    for (let steps = 0; at && steps <= table.rows.length; steps += 1) {
      const found = entries.get(at.clause);
      if (found) return found;
      at = at.parent === undefined ? undefined : table.byClause.get(at.parent);
    }
    return undefined;
  };
  const answered = new Set<string>();
  for (const row of table.rows)
    if (entries.has(row.clause)) {
      let at: ClauseRow | undefined = row;
      for (let steps = 0; at && steps <= table.rows.length; steps += 1) {
        answered.add(at.clause);
        at = at.parent === undefined ? undefined : table.byClause.get(at.parent);
      }
    }
  return table.rows.map((row): SubmissionRow => {
    const entry = entryOf(row);
    if (entry)
      return {
        table,
        row,
        entry,
        isOwn: entries.get(row.clause) === entry,
        state: (entry.written.content ?? []).length > 0 ? 'answered' : 'left empty',
      };
    const isHeading = parents.has(row.clause) && answered.has(row.clause);
    return { table, row, isOwn: false, state: isHeading ? 'heading' : 'missing' };
  });
};

/** Rows of which nothing is said, each with what lies below it: the topmost ones only. */
export const missingBranches = ({ rows, table }: SubmissionTable): readonly ClauseRow[] => {
  const missing = new Set(rows.filter((each) => each.state === 'missing').map((each) => each.row.clause));
  return table.rows.filter(
    (row) => missing.has(row.clause) && (row.parent === undefined || !missing.has(row.parent)),
  );
};

/** The entries of a submission with content, in the order of the file. */
export const contentOf = (
  submission: Submission,
): readonly {
  readonly content: RowContent;
  readonly clause: string;
  readonly path: readonly (string | number)[];
}[] =>
  submission.fields.tables.flatMap((table, index) =>
    table.rows.flatMap((row, at) =>
      (row.content ?? []).map((content, position) => ({
        content,
        clause: row.clause,
        path: [...entryPath(index, at), 'content', position],
      })),
    ),
  );

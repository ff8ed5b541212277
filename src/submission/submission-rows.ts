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
 * How a row of the table stands in a submission. `left empty` also where that is said of a row above; `answered` also
 * where content is given for the row directly above, and for none of the rows beside it. `heading`: nothing is said of
 * the row itself, but of rows below it; `missing`: nothing is said of it.
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
  /** Of a missing row: the nearest row above with content, which does not hold for this one. */
  readonly below?: ClauseRow;
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
  /** The row and those above it, the nearest first. */
  const upwards = (row: ClauseRow): readonly ClauseRow[] => {
    const path: ClauseRow[] = [];
    for (
      let at: ClauseRow | undefined = row;
      at && path.length <= table.rows.length;
      at = at.parent === undefined ? undefined : table.byClause.get(at.parent)
    )
      path.push(at);
    return path;
  };
  const hasContent = (entry: SubmissionEntry | undefined): boolean =>
    (entry?.written.content ?? []).length > 0;
  /** Rows of which something is said, there or below them. */
  const spoken = new Set<string>();
  /** Rows below which content is given. */
  const filledBelow = new Set<string>();
  for (const row of table.rows) {
    const entry = entries.get(row.clause);
    if (!entry) continue;
    const [, ...above] = upwards(row);
    for (const each of [row, ...above]) spoken.add(each.clause);
    if (hasContent(entry)) for (const each of above) filledBelow.add(each.clause);
  }
  return table.rows.map((row): SubmissionRow => {
    const from = upwards(row).find((each) => entries.has(each.clause));
    const entry = from && entries.get(from.clause);
    const isOwn = from === row;
    // A reason holds for all that is below. Content holds for the rows directly below it, and not where some of them
    // have content of their own: those beside them were passed over.
    const holds =
      !hasContent(entry) || isOwn || (from?.clause === row.parent && !filledBelow.has(row.parent ?? ''));
    if (entry && holds)
      return { table, row, entry, isOwn, state: hasContent(entry) ? 'answered' : 'left empty' };
    const isHeading = parents.has(row.clause) && spoken.has(row.clause);
    if (isHeading) return { table, row, isOwn: false, state: 'heading' };
    return { table, row, isOwn: false, state: 'missing', ...(from ? { below: from } : {}) };
  });
};

/** Rows of which nothing is said, there or above, each with what lies below it: the topmost ones only. */
export const missingBranches = ({ rows, table }: SubmissionTable): readonly ClauseRow[] => {
  const missing = new Set(
    rows.filter((each) => each.state === 'missing' && !each.below).map((each) => each.row.clause),
  );
  return table.rows.filter(
    (row) => missing.has(row.clause) && (row.parent === undefined || !missing.has(row.parent)),
  );
};

/** Rows with content that does not hold for all that lies below them, each with the rows that it leaves out. */
export const rowsPassedOver = ({
  rows,
}: SubmissionTable): readonly { readonly above: ClauseRow; readonly rows: readonly ClauseRow[] }[] => {
  const found = new Map<ClauseRow, ClauseRow[]>();
  for (const { row, below } of rows) if (below) found.set(below, [...(found.get(below) ?? []), row]);
  return [...found].map(([above, passedOver]) => ({ above, rows: passedOver }));
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

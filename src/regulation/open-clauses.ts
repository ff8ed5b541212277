import { type ClauseRow, type ClauseTable, rowsBelow } from './clause-tables.ts';

/** Clauses that a technical file answers, and whether the answer leaves them in place: false where one does not apply. */
export type AnsweredClauses = ReadonlyMap<string, boolean>;

/** Whether a clause, or one above it, does not apply: what stands below is set aside with it. */
export const isSetAside = (table: ClauseTable, row: ClauseRow, answered: AnsweredClauses): boolean => {
  let at: ClauseRow | undefined = row;
  // A table of a technical file may be faulty; a chain longer than its rows goes in a circle.
  for (let steps = 0; at && steps < table.rows.length; steps += 1) {
    if (answered.get(at.clause) === false) return true;
    at = at.parent === undefined ? undefined : table.byClause.get(at.parent);
  }
  return false;
};

/** The clause and those below it that have no answer and are not set aside, in the order of the table. */
export const openClauses = (
  table: ClauseTable,
  head: ClauseRow,
  answered: AnsweredClauses,
): readonly ClauseRow[] =>
  [head, ...rowsBelow(table, head.clause)].filter(
    (row) => !answered.has(row.clause) && !isSetAside(table, row, answered),
  );

import type { ClauseRow, ClauseTable } from './clause-tables.ts';

/** A clause that both editions have, and that reads otherwise in the later one. */
export interface ChangedClause {
  readonly before: ClauseRow;
  readonly after: ClauseRow;
}

export interface EditionDifference {
  /** Clauses that only the later edition has, in its order. */
  readonly added: readonly ClauseRow[];
  /** Clauses that only the earlier edition has, in its order. */
  readonly gone: readonly ClauseRow[];
  /** Another title, or another clause that heads it. */
  readonly changed: readonly ChangedClause[];
  readonly same: number;
}

const words = (text: string): string => text.replace(/\s+/g, ' ').trim();

/** Two editions of a table by the numbers of their clauses. Titles are somebody's own words: another one may mean no change. */
export const compareEditions = (before: ClauseTable, after: ClauseTable): EditionDifference => {
  const both = after.rows.flatMap((row) => {
    const earlier = before.byClause.get(row.clause);
    return earlier ? [{ before: earlier, after: row }] : [];
  });
  const changed = both.filter(
    (pair) =>
      words(pair.before.title) !== words(pair.after.title) || pair.before.parent !== pair.after.parent,
  );
  return {
    added: after.rows.filter((row) => !before.byClause.has(row.clause)),
    gone: before.rows.filter((row) => !after.byClause.has(row.clause)),
    changed,
    same: both.length - changed.length,
  };
};

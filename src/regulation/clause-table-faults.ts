import type { ClauseLevel, ClauseRow, ClauseTable } from './clause-tables.ts';

/** Something in a clause table that does not hold together, with the row that it is about. */
export interface ClauseTableFault {
  /** Index among the rows; undefined where the table as a whole is meant. */
  readonly row?: number;
  readonly message: string;
}

/** What a clause heads into: a chain of parents may not rise again. */
const ranks: Readonly<Record<ClauseLevel, number>> = {
  requirement: 0,
  sub: 1,
  subsub: 2,
  subsubsub: 3,
  point: 4,
  subpoint: 5,
};

/**
 * Whether a table holds together: every clause once, every parent there and before its rows, every provenance
 * explained, and as many rows as it says. The tables of the tool have no fault (a test); those of a technical file may.
 */
export const clauseTableFaults = (table: ClauseTable): readonly ClauseTableFault[] => {
  const faults: ClauseTableFault[] = [];
  const seen = new Map<string, ClauseRow>();
  for (const [row, each] of table.rows.entries()) {
    if (seen.has(each.clause)) faults.push({ row, message: `the clause "${each.clause}" stands twice` });
    if (each.parent !== undefined) {
      const parent = seen.get(each.parent);
      if (!parent)
        faults.push({
          row,
          message: table.byClause.has(each.parent)
            ? `the clause "${each.clause}" stands before its parent "${each.parent}"`
            : `the parent "${each.parent}" of the clause "${each.clause}" is not in the table`,
        });
      else if (ranks[parent.level] >= ranks[each.level])
        faults.push({
          row,
          message: `the clause "${each.clause}" (${each.level}) cannot stand below "${each.parent}" (${parent.level})`,
        });
    }
    if (!Object.hasOwn(table.provenance, each.provenance))
      faults.push({ row, message: `"${each.provenance}" under provenance is not explained by the table` });
    seen.set(each.clause, each);
  }
  if (table.rows.length !== table.counts.total)
    faults.push({ message: `the table says ${table.counts.total} rows and has ${table.rows.length}` });
  for (const level of Object.keys(ranks) as ClauseLevel[]) {
    const found = table.rows.filter((row) => row.level === level).length;
    if (found !== (table.counts[level] ?? 0))
      faults.push({
        message: `the table says ${table.counts[level] ?? 0} rows of level ${level} and has ${found}`,
      });
  }
  return faults;
};

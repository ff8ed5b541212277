import { type LegalRow, legalRows, placeOfRow } from '../graph/legal-rows.ts';
import type { ClauseTable } from '../regulation/clause-tables.ts';
import { defineCheck } from './check.ts';

/** The nearest clause above that is marked as not applicable. */
const setAsideAbove = (
  row: LegalRow,
  table: ClauseTable | undefined,
  all: readonly LegalRow[],
): LegalRow | undefined => {
  let at = table?.byClause.get(row.clause);
  // A table of a technical file may be faulty; a chain longer than its rows goes in a circle.
  for (let steps = 0; at?.parent !== undefined && steps < (table?.rows.length ?? 0); steps += 1) {
    const { parent } = at;
    const above = all.find((each) => each.table === row.table && each.clause === parent);
    if (above?.applicable === false) return above;
    at = table?.byClause.get(parent);
  }
  return undefined;
};

/** More clauses than this in one message say less than their number. */
const most = 8;

export const applicableBelowNotApplicable = defineCheck({
  code: 'applicable-below-not-applicable',
  level: 'warning',
  title: 'A clause applies below one that does not',
  basis: 'Regulation (EU) 2017/745 Annex II 4',
  explain:
    'A sub-clause is marked as applicable, and the clause above it as not applicable. One of the two is wrong, or the reason for the upper one holds for a part of it only.\n\nA reader of the overview sees that the requirement was set aside, and does not look further.\n\nMark the upper clause as applicable and say in its rows what does not apply, or set the sub-clause aside with its reason.',
  examines: 'applicable sub-clauses',
  subjects: ({ graph, clauseTables }) =>
    legalRows(graph).filter(
      ({ applicable, table, clause }) =>
        applicable === true && clauseTables.inUse(table)?.byClause.get(clause)?.parent !== undefined,
    ),
  judge: (row, { graph, clauseTables }) => {
    const all = legalRows(graph);
    const table = clauseTables.inUse(row.table);
    const above = setAsideAbove(row, table, all);
    if (!above) return [];
    // What stands below the same clause is told once, at the first of the rows.
    const rows = all.filter(
      (each) =>
        each.applicable === true && each.table === row.table && setAsideAbove(each, table, all) === above,
    );
    if (rows[0] !== row) return [];
    const isOne = rows.length === 1;
    const named = rows.slice(0, most).map(({ clause }) => clause);
    const rest = rows.length - named.length;
    return [
      {
        place: placeOfRow(row, 'applicable'),
        message: `${row.record.id}: ${isOne ? 'clause' : 'clauses'} ${named.join(', ')}${rest > 0 ? ` and ${rest} more` : ''} ${isOne ? 'applies' : 'apply'}, and ${above.clause} above ${isOne ? 'it' : 'them'} is marked as not applicable`,
        hint: isOne
          ? 'Correct one of the two.'
          : `Correct ${above.clause}, or set aside what stands below it.`,
        records: [...new Set(rows.map(({ record }) => record.id))],
        related: [{ place: placeOfRow(above, 'applicable'), message: `${above.clause} is set aside here` }],
        data: { clause: row.clause, above: above.clause },
      },
    ];
  },
});

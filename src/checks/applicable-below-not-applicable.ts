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
    const above = setAsideAbove(row, clauseTables.inUse(row.table), legalRows(graph));
    return above
      ? [
          {
            place: placeOfRow(row, 'applicable'),
            message: `${row.record.id}: clause ${row.clause} applies, and ${above.clause} above it is marked as not applicable`,
            hint: 'Correct one of the two.',
            records: [row.record.id],
            related: [
              { place: placeOfRow(above, 'applicable'), message: `${above.clause} is set aside here` },
            ],
            data: { clause: row.clause, above: above.clause },
          },
        ]
      : [];
  },
});

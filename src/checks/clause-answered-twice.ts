import { type LegalRow, legalRows, placeOfRow } from '../graph/legal-rows.ts';
import { defineCheck } from './check.ts';

export const clauseAnsweredTwice = defineCheck({
  code: 'clause-answered-twice',
  level: 'error',
  title: 'A clause is answered in two places',
  basis: 'Regulation (EU) 2017/745 Annex II 4',
  explain:
    'Two rows, of one record or of two, answer the same clause of the same table. Whichever of them is read, the other one says something else or will do so after the next change.\n\nReviewers ask which one holds, and a change may reach one of them only.\n\nKeep one row, with the evidence of both, and delete the other; retire a record that is no longer needed.',
  examines: 'clauses that legal requirements answer',
  subjects: ({ graph }) => {
    const byClause = new Map<string, LegalRow[]>();
    for (const row of legalRows(graph)) {
      const key = JSON.stringify([row.table, row.clause]);
      byClause.set(key, [...(byClause.get(key) ?? []), row]);
    }
    return [...byClause.values()];
  },
  judge: ([first, ...others]) =>
    first === undefined
      ? []
      : others.map((row) => ({
          place: placeOfRow(row, 'clause'),
          message: `${row.record.id} answers clause ${row.clause} of ${row.table}, which ${first.record.id === row.record.id ? 'it answers already' : `${first.record.id} answers already`}`,
          hint: 'Keep one of the two rows.',
          records: [...new Set([row.record.id, first.record.id])],
          related: [
            { place: placeOfRow(first, 'clause'), message: `${first.record.id} answers ${first.clause}` },
          ],
          data: { clause: row.clause },
        })),
});

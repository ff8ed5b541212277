import { legalRows, placeOfRow } from '../graph/legal-rows.ts';
import { defineCheck } from './check.ts';

export const requirementWithoutSolution = defineCheck({
  code: 'requirement-without-solution',
  level: 'warning',
  title: 'An applicable clause does not say how it is met',
  basis: 'Regulation (EU) 2017/745 Annex II 4(c)',
  explain:
    'The clause applies, and neither `solution` nor `standards` says how the device meets it. The technical documentation must name the standards, common specifications or other solutions that were applied. Drafts are not judged, nor are clauses whose sub-clauses are answered.\n\nEvidence without the solution that it is to show leaves the reviewer to guess what was done.\n\nAdd `solution` with one sentence on how the device meets the clause, or `standards`.',
  examines: 'applicable clauses that are no drafts',
  subjects: ({ graph }) => {
    const rows = legalRows(graph);
    const heads = new Set(
      rows.flatMap(({ record, path }) => (path.length > 0 ? [`${record.id} ${record.fields.clause}`] : [])),
    );
    return rows.filter(
      ({ applicable, record, clause }) =>
        applicable === true && record.status !== 'draft' && !heads.has(`${record.id} ${clause}`),
    );
  },
  judge: (row) =>
    (row.solution ?? '').trim() !== '' || row.standards.length > 0
      ? []
      : [
          {
            place: placeOfRow(row, 'solution', 'applicable'),
            message: `${row.record.id}: clause ${row.clause} applies, and nothing says how it is met`,
            hint: 'Add "solution" with one sentence, or "standards".',
            records: [row.record.id],
            data: { clause: row.clause },
          },
        ],
});

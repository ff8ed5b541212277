import { legalRows, placeOfRow } from '../graph/legal-rows.ts';
import { defineCheck } from './check.ts';

export const requirementWithoutMethod = defineCheck({
  code: 'requirement-without-method',
  level: 'warning',
  title: 'An applicable clause does not say by which method conformity is shown',
  basis: 'Regulation (EU) 2017/745 Annex II 4(b)',
  explain:
    'The clause applies and names evidence, but neither `method` nor `standards` says how that evidence shows conformity: by test, analysis, inspection, simulated use, by information supplied. The technical documentation must name the method for each requirement that applies. Drafts are not judged, nor are clauses that only head others.\n\nA pile of reports is no demonstration: without the method, a reviewer cannot tell what a report is there to show.\n\nAdd `method`, with one or more of the words that `plinth explain legal-requirement` lists.',
  examines: 'applicable clauses with evidence that are no drafts',
  subjects: ({ graph }) =>
    legalRows(graph).filter(
      ({ applicable, evidence, record }) =>
        applicable === true && evidence.length > 0 && record.status !== 'draft',
    ),
  judge: (row) =>
    row.method.length > 0 || row.standards.length > 0
      ? []
      : [
          {
            place: placeOfRow(row, 'evidence', 'clause'),
            message: `${row.record.id}: clause ${row.clause} applies, but names no method by which conformity is shown`,
            hint: 'Add "method", such as [test, analysis].',
            records: [row.record.id],
            data: { clause: row.clause },
          },
        ],
});

import { placeOf } from '../records/record.ts';
import { clauseTable } from '../regulation/clause-tables.ts';
import { defineCheck } from './check.ts';

export const applicabilityWithoutReason = defineCheck({
  code: 'applicability-without-reason',
  level: 'error',
  title: 'A clause is marked as not applicable without a reason',
  basis: 'Regulation (EU) 2017/745 Annex II 4',
  explain:
    'The technical documentation must explain why a requirement does not apply. Here the clause is set aside and the reason is missing.\n\nA reviewer cannot tell a considered decision from a line that nobody looked at. And a clause set aside without thought may be the one that protects the patient.\n\nWrite the reason under `reason`: one sentence that names the property of the device on which it rests ("contains no medicinal substance").',
  examines: 'legal requirements marked as not applicable',
  subjects: ({ graph }) =>
    graph
      .recordsOf('legal-requirement')
      .filter((requirement) => requirement.status !== 'retired' && !requirement.fields.applicable),
  judge: (requirement) => {
    const { clause, table, reason } = requirement.fields;
    if ((reason ?? '').trim() !== '') return [];
    const title = clauseTable(table)?.byClause.get(clause)?.title ?? requirement.title;
    return [
      {
        place: placeOf(requirement, reason === undefined ? 'applicable' : 'reason'),
        message: `${requirement.id} marks clause ${clause} "${title}" as not applicable without a reason`,
        hint: 'Add "reason" with the property of the device on which the decision rests.',
        records: [requirement.id],
        data: { clause },
      },
    ];
  },
});

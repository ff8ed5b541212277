import { legalRows, placeOfRow } from '../graph/legal-rows.ts';
import { rowKnowledge } from '../regulation/row-knowledge.ts';
import { defineCheck } from './check.ts';

/** Words that repeat the decision in place of a reason. */
const saysNothing = /^(?:|[-–—.]+|n\/?a|none|no|not (?:applicable|relevant|required)|does not apply)[.!]?$/i;

export const applicabilityWithoutReason = defineCheck({
  code: 'applicability-without-reason',
  level: 'error',
  title: 'A clause is marked as not applicable without a reason',
  basis: 'Regulation (EU) 2017/745 Annex II 4',
  explain:
    'The technical documentation must explain why a requirement does not apply. Here the clause is set aside and the reason is missing, or only says again that it does not apply. For a row that the tool knows from memory only it is a warning.\n\nA reviewer cannot tell a considered decision from a line that nobody looked at. And a clause set aside without thought may be the one that protects the patient.\n\nWrite the reason under `reason`: one sentence that names the property of the device on which it rests ("contains no medicinal substance").',
  examines: 'clauses marked as not applicable',
  subjects: ({ graph }) => legalRows(graph).filter((row) => row.applicable === false),
  judge: (row, { clauseTables }) => {
    const { clause, table, reason, record } = row;
    if (!saysNothing.test((reason ?? '').trim())) return [];
    const known = rowKnowledge(clauseTables.inUse(table), clause);
    const title = clauseTables.inUse(table)?.byClause.get(clause)?.title ?? record.title;
    return [
      {
        place: placeOfRow(row, 'reason', 'applicable'),
        message: `${record.id} marks clause ${clause} "${title}"${known.words} as not applicable without a reason`,
        hint: 'Add "reason" with the property of the device on which the decision rests.',
        records: [record.id],
        ...known.level,
        data: { clause },
      },
    ];
  },
});

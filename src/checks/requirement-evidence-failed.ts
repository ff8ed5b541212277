import { evidenceTypes } from '../evidence/evidence-types.ts';
import { type LegalRow, legalRows, placeOfRow } from '../graph/legal-rows.ts';
import { repetitionsOf } from '../graph/tested-revisions.ts';
import { type CheckContext, type Draft, defineCheck } from './check.ts';

/** Whether the row also names a repetition of the record that passes: then the failure is told as what it is. */
const isRepeated = (row: LegalRow, id: string, { graph, evidence }: CheckContext): boolean => {
  const record = graph.recordOf('verification-record', id) ?? graph.recordOf('validation-record', id);
  return (
    record !== undefined &&
    repetitionsOf(graph, record).some(
      (other) =>
        other.status !== 'retired' &&
        evidence.get(other.id)?.verdict === 'pass' &&
        row.evidence.some((each) => each.record === other.id),
    )
  );
};

export const requirementEvidenceFailed = defineCheck({
  code: 'requirement-evidence-failed',
  level: 'warning',
  title: 'The evidence of an applicable clause failed, or its verdict is open',
  basis: 'Regulation (EU) 2017/745 Annex II 4(d) and 6.1',
  explain:
    'A legal requirement names a record as evidence whose verdict, computed from the raw data, is fail or undecided, and does not name a repetition that passes.\n\nA reviewer who follows the link finds a result that speaks against the clause.\n\nThe failure itself is told where it stands; this finding names the clauses that lean on it. Name the record that repeats the test beside it, or show the clause by something else. Whether the evidence is enough is for people to decide.',
  awaits: [...evidenceTypes, 'design-output'],
  examines: 'evidence of applicable clauses that has a verdict',
  subjects: ({ graph, evidence }) =>
    legalRows(graph)
      .filter((row) => row.applicable === true)
      .flatMap((row) =>
        row.evidence.flatMap(({ record }) => {
          const found = evidence.get(record);
          return found ? [{ row, id: record, found }] : [];
        }),
      ),
  judge: ({ row, id, found }, context): readonly Draft[] =>
    found.verdict === 'pass' || isRepeated(row, id, context)
      ? []
      : [
          {
            place: placeOfRow(row, 'evidence'),
            message: `${row.record.id}: clause ${row.clause} is to be shown by ${id}, whose verdict is ${found.verdict}: ${found.reason}`,
            hint: 'Name the record that repeats it and passes, or other evidence.',
            records: [row.record.id, id],
            data: { clause: row.clause, evidence: id, verdict: found.verdict },
          },
        ],
});

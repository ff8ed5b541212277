import { placeOf } from '../records/record.ts';
import { contentOf } from '../submission/submission-rows.ts';
import { type Draft, defineCheck } from './check.ts';

export const submissionRecordInDoubt = defineCheck({
  code: 'submission-record-in-doubt',
  level: 'warning',
  title: 'A record that answers a row of a submission is not shown, or not approved',
  basis: 'Regulation (EU) 2017/745 Annex II 6 (results of verification and validation)',
  explain:
    'A submission names a record as the answer to a row, and that record is a draft, or its standing is not "passed": it failed, is in doubt, or was never shown.\n\nThe row looks answered, and the answer says the opposite. Handing in a failure is right where it is told as one; as evidence for a row it is an error that a reviewer will find.\n\nLook at the record (`plinth vouch ID` walks the way down to what decides), and mend what is open. Where the failure belongs to the answer, name the document that tells of it.',
  awaits: 'named',
  examines: 'records that submissions name',
  subjects: ({ graph }) =>
    graph
      .recordsOf('submission')
      .filter((submission) => submission.status !== 'retired')
      .flatMap((submission) =>
        contentOf(submission).flatMap(({ content, clause, path }) => {
          const record = content.record === undefined ? undefined : graph.record(content.record);
          return record ? [{ submission, record, clause, path }] : [];
        }),
      ),
  judge: ({ submission, record, clause, path }, { standing }): readonly Draft[] => {
    const state = standing.get(record.id);
    const why =
      record.status !== 'approved'
        ? `is ${record.status === 'draft' ? 'a draft' : record.status}`
        : state && state.state !== 'passed'
          ? `is ${state.state}: ${state.reason}`
          : undefined;
    return why === undefined
      ? []
      : [
          {
            place: placeOf(submission, ...path, 'record'),
            message: `${submission.id} answers row ${clause} by ${record.id}, which ${why}`,
            hint: `See what is open (plinth vouch ${record.id}), or answer the row by something else.`,
            records: [submission.id, record.id, ...(state?.because ?? []).filter((id) => id !== record.id)],
          },
        ];
  },
});

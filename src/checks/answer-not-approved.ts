import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const answerNotApproved = defineCheck({
  code: 'answer-not-approved',
  level: 'error',
  title: 'An answer or a submission went out without an approval',
  basis: 'ISO 13485:2016 4.2.4 (review and approval before issue)',
  explain:
    'An answer to an authority was sent, or a submission was handed in, on a day on which nobody had approved the record in its present content: it has no approval of that day or before, or that approval covers another text.\n\nWhat leaves the house binds the maker. An answer that one person wrote and sent alone is where statements about the device come from that nobody can stand behind later.\n\nHave the answer approved before it is sent. The day itself is not part of what is approved, so it can be added afterwards. Where the text was changed after it had been sent, write a new record for what was sent then.',
  examines: 'answers that were sent and submissions that were handed in',
  subjects: ({ graph }) => [
    ...graph.recordsOf('authority-question').flatMap((record) =>
      record.status !== 'retired' &&
      record.fields.answered !== undefined &&
      // A day before the question came in has a finding of its own.
      record.fields.answered >= record.fields.received
        ? [{ record, day: record.fields.answered, field: 'answered', what: 'was answered' }]
        : [],
    ),
    ...graph
      .recordsOf('submission')
      .flatMap((record) =>
        record.status !== 'retired' && record.fields.handed_in !== undefined
          ? [{ record, day: record.fields.handed_in, field: 'handed_in', what: 'was handed in' }]
          : [],
      ),
  ],
  judge: ({ record, day, field, what }, { approvals }) => {
    const digest = approvals.digests.get(record.id);
    const states = approvals.of(record.id)?.states ?? [];
    const covering = states.filter(({ approval }) => approval.digest === digest);
    if (covering.some(({ approval }) => approval.date <= day)) return [];
    const first = covering.map(({ approval }) => approval.date).sort()[0];
    return [
      {
        place: placeOf(record, field),
        message: `${record.id} ${what} on ${day}, and ${
          first !== undefined
            ? `its text was first approved on ${first}`
            : states.length > 0
              ? 'no approval covers its text as it is'
              : 'nobody has approved it'
        }`,
        hint: 'Have the text approved before it goes out, or correct the day.',
        records: [record.id],
        data: { day },
      },
    ];
  },
});

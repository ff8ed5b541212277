import { isRealDate } from '../records/calendar.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const authorityQuestionOverdue = defineCheck({
  code: 'authority-question-overdue',
  level: 'warning',
  title: 'A question of an authority is open past its day',
  basis: 'common practice, no source: authorities and notified bodies set a day for answers',
  explain:
    'An authority or a notified body asked a question, the day for the answer has passed, and nothing says that it was sent. Bodies close applications whose questions stay open.\n\nWorse than the lost application is what the question may be about: somebody outside has seen something in the file that does not hold.\n\nSend the answer and add `answered`, or agree on a later day with the body and correct `due`.',
  examines: 'questions of authorities with a day for the answer',
  subjects: ({ graph }) =>
    graph
      .recordsOf('authority-question')
      .filter((question) => question.status !== 'retired' && question.fields.due !== undefined),
  judge: (question, { asOf }) => {
    const { due = '', answered, body } = question.fields;
    return answered !== undefined || due >= asOf || !isRealDate(due)
      ? []
      : [
          {
            place: placeOf(question, 'due'),
            message: `${question.id}: the answer to ${body} was due on ${due} and is open on ${asOf}`,
            hint: 'Send the answer and add "answered", or agree on a later day and correct "due".',
            records: [question.id],
            data: { due, as_of: asOf },
          },
        ];
  },
});

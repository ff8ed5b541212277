import { isRealDate } from '../records/calendar.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const answerBeforeQuestion = defineCheck({
  code: 'answer-before-question',
  level: 'error',
  title: 'A question of an authority was answered before it was received',
  basis: 'common practice, no source: an answer follows its question',
  explain:
    'The record of a question names a day of the answer that lies before the day on which the question was received. One of the two is wrong.\n\nDays of letters are compared with those of the body. A file that cannot have happened as it says puts its other dates in doubt.\n\nLook both days up in the letters and correct the wrong one.',
  examines: 'questions of authorities that were answered',
  subjects: ({ graph }) =>
    graph
      .recordsOf('authority-question')
      .filter((question) => question.status !== 'retired' && question.fields.answered !== undefined),
  judge: (question) => {
    const { received, answered = '' } = question.fields;
    return answered >= received || !isRealDate(answered) || !isRealDate(received)
      ? []
      : [
          {
            place: placeOf(question, 'answered'),
            message: `${question.id} was answered on ${answered} and received on ${received}, later than its answer`,
            hint: 'Look both days up in the letters and correct the wrong one.',
            records: [question.id],
            data: { received, answered },
          },
        ];
  },
});

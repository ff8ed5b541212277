import { isRealDate } from '../records/calendar.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const authorityQuestionDatesReversed = defineCheck({
  code: 'authority-question-dates-reversed',
  level: 'error',
  title: 'A question of an authority was due before it was received, or closed before it was answered',
  basis: 'common practice, no source: a question is received, then answered, then closed',
  explain:
    'The record of a question has a day by which it is to be answered that lies before the day on which it was received, or a day on which the body closed it that lies before the question or before its answer. One of the days is wrong.\n\nDays of letters are compared with those of the body. A wrong day for the answer also lets a question run past its time unseen.\n\nLook both days up in the letters and correct the wrong one.',
  examines: 'questions of authorities with a day due or closed',
  subjects: ({ graph }) =>
    graph
      .recordsOf('authority-question')
      .filter(
        ({ status, fields }) =>
          status !== 'retired' && (fields.due !== undefined || fields.closed !== undefined),
      ),
  judge: (question): readonly Draft[] => {
    const { received, due, answered, closed } = question.fields;
    // An answer before its question has a finding of its own; the closing is then held against the question.
    const before = answered !== undefined && answered >= received ? 'answered' : 'received';
    const earlier = before === 'answered' ? (answered ?? '') : received;
    return [
      { field: 'due', day: due, than: 'received', other: received },
      { field: 'closed', day: closed, than: before, other: earlier },
    ].flatMap(({ field, day, than, other }): readonly Draft[] =>
      day === undefined || day >= other || !isRealDate(day) || !isRealDate(other)
        ? []
        : [
            {
              place: placeOf(question, field),
              message: `${question.id} was ${field} on ${day} and ${than} on ${other}, which is later`,
              hint: 'Look both days up in the letters and correct the wrong one.',
              records: [question.id],
              related: [{ place: placeOf(question, than), message: `${than} on ${other}` }],
              data: { [field]: day, [than]: other },
            },
          ],
    );
  },
});

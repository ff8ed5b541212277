import { isRealDate } from '../records/calendar.ts';
import { isOfType, placeOf, type TechnicalRecord } from '../records/record.ts';
import { defineCheck } from './check.ts';

interface Event {
  readonly date: string;
  readonly words: string;
  readonly path: readonly (string | number)[];
}

/** Days that the content of a record tells of as past: nobody can have approved it before the last of them. */
const eventsOf = (record: TechnicalRecord): readonly Event[] => {
  if (isOfType(record, 'verification-record') || isOfType(record, 'validation-record'))
    return [{ date: record.fields.executed.to, words: 'the last day of the work', path: ['executed', 'to'] }];
  if (isOfType(record, 'analysis') && record.fields.date !== undefined)
    return [{ date: record.fields.date, words: 'the day of the analysis', path: ['date'] }];
  if (isOfType(record, 'benefit-risk') && record.fields.date !== undefined)
    return [{ date: record.fields.date, words: 'the day of the decision', path: ['date'] }];
  if (isOfType(record, 'risk-review'))
    return [{ date: record.fields.date, words: 'the day of the review', path: ['date'] }];
  if (isOfType(record, 'design-change'))
    return [{ date: record.fields.date, words: 'the day of the decision', path: ['date'] }];
  if (isOfType(record, 'design-review'))
    return [
      { date: record.fields.date, words: 'the day of the review', path: ['date'] },
      ...(record.fields.gate?.decided === undefined
        ? []
        : [
            {
              date: record.fields.gate.decided,
              words: 'the day on which the gate was decided',
              path: ['gate', 'decided'],
            },
          ]),
      ...(record.fields.actions ?? []).flatMap(({ closed }, index) =>
        closed === undefined
          ? []
          : [
              {
                date: closed,
                words: 'the day on which an action was closed',
                path: ['actions', index, 'closed'],
              },
            ],
      ),
    ];
  if (isOfType(record, 'classification'))
    return [
      { date: record.fields.decided.date, words: 'the day of the decision', path: ['decided', 'date'] },
    ];
  if (isOfType(record, 'standard') && record.fields.gap_analysis)
    return [
      {
        date: record.fields.gap_analysis.date,
        words: 'the day of the gap analysis',
        path: ['gap_analysis', 'date'],
      },
    ];
  if (isOfType(record, 'deviation'))
    return [
      ...(record.fields.date === undefined
        ? []
        : [{ date: record.fields.date, words: 'the day of the deviation', path: ['date'] }]),
      ...(record.fields.closed === undefined
        ? []
        : [{ date: record.fields.closed, words: 'the day on which it was closed', path: ['closed'] }]),
    ];
  if (isOfType(record, 'equipment'))
    return record.fields.calibrations.map(({ from, certificate }, index) => ({
      date: from,
      words: `the first day of certificate ${certificate}`,
      path: ['calibrations', index, 'from'],
    }));
  return [];
};

export const approvalBeforeEvent = defineCheck({
  code: 'approval-before-event',
  level: 'error',
  title: 'A record was approved before what it tells of had happened',
  basis: 'ISO 13485:2016 4.2.5 (control of records)',
  explain:
    'The approval covers the content as it is now, and the content tells of a day after the approval: the last day of a test, the decision on a change, the closing of a deviation, a new certificate. Nobody can have approved that text on the day that the approval bears.\n\nA report that is signed before its data exist, or an old signature under a new text, is what an auditor calls back-dating. Mostly it is a slip: a date was mistyped, or the digest of an old approval was brought up to date instead of the record being approved again.\n\nCorrect the date that is wrong, or have the record approved again today. Do not change the date of an approval that was really given on that day: its digest then has to be that of the text of that day.',
  examines: 'approvals of records that tell of dated events',
  subjects: ({ approvals }) =>
    [...approvals.all.values()].flatMap(({ record, states }) => {
      const events =
        record.status === 'retired' || !record.sound
          ? []
          : eventsOf(record).filter(({ date }) => isRealDate(date));
      const last = events.reduce<Event | undefined>((a, b) => (a && a.date >= b.date ? a : b), undefined);
      return last ? states.map(({ approval, index }) => ({ record, approval, index, last })) : [];
    }),
  judge: ({ record, approval, index, last }, { approvals }) => {
    if (approval.digest !== approvals.digests.get(record.id) || approval.date >= last.date) return [];
    return [
      {
        place: placeOf(record, 'approvals', index, 'date'),
        message: `the approval of ${record.id} by ${approval.role} of ${approval.date} covers a text that tells of ${last.date}, ${last.words}`,
        hint: 'Correct the date that is wrong, or have the record approved again.',
        records: [record.id],
        related: [{ place: placeOf(record, ...last.path), message: last.words }],
        data: { approved: approval.date, event: last.date },
      },
    ];
  },
});

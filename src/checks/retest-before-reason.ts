import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const retestBeforeReason = defineCheck({
  code: 'retest-before-reason',
  level: 'warning',
  title: 'A test was repeated before the reason for repeating it had been decided',
  basis: 'ISO 13485:2016 7.3.9 (changes reviewed and approved before implementation) and 8.3',
  explain:
    'The record repeats an earlier one because of a design change or a deviation, and its work began before the day of that decision.\n\nA repetition that comes first and finds its reason later cannot be told from trying again until it passes.\n\nCorrect the date if it is a slip. Otherwise say in the design change or the deviation why the work had begun, and what would have happened had it failed again.',
  examines: 'repetitions that name their reason',
  subjects: ({ graph }) =>
    graph.recordsOf('verification-record').flatMap((record) => {
      const reason =
        record.fields.because === undefined
          ? undefined
          : (graph.recordOf('design-change', record.fields.because) ??
            graph.recordOf('deviation', record.fields.because));
      return record.status !== 'retired' && record.fields.retests !== undefined && reason
        ? [{ record, reason }]
        : [];
    }),
  judge: ({ record, reason }) => {
    const begun = record.fields.executed.from;
    const decided = reason.fields.date;
    if (decided === undefined || begun >= decided) return [];
    return [
      {
        place: placeOf(record, 'executed', 'from'),
        message: `${record.id} repeats ${record.fields.retests} because of ${reason.id} of ${decided}, but began on ${begun}`,
        hint: `Correct the date, or say in ${reason.id} why the repetition had begun before it was decided.`,
        records: [record.id, reason.id],
        related: [{ place: placeOf(reason, 'date'), message: `${reason.id} is dated ${decided}` }],
        data: { began: begun, decided },
      },
    ];
  },
});

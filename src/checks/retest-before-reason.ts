import { isOfType, placeOf, type TechnicalRecord } from '../records/record.ts';
import { type CheckContext, defineCheck } from './check.ts';

interface Decision {
  readonly date: string;
  readonly words: string;
  readonly path: readonly (string | number)[];
}

/**
 * Day from which the reason justifies work. A design change counts from its first approval. A deviation is mostly
 * approved when it is closed, which is after the repetition that it asks for; so the day on which it was noticed counts.
 */
const decidedOn = (reason: TechnicalRecord, { approvals }: CheckContext): Decision | undefined => {
  const given =
    reason.type === 'design-change'
      ? (approvals.of(reason.id)?.states ?? []).map((state) => state.approval)
      : [];
  const [first] = given.map(({ date }) => date).sort();
  if (first !== undefined)
    return {
      date: first,
      words: 'approved on',
      path: ['approvals', given.findIndex(({ date }) => date === first), 'date'],
    };
  const date =
    isOfType(reason, 'design-change') || isOfType(reason, 'deviation') ? reason.fields.date : undefined;
  return date === undefined ? undefined : { date, words: 'dated', path: ['date'] };
};

export const retestBeforeReason = defineCheck({
  code: 'retest-before-reason',
  level: 'warning',
  title: 'A test was repeated before the reason for repeating it had been approved',
  basis: 'ISO 13485:2016 7.3.9 (changes reviewed and approved before implementation) and 8.3',
  explain:
    'The record repeats an earlier one because of a design change or a deviation, and its work began before the change had first been approved, or before the deviation had been noticed.\n\nA repetition that comes first and finds its reason later cannot be told from trying again until it passes.\n\nCorrect the date if it is a slip. Otherwise say in the design change or the deviation why the work had begun, and what would have happened had it failed again.',
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
  judge: ({ record, reason }, context) => {
    const begun = record.fields.executed.from;
    const decision = decidedOn(reason, context);
    if (decision === undefined || begun >= decision.date) return [];
    return [
      {
        place: placeOf(record, 'executed', 'from'),
        message: `${record.id} repeats ${record.fields.retests} because of ${reason.id}, ${decision.words} ${decision.date}, but began on ${begun}`,
        hint: `Correct the date, or say in ${reason.id} why the repetition had begun before.`,
        records: [record.id, reason.id],
        related: [
          {
            place: placeOf(reason, ...decision.path),
            message: `${reason.id} is ${decision.words} ${decision.date}`,
          },
        ],
        data: { began: begun, decided: decision.date },
      },
    ];
  },
});

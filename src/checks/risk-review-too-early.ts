import { currentRiskReviews } from '../evidence/risk-reviews.ts';
import { placeOf, type TechnicalRecord } from '../records/record.ts';
import { type CheckContext, defineCheck } from './check.ts';

interface Event {
  readonly record: TechnicalRecord;
  readonly date: string;
  readonly words: string;
}

const live = (record: TechnicalRecord): boolean => record.status !== 'retired';

/** Last approval of each risk and benefit-risk decision: what the review was to judge. */
const judgements = ({ graph }: CheckContext): readonly Event[] =>
  [...graph.recordsOf('risk'), ...graph.recordsOf('benefit-risk')].filter(live).flatMap((record) => {
    const date = (record.fields.approvals ?? [])
      .map((each) => each.date)
      .toSorted()
      .at(-1);
    return date === undefined ? [] : [{ record, date, words: `${record.id} was approved on ${date}` }];
  });

/** Approved results that show a control. */
const results = ({ graph }: CheckContext): readonly Event[] =>
  graph
    .recordsOf('risk-control')
    .filter(live)
    .flatMap((control) => graph.linksFrom(control.id, 'shown_by').map((link) => link.to))
    .filter((id, index, all) => all.indexOf(id) === index)
    .flatMap((id): readonly Event[] => {
      const tests = [
        ...graph.sources(id, 'reports', 'verification-record'),
        ...graph.sources(id, 'reports', 'validation-record'),
      ].map((record) => ({ record, date: record.fields.executed.to }));
      const analysis = graph.recordOf('analysis', id);
      const dated = analysis?.fields.date ? [{ record: analysis, date: analysis.fields.date }] : [];
      return [...tests, ...dated]
        .filter(({ record }) => record.status === 'approved')
        .map(({ record, date }) => ({ record, date, words: `${record.id} ends on ${date}` }));
    });

export const riskReviewTooEarly = defineCheck({
  code: 'risk-review-too-early',
  level: 'warning',
  title: 'The risk management review was held before what it judges was there',
  basis: 'ISO 14971:2019 8 and 9 (from memory)',
  explain:
    'The latest risk management review is dated before the approval of a residual risk or benefit-risk decision, or before the end of a test that shows a control. It cannot have judged what was not there yet.\n\nThe review is the last look at all risks together before the device reaches a patient. A result that came after it was looked at by nobody as part of the whole.\n\nReview again on what is there now and record it with its own date. If the date was mistyped, correct it and have the review approved again.',
  examines: 'the latest risk management review',
  subjects: ({ graph }) => currentRiskReviews(graph).slice(0, 1),
  judge: (review, context) => {
    const { date } = review.fields;
    const later = [...judgements(context), ...results(context)]
      .filter((event) => event.date > date)
      .toSorted((a, b) => (a.date > b.date ? -1 : a.date < b.date ? 1 : 0));
    const [last] = later;
    if (!last) return [];
    const others = later.length - 1;
    return [
      {
        place: placeOf(review, 'date'),
        message: `${review.id} is dated ${date}, but ${last.words}${others > 0 ? `, and ${others} more are later` : ''}`,
        hint: 'Review again on what is there now, with its own date.',
        records: [review.id, ...later.map(({ record }) => record.id)],
        related: later
          .slice(0, 5)
          .map(({ record, words }) => ({ place: placeOf(record, 'id'), message: words })),
        data: { review: date, later: last.date },
      },
    ];
  },
});

import { currentRiskReviews } from '../evidence/risk-reviews.ts';
import { placeOf, type TechnicalRecord } from '../records/record.ts';
import { type CheckContext, defineCheck } from './check.ts';

/** Words in the stage or title of a design review that say that the device is handed over or released. */
const releaseWords = /\b(?:release|final|transfer)\b/i;
const reportWords = /\brisk management report\b/i;

/** A review that does not meet its schema has been reported as such. */
const hasUnreadReview = ({ records }: CheckContext['graph']): boolean =>
  [...records.values()].some((record) => record.type === 'risk-review' && !record.sound);

/** Approved records that take the overall residual risk as judged. */
const takenAsJudged = ({ graph }: CheckContext): readonly TechnicalRecord[] => [
  ...graph
    .recordsOf('design-review')
    .filter(
      (review) =>
        review.status === 'approved' &&
        (releaseWords.test(review.title) || releaseWords.test(review.fields.stage)),
    ),
  ...graph
    .recordsOf('document')
    .filter((document) => document.status === 'approved' && reportWords.test(document.title)),
];

export const overallResidualRiskMissing = defineCheck({
  code: 'overall-residual-risk-missing',
  level: 'error',
  title: 'The device goes to release, and nobody has accepted the overall residual risk',
  basis: 'Regulation (EU) 2017/745 Annex I 4; ISO 14971:2019 8 and 9 (from memory)',
  explain:
    'A final review or a risk management report is approved, and the file holds approved risks. But there is no approved record of type risk-review, or the latest one decides that the overall residual risk is not acceptable.\n\nEach risk may be acceptable by itself and all of them together not: several can strike the same patient, and one measure can make another weaker. The law asks that the overall residual risk be judged acceptable, and only people can judge it. No sum of classes takes their place.\n\nHold the review by the method of the risk management plan, record it with `plinth new risk-review`, and have it approved by the roles that the plan names. If the decision is "not acceptable", reduce risks further before release.',
  examines: 'final reviews and risk management reports of files with approved risks',
  subjects: (context) =>
    context.graph.recordsOf('risk').some((risk) => risk.status === 'approved') ? takenAsJudged(context) : [],
  judge: (record, { graph }) => {
    const reviews = currentRiskReviews(graph);
    const latest = reviews.find((review) => review.status === 'approved');
    if (latest?.fields.overall_residual_risk.decision === 'acceptable' || hasUnreadReview(graph)) return [];
    const ids = (latest ? [latest] : reviews).map((review) => review.id);
    const why = latest
      ? `${latest.id} of ${latest.fields.date} decides "not acceptable"`
      : ids.length === 0
        ? 'no risk management review has judged the overall residual risk'
        : `${ids.join(', ')}, which judges the overall residual risk, is not approved`;
    return [
      {
        place: placeOf(record, 'status'),
        message: `${record.id} "${record.title}" is approved, but ${why}`,
        hint: latest
          ? 'Reduce the risks further and review again, or take the release back.'
          : ids.length === 0
            ? 'Hold the review and record it (plinth new risk-review).'
            : `Have ${ids.join(', ')} approved.`,
        records: [record.id, ...ids],
        related: (latest ? [latest] : reviews).map((review) => ({
          place: placeOf(review, latest ? 'overall_residual_risk' : 'status'),
          message: `${review.id}`,
        })),
      },
    ];
  },
});

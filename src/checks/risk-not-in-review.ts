import { currentRiskReviews } from '../evidence/risk-reviews.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const riskNotInReview = defineCheck({
  code: 'risk-not-in-review',
  level: 'warning',
  title: 'The risk management review left out a risk',
  basis: 'ISO 14971:2019 8 (from memory); Regulation (EU) 2017/745 Annex I 4',
  explain:
    'The overall residual risk is judged over all residual risks and the decisions on benefit and risk. The latest review does not list this one among the records that it considered.\n\nA risk that nobody had before them was not weighed with the others. It happens when a risk is added after the review.\n\nReview again with all risks, and list them under `overall_residual_risk.considered.records`.',
  examines: 'risks and benefit-risk decisions of files with a review',
  subjects: ({ graph }) => {
    const [review] = currentRiskReviews(graph);
    return review
      ? [...graph.recordsOf('risk'), ...graph.recordsOf('benefit-risk')]
          .filter((record) => record.status !== 'retired')
          .map((record) => ({ record, review }))
      : [];
  },
  judge: ({ record, review }) =>
    (review.fields.overall_residual_risk.considered.records ?? []).includes(record.id)
      ? []
      : [
          {
            place: placeOf(record, 'id'),
            message: `${record.id} "${record.title}" is not among the records that ${review.id} of ${review.fields.date} considered`,
            hint: `Review again with ${record.id} and list it under "considered".`,
            records: [record.id, review.id],
            related: [
              { place: placeOf(review, 'overall_residual_risk'), message: `what ${review.id} considered` },
            ],
          },
        ],
});

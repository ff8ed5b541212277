import { currentRiskPlans } from '../evidence/criteria-in-force.ts';
import { currentRiskReviews } from '../evidence/risk-reviews.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const overallDecisionRoleMissing = defineCheck({
  code: 'overall-decision-role-missing',
  level: 'warning',
  title: 'The overall residual risk was not judged by those whom the plan names',
  basis: 'ISO 14971:2019 4.2, 4.4 and 8 (from memory)',
  explain:
    'The risk management plan says under `overall_residual_risk.decided_by` who judges the overall residual risk. The latest review is approved, and one of these roles has not approved it.\n\nA judgement by others than those who were named beforehand is not the one that the plan asked for.\n\nHave the review approved by the roles of the plan. Where the plan should name others, change the plan first, with its approval.',
  examines: 'approved risk management reviews under a plan',
  subjects: ({ graph }) => {
    const [plan] = currentRiskPlans(graph.records.values());
    const review = currentRiskReviews(graph).find((each) => each.status === 'approved');
    return plan && review ? [{ plan, review }] : [];
  },
  judge: ({ plan, review }): readonly Draft[] => {
    const signed = new Set((review.fields.approvals ?? []).map((approval) => approval.role));
    const missing = (plan.fields.overall_residual_risk?.decided_by ?? []).filter((role) => !signed.has(role));
    return missing.length === 0
      ? []
      : [
          {
            place: placeOf(review, review.fields.approvals ? 'approvals' : 'status'),
            message: `${review.id} judges the overall residual risk without the approval of ${missing.join(' and ')}, whom ${plan.id} names`,
            hint: `Have ${review.id} approved by ${missing.join(' and ')}.`,
            records: [review.id, plan.id],
            related: [
              {
                place: placeOf(plan, 'overall_residual_risk', 'decided_by'),
                message: `who decides, by ${plan.id}`,
              },
            ],
          },
        ];
  },
});

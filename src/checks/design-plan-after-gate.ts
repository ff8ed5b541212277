import { currentDesignPlans, decidedOn, gatesOf } from '../evidence/gates.ts';
import { isRealDate } from '../records/calendar.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const designPlanAfterGate = defineCheck({
  code: 'design-plan-after-gate',
  level: 'warning',
  title: 'A design plan was first approved after a gate of it had been passed',
  basis: 'ISO 13485:2016 7.3.2',
  explain:
    'The first approval of a design plan is later than the day on which a review passed one of its gates, or the plan was never approved and gates have been passed. What a gate asks for is to be settled before the work, not after it.\n\nConditions that are written once the results are known are those that the results happen to meet.\n\nHave the plan approved before the first gate. Where the work was begun without a plan, say so in its text; the date stays what it is, and the finding can be accepted with that reason.',
  examines: 'design plans with gates that were passed',
  subjects: ({ graph }) =>
    currentDesignPlans(graph).flatMap((plan) => {
      const [first] = gatesOf(plan, graph)
        .flatMap(({ gate, passedBy }) =>
          passedBy ? [{ gate, review: passedBy, day: decidedOn(passedBy) }] : [],
        )
        .sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
      return first ? [{ plan, first }] : [];
    }),
  judge: ({ plan, first }, { approvals }): readonly Draft[] => {
    const days = (approvals.of(plan.id)?.states ?? []).map(({ approval }) => approval.date).sort();
    const approved = days[0];
    if (approved !== undefined && (approved <= first.day || !isRealDate(approved))) return [];
    return [
      {
        place: approved === undefined ? placeOf(plan, 'status') : placeOf(plan, 'approvals'),
        message:
          approved === undefined
            ? `${plan.id} is not approved, and ${first.review.id} passed gate ${first.gate.gate} on ${first.day}`
            : `${plan.id} was first approved on ${approved}, and ${first.review.id} had passed gate ${first.gate.gate} on ${first.day}`,
        hint: 'Have the plan approved before its first gate, or say in its text why the work came first.',
        records: [plan.id, first.review.id],
        related: [{ place: placeOf(first.review, 'gate'), message: 'the first gate that was passed' }],
        data: { passed: first.day },
      },
    ];
  },
});

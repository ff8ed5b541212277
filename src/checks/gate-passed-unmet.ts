import { currentDesignPlans, decidedOn, gatesOf, type PlannedGate } from '../evidence/gates.ts';
import { isRealDate } from '../records/calendar.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type CheckContext, type Draft, defineCheck } from './check.ts';

type Review = RecordOf<'design-review'>;

interface Subject extends PlannedGate {
  readonly condition: PlannedGate['gate']['conditions'][number];
  readonly at: number;
  readonly review: Review;
}

/** The records that a condition names and that were first approved only after the decision. */
const approvedLater = (
  { condition, review }: Subject,
  { approvals }: CheckContext,
): readonly { readonly id: string; readonly day: string }[] =>
  condition.asks === 'approved'
    ? (condition.records ?? []).flatMap((id) => {
        const days = (approvals.of(id)?.states ?? []).map(({ approval }) => approval.date).sort();
        const [first] = days;
        return first !== undefined && isRealDate(first) && first > decidedOn(review)
          ? [{ id, day: first }]
          : [];
      })
    : [];

/** Whether no other gate of the plan has the name. */
const hasOwnName = ({ plan, gate }: PlannedGate): boolean =>
  plan.fields.stages.filter((stage) => stage.gate.gate === gate.gate).length === 1;

export const gatePassedUnmet = defineCheck<Subject>({
  code: 'gate-passed-unmet',
  level: 'error',
  title: 'A gate was passed although a condition was not met',
  basis: 'ISO 13485:2016 7.3.2 and 7.3.5',
  explain:
    'A design review passed a gate of the design plan. For one of its conditions the review says that it was not met and gives no reason, or says nothing, or says that it was met although a record that the condition names was first approved only after that day.\n\nThe plan says what has to be there before people build on it. A gate that is waved through looks, a year later, like every other one; what was open is forgotten, and the next stage rests on it.\n\nWrite down for each condition whether it was met. Where the gate was passed without it, say under `reason` why, and what follows. Where it was not passed, say so in `outcome`.',
  examines: 'conditions of gates that were passed',
  subjects: ({ graph }) =>
    currentDesignPlans(graph)
      .flatMap((plan) => gatesOf(plan, graph))
      .flatMap((gate) =>
        // Two gates of one name have a finding of their own: which one a review means cannot be told.
        gate.passedBy && hasOwnName(gate)
          ? gate.gate.conditions.map((condition, at) => ({
              ...gate,
              condition,
              at,
              review: gate.passedBy as Review,
            }))
          : [],
      ),
  judge: (subject, context): readonly Draft[] => {
    const { plan, gate, index, condition, at, review } = subject;
    const found = review.fields.gate?.conditions ?? [];
    const row = found.findIndex((each) => each.condition === condition.condition);
    const recorded = found[row];
    const inPlan = {
      place: placeOf(plan, 'stages', index, 'gate', 'conditions', at),
      message: `the condition in ${plan.id}: ${condition.says}`,
    };
    const records = [review.id, plan.id];
    if (!recorded)
      return [
        {
          place: placeOf(review, 'gate', 'conditions'),
          message: `${review.id} passed gate ${gate.gate} and does not say whether "${condition.condition}" was met`,
          hint: `Add "{ condition: ${condition.condition}, met: true }", or "met: false" with the reason.`,
          records,
          related: [inPlan],
        },
      ];
    if (!recorded.met)
      return recorded.reason === undefined
        ? [
            {
              place: placeOf(review, 'gate', 'conditions', row),
              message: `${review.id} passed gate ${gate.gate} with "${condition.condition}" not met, and gives no reason`,
              hint: 'Say under "reason" why the gate was passed without it and what follows, or set the outcome to "not passed".',
              records,
              related: [inPlan],
            },
          ]
        : [];
    const late = approvedLater(subject, context);
    return late.length === 0
      ? []
      : [
          {
            place: placeOf(review, 'gate', 'conditions', row, 'met'),
            message: `${review.id} says that "${condition.condition}" was met at gate ${gate.gate} on ${decidedOn(review)}; first approved later: ${late.map(({ id, day }) => `${id} on ${day}`).join(', ')}`,
            hint: 'Correct the day of the decision or what was found, or say that the condition was not met and why the gate was passed.',
            records: [...records, ...late.map(({ id }) => id)],
            related: [inPlan],
            data: { decided: decidedOn(review) },
          },
        ];
  },
});

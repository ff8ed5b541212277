import { currentDesignPlans } from '../evidence/gates.ts';
import { nearestName } from '../records/nearest-name.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type CheckContext, type Draft, defineCheck } from './check.ts';

type Plan = RecordOf<'design-plan'>;
type Review = RecordOf<'design-review'>;

const suggestion = (name: string, known: readonly string[]): string => {
  const near = nearestName(name, known);
  return near ? `Did you mean "${near}"?` : `Use one of: ${known.join(', ')}.`;
};

/** Gates and conditions that a review names and its plan does not have. */
const namesOfReview = (review: Review, { graph }: CheckContext): readonly Draft[] => {
  const held = review.fields.gate;
  const plan = held && graph.recordOf('design-plan', held.plan);
  if (!held || !plan) return [];
  const gate = plan.fields.stages.map((stage) => stage.gate).find((each) => each.gate === held.gate);
  const about = { records: [review.id, plan.id] };
  const names = plan.fields.stages.map((stage) => stage.gate.gate);
  // The plan gives a name twice, which has a finding: one of the two may be the gate that the review means.
  const isDoubled = names.some((name, at) => names.indexOf(name) !== at);
  if (isDoubled && (!gate || names.indexOf(gate.gate) !== names.lastIndexOf(gate.gate))) return [];
  if (!gate)
    return [
      {
        ...about,
        place: placeOf(review, 'gate', 'gate'),
        message: `${review.id} holds gate "${held.gate}", which ${plan.id} does not have`,
        hint: suggestion(
          held.gate,
          plan.fields.stages.map((stage) => stage.gate.gate),
        ),
      },
    ];
  const known = gate.conditions.map((each) => each.condition);
  return held.conditions.flatMap(({ condition }, row) =>
    known.includes(condition)
      ? []
      : [
          {
            ...about,
            place: placeOf(review, 'gate', 'conditions', row, 'condition'),
            message: `${review.id} names the condition "${condition}", which gate ${gate.gate} of ${plan.id} does not have`,
            hint: suggestion(condition, known),
          },
        ],
  );
};

/** Names that a plan gives twice: nobody could tell which one a review means. */
const namesOfPlan = (plan: Plan): readonly Draft[] => {
  const gates = plan.fields.stages.map((stage) => stage.gate);
  return gates.flatMap((gate, index): readonly Draft[] => [
    ...(gates.findIndex((each) => each.gate === gate.gate) === index
      ? []
      : [
          {
            place: placeOf(plan, 'stages', index, 'gate', 'gate'),
            message: `${plan.id} has two gates "${gate.gate}"`,
            hint: 'Give each gate a name of its own.',
            records: [plan.id],
          },
        ]),
    ...gate.conditions.flatMap(({ condition }, row) =>
      gate.conditions.findIndex((each) => each.condition === condition) === row
        ? []
        : [
            {
              place: placeOf(plan, 'stages', index, 'gate', 'conditions', row, 'condition'),
              message: `gate ${gate.gate} of ${plan.id} has two conditions "${condition}"`,
              hint: 'Give each condition of a gate a name of its own.',
              records: [plan.id],
            },
          ],
    ),
  ]);
};

export const gateUnknown = defineCheck<Plan | Review>({
  code: 'gate-unknown',
  level: 'error',
  title: 'A gate or a condition has no name that can be relied on',
  basis: 'ISO 13485:2016 7.3.2 and 7.3.5',
  explain:
    'A design review names a gate, or a condition of it, that the design plan does not have; or a plan gives two of them the same name. What the review found counts for nothing then, or for the wrong condition.\n\nThe outcome of a gate is only worth something where it can be laid beside what the plan asked for.\n\nCorrect the name. Where the plan was changed after the review, keep the old condition in it.',
  examines: 'design plans and the reviews of their gates',
  subjects: ({ graph }) => [
    ...currentDesignPlans(graph),
    ...graph
      .recordsOf('design-review')
      .filter((review) => review.status !== 'retired' && review.fields.gate !== undefined),
  ],
  judge: (record, context) =>
    record.type === 'design-plan' ? namesOfPlan(record) : namesOfReview(record, context),
});

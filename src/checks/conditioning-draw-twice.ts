import { conditioningPlans } from '../evidence/conditioning-tree.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const conditioningDrawTwice = defineCheck({
  code: 'conditioning-draw-twice',
  level: 'warning',
  title: 'A conditioning plan lists the same draw twice',
  basis: 'common practice, no source',
  explain:
    'Two entries under `draws` have the same protocol, the same record and the same node. Their units are counted twice.\n\nThe sums of the plan are then wrong: a node seems to give more units than were taken, and a test seems to have more than it used.\n\nTake one of them out, or correct its record or node. Where a test drew from one node on two occasions, enter the sum and say so under `note`.',
  examines: 'draws of conditioning plans',
  subjects: ({ graph }) =>
    conditioningPlans(graph).flatMap((plan) =>
      plan.fields.draws.map((draw, index) => ({ plan, draw, index })),
    ),
  judge: ({ plan, draw, index }): readonly Draft[] => {
    const first = plan.fields.draws.findIndex(
      (each) => each.protocol === draw.protocol && each.record === draw.record && each.node === draw.node,
    );
    return first === index
      ? []
      : [
          {
            place: placeOf(plan, 'draws', index, 'protocol'),
            message: `${plan.id} lists the draw of ${draw.record ?? draw.protocol} from "${draw.node}" twice`,
            hint: 'Take one of the two out, or correct its record or node.',
            records: [plan.id, draw.protocol, ...(draw.record === undefined ? [] : [draw.record])],
            related: [{ place: placeOf(plan, 'draws', first, 'protocol'), message: 'first listed here' }],
            data: { node: draw.node },
          },
        ];
  },
});

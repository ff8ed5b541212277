import { conditioningPlans, isInCircle, placedNodes } from '../evidence/conditioning-tree.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const conditioningUnitsExceeded = defineCheck({
  code: 'conditioning-units-exceeded',
  level: 'error',
  title: 'More units leave a node of conditioning than go into it',
  basis: 'ISO 13485:2016 7.3.6 (verification plans with sample sizes); arithmetic',
  explain:
    'The units that go on to other nodes and those that protocols draw are more than the units of the node; or the nodes that take from the lots hold more than the lots; or the pulls of real-time ageing take out more than was put in. Units that a protocol uses once more (`again`) count only where they were drawn first.\n\nThe shortage is noticed on the day of the test, months after the units went into the chamber, and cannot be made up for.\n\nCondition more units, draw fewer, or say which tests share units.',
  examines: 'nodes of conditioning plans',
  subjects: ({ graph }) =>
    conditioningPlans(graph).flatMap((plan) => [
      { plan, placed: undefined },
      ...placedNodes(plan).map((placed) => ({ plan, placed })),
    ]),
  judge: ({ plan, placed }): readonly Draft[] => {
    if (!placed) {
      const lots = plan.fields.lots.reduce((sum, { units }) => sum + units, 0);
      const taken = plan.fields.nodes
        .filter(({ from }) => from === undefined)
        .reduce((sum, { units }) => sum + units, 0);
      return taken <= lots
        ? []
        : [
            {
              place: placeOf(plan, 'lots'),
              message: `${plan.id}: ${taken} units are taken from lots of ${lots}`,
              hint: 'Build more units, or take fewer.',
              records: [plan.id],
              data: { taken, available: lots },
            },
          ];
    }
    // In a circle each node is the source of its own source; conditioning-node-unknown tells it.
    if (isInCircle(placed)) return [];
    const { node, index, children, draws, used } = placed;
    const pulled = (node.pulls ?? []).reduce((sum, { units }) => sum + units, 0);
    const parts = [
      ...children.map((child) => `${child.units} to "${child.node}"`),
      ...draws
        .filter(({ draw }) => draw.again === undefined)
        .map(({ draw }) => `${draw.units} for ${draw.protocol}`),
    ];
    return [
      ...(used > node.units
        ? [
            {
              place: placeOf(plan, 'nodes', index, 'units'),
              message: `${plan.id}: ${used} units leave "${node.node}", and ${node.units} go into it (${parts.slice(0, 8).join(', ')}${parts.length > 8 ? ` and ${parts.length - 8} more` : ''})`,
              hint: `Condition ${used - node.units} more, draw fewer, or say under "again" which tests share units.`,
              records: [plan.id],
              data: { used, available: node.units },
            },
          ]
        : []),
      ...(pulled > node.units
        ? [
            {
              place: placeOf(plan, 'nodes', index, 'pulls'),
              message: `${plan.id}: the pulls of "${node.node}" take out ${pulled} units, and ${node.units} go into it`,
              hint: `Put ${pulled - node.units} more into storage, or take out fewer.`,
              records: [plan.id],
              data: { used: pulled, available: node.units },
            },
          ]
        : []),
    ];
  },
});

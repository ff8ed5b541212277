import { conditioningPlans, placedNodes } from '../evidence/conditioning-tree.ts';
import { nearestName } from '../records/nearest-name.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

const hintFor = (name: string, names: readonly string[]): string => {
  const near = nearestName(name, names);
  return near ? `Did you mean "${near}"?` : `Use one of: ${names.slice(0, 20).join(', ')}.`;
};

export const conditioningNodeUnknown = defineCheck({
  code: 'conditioning-node-unknown',
  level: 'error',
  title: 'A conditioning plan names a node that it does not have, or is no tree',
  basis: 'common practice, no source',
  explain:
    'A node takes its units `from` a node that the plan does not have, a protocol draws from one that is not there, two nodes have the same name, or nodes take their units from each other in a circle.\n\nThe numbers of units cannot be followed, so nobody can say what a tested unit has gone through.\n\nCorrect the name. Each node takes its units from one other node or from the lots.',
  examines: 'nodes and draws of conditioning plans',
  subjects: ({ graph }) =>
    conditioningPlans(graph).flatMap((plan) => [
      ...placedNodes(plan).map((placed) => ({ kind: 'node' as const, plan, placed })),
      ...plan.fields.draws.map((draw, index) => ({ kind: 'draw' as const, plan, draw, index })),
    ]),
  judge: (subject): readonly Draft[] => {
    const { plan } = subject;
    const names = plan.fields.nodes.map(({ node }) => node);
    if (subject.kind === 'draw') {
      const { draw, index } = subject;
      return names.includes(draw.node)
        ? []
        : [
            {
              place: placeOf(plan, 'draws', index, 'node'),
              message: `${plan.id}: ${draw.protocol} draws from the node "${draw.node}", which the plan does not have`,
              hint: hintFor(draw.node, names),
              records: [plan.id, draw.protocol],
            },
          ];
    }
    const { node, index, chain } = subject.placed;
    const fault = (field: string, message: string, hint: string): Draft => ({
      place: placeOf(plan, 'nodes', index, field),
      message: `${plan.id}: ${message}`,
      hint,
      records: [plan.id],
    });
    if (names.indexOf(node.node) < index)
      return [fault('node', `two nodes are called "${node.node}"`, 'Give each node a name of its own.')];
    if (node.from !== undefined && !names.includes(node.from))
      return [
        fault(
          'from',
          `"${node.node}" takes its units from "${node.from}", which the plan does not have`,
          hintFor(node.from, names),
        ),
      ];
    // The first node of a whole chain takes its units from the lots.
    return chain[0]?.from !== undefined && names.includes(chain[0].from)
      ? [
          fault(
            'from',
            `"${node.node}" takes its units from "${node.from}" in a circle`,
            'Let the first node of the chain take its units from the lots.',
          ),
        ]
      : [];
  },
});

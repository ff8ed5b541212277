import { type ConditioningNode, conditioningPlans, placedNodes } from '../evidence/conditioning-tree.ts';
import { nearestName } from '../records/nearest-name.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

const hintFor = (name: string, names: readonly string[]): string => {
  const near = nearestName(name, names);
  return near ? `Did you mean "${near}"?` : `Use one of: ${names.slice(0, 20).join(', ')}.`;
};

/** Names of the nodes of a circle, from the given one on along its sources; empty where it is in none. */
const circleOf = (nodes: readonly ConditioningNode[], start: ConditioningNode): readonly string[] => {
  const names: string[] = [];
  for (
    let at: ConditioningNode | undefined = start;
    at && !names.includes(at.node);
    at = nodes.find(({ node }) => node === at?.from)
  ) {
    names.push(at.node);
    if (at.from === start.node) return names;
  }
  return [];
};

export const conditioningNodeUnknown = defineCheck({
  code: 'conditioning-node-unknown',
  level: 'error',
  title: 'A conditioning plan names a node that it does not have, or is no tree',
  basis: 'common practice, no source',
  explain:
    'A node takes its units `from` a node that the plan does not have, a protocol draws from one that is not there, two nodes have the same name, or nodes take their units from each other in a circle, which is told once.\n\nThe numbers of units cannot be followed, so nobody can say what a tested unit has gone through. Until it is mended, other checks do not judge the order and the sums of a circle, nor the state of units behind the broken place.\n\nCorrect the name. Each node takes its units from one other node or from the lots.',
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
    const { node, index } = subject.placed;
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
    // A circle is told once, at the first of its nodes; what hangs on it is no fault of its own.
    const circle = circleOf(plan.fields.nodes, node);
    return circle.length > 0 && Math.min(...circle.map((name) => names.indexOf(name))) === index
      ? [
          fault(
            'from',
            circle.length === 1
              ? `"${node.node}" takes its units from itself`
              : `nodes take their units from each other in a circle: ${circle.map((name) => `"${name}"`).join(' from ')} from "${node.node}"`,
            'Let the first node of the chain take its units from the lots.',
          ),
        ]
      : [];
  },
});

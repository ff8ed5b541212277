import { conditioningPlans, isInCircle, placedNodes } from '../evidence/conditioning-tree.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

const lastDayOf = (fields: { readonly executed?: { readonly to: string } }): string | undefined =>
  fields.executed?.to;

export const conditioningOrderWrong = defineCheck({
  code: 'conditioning-order-wrong',
  level: 'error',
  title: 'Steps of conditioning and tests are not in the order of their days',
  basis:
    'ISO 11607-1 (stability and performance after ageing and transport, from memory); the order of days is arithmetic',
  explain:
    'A step of a conditioning plan ends before it begins, or begins before the step that it takes its units from has ended; or a test was over before its units had been conditioned.\n\nThen the units cannot have gone through what the plan says, or a date is wrong. Either way the report tells of other units than the protocol.\n\nCorrect the date. Where units were taken out earlier on purpose, give them a node of their own.',
  examines: 'nodes of conditioning plans, and draws with a record',
  subjects: ({ graph }) =>
    conditioningPlans(graph).flatMap((plan) => {
      const placed = placedNodes(plan);
      return [
        ...placed.map((each) => ({ kind: 'node' as const, plan, placed: each })),
        ...placed.flatMap((each) =>
          each.draws
            .filter(({ draw }) => draw.record !== undefined)
            .map(({ draw, index }) => ({ kind: 'draw' as const, plan, placed: each, draw, index })),
        ),
      ];
    }),
  judge: (subject, { graph }): readonly Draft[] => {
    const { plan, placed } = subject;
    const { node, index, chain } = placed;
    if (subject.kind === 'draw') {
      const { draw } = subject;
      const record =
        graph.recordOf('verification-record', draw.record ?? '') ??
        graph.recordOf('validation-record', draw.record ?? '');
      const to = record && lastDayOf(record.fields);
      return !record || to === undefined || node.ends === undefined || to >= node.ends
        ? []
        : [
            {
              place: placeOf(plan, 'draws', subject.index, 'record'),
              message: `${plan.id}: ${record.id} ended on ${to}, before its units had left "${node.node}" on ${node.ends}`,
              hint: 'Correct the date, or the node that the units came from.',
              records: [plan.id, record.id],
              related: [
                { place: placeOf(record, 'executed', 'to'), message: `the last day of ${record.id}` },
              ],
            },
          ];
    }
    // In a circle no step is before another; conditioning-node-unknown tells it.
    const parent = isInCircle(placed) ? undefined : chain.at(-2);
    const fault = (field: string, message: string): Draft => ({
      place: placeOf(plan, 'nodes', index, field),
      message: `${plan.id}: "${node.node}" ${message}`,
      hint: 'Correct the dates, here or at the step before.',
      records: [plan.id],
    });
    return [
      ...(node.begins !== undefined && node.ends !== undefined && node.ends < node.begins
        ? [fault('ends', `ends on ${node.ends}, before it begins on ${node.begins}`)]
        : []),
      ...(node.begins !== undefined && parent?.ends !== undefined && node.begins < parent.ends
        ? [fault('begins', `begins on ${node.begins}, before "${parent.node}" ends on ${parent.ends}`)]
        : []),
    ];
  },
});

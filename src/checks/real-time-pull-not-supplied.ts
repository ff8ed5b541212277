import { readRealTimeSchedule } from '../evidence/calculations/real-time-schedule.ts';
import { conditioningPlans } from '../evidence/conditioning-tree.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

const months = (list: readonly number[]): string => (list.length === 0 ? 'none' : list.join(', '));

export const realTimePullNotSupplied = defineCheck({
  code: 'real-time-pull-not-supplied',
  level: 'error',
  title: 'Pulls of real-time ageing differ between the plan and the analysis',
  basis: 'common practice, no source',
  explain:
    'A node of real-time ageing names the analysis that holds its schedule, and its `pulls` are after other months, or its first day is another one than the start of that schedule.\n\nUnits that nobody put into storage for a pull cannot be tested when it is due.\n\nAgree the two. One pull after the other needs units, so state how many.',
  examines: 'nodes of real-time ageing with an analysis',
  subjects: ({ graph }) =>
    conditioningPlans(graph).flatMap((plan) =>
      plan.fields.nodes.flatMap((node, index) => {
        const analysis = graph.recordOf('analysis', node.analysis ?? '');
        const schedule = analysis && readRealTimeSchedule(analysis.fields.calculation.real_time, []);
        return node.step === 'real-time ageing' && analysis && schedule
          ? [{ plan, node, index, analysis, schedule }]
          : [];
      }),
    ),
  judge: ({ plan, node, index, analysis, schedule }): readonly Draft[] => {
    const related = [
      {
        place: placeOf(analysis, 'calculation', 'real_time'),
        message: `the schedule of ${analysis.id}`,
      },
    ];
    const records = [plan.id, analysis.id];
    const own = (node.pulls ?? []).map((pull) => pull.months);
    const theirs = schedule.pulls.map((pull) => pull.months);
    return [
      ...(node.begins !== undefined && node.begins !== schedule.start
        ? [
            {
              place: placeOf(plan, 'nodes', index, 'begins'),
              message: `${plan.id}: "${node.node}" begins on ${node.begins}, and the schedule of ${analysis.id} on ${schedule.start}`,
              hint: 'Correct whichever is wrong.',
              records,
              related,
            },
          ]
        : []),
      ...(own.join() === theirs.join()
        ? []
        : [
            {
              place: placeOf(plan, 'nodes', index, node.pulls ? 'pulls' : 'node'),
              message: `${plan.id}: "${node.node}" keeps units for pulls after ${months(own)} months, and the schedule of ${analysis.id} has ${months(theirs)}`,
              hint: 'Keep units for each pull of the schedule, or change the schedule with its reason.',
              records,
              related,
            },
          ]),
    ];
  },
});

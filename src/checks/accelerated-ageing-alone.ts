import { readRealTimeSchedule } from '../evidence/calculations/real-time-schedule.ts';
import { conditioningPlans } from '../evidence/conditioning-tree.ts';
import { daysOf, durationOf } from '../records/duration-words.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const acceleratedAgeingAlone = defineCheck({
  code: 'accelerated-ageing-alone',
  level: 'warning',
  title: 'Accelerated ageing runs without real-time ageing, or outlasts it',
  basis:
    'ASTM F1980 and ISO 11607-1 (real-time ageing runs in parallel and confirms the claim, from memory and public summaries)',
  explain:
    'A conditioning plan ages units in the chamber, and no unit of any plan is stored in real time; or the last pull of real-time ageing comes before the end of the shelf life that is claimed.\n\nAccelerated ageing rests on an assumption about the temperature alone. It is accepted in the meantime because real-time units will confirm it.\n\nPut units into real-time storage on the day on which the chamber is started, enough for each pull, and plan the last pull at the end of the claim.',
  examines: 'conditioning plans with accelerated ageing',
  subjects: ({ graph }) =>
    conditioningPlans(graph).flatMap((plan) => {
      const index = plan.fields.nodes.findIndex(({ step }) => step === 'accelerated ageing');
      return index === -1 ? [] : [{ plan, index }];
    }),
  judge: ({ plan, index }, { graph, project }): readonly Draft[] => {
    const stored = conditioningPlans(graph).flatMap((each) =>
      each.fields.nodes.filter(({ step }) => step === 'real-time ageing'),
    );
    const fault = (message: string, hint: string): Draft => ({
      place: placeOf(plan, 'nodes', index, 'node'),
      message: `${plan.id}: ${message}`,
      hint,
      records: [plan.id],
    });
    const name = plan.fields.nodes[index]?.node ?? '';
    if (stored.length === 0)
      return [
        fault(
          `"${name}" is accelerated ageing, and no units are stored in real time`,
          'Add a node of real-time ageing with its pulls.',
        ),
      ];
    const claim = durationOf(plan.fields.claim ?? project.fields.phrases?.['shelf_life'] ?? '');
    if (!claim) return [];
    const last = Math.max(
      0,
      ...stored.flatMap(({ pulls, analysis }) => [
        ...(pulls ?? []).map(({ months }) => months),
        ...(readRealTimeSchedule(
          graph.recordOf('analysis', analysis ?? '')?.fields.calculation.real_time,
          [],
        )?.pulls.map(({ months }) => months) ?? []),
      ]),
    );
    // Within a day: 36 months are 1095 d.
    return daysOf({ count: last, unit: 'month' }) + 1 >= daysOf(claim)
      ? []
      : [
          fault(
            `the last pull of real-time ageing is after ${last} months, the claim is ${claim.count} ${claim.unit}${claim.count === 1 ? '' : 's'}`,
            'Plan a pull at the end of the claim.',
          ),
        ];
  },
});

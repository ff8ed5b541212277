import { pullSchedules } from '../evidence/real-time-pulls.ts';
import { monthsLater } from '../records/calendar.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

/** Months after the due date that testing and writing the record may take (common practice, no source). */
const grace = 2;

export const realTimePullOverdue = defineCheck({
  code: 'real-time-pull-overdue',
  level: 'warning',
  title: 'Units of real-time ageing are due, and no record tests them',
  basis:
    'ASTM F1980 (accelerated ageing is confirmed by real-time ageing, from memory); the two months of grace are common practice, no source',
  explain:
    'The schedule of an analysis of accelerated ageing, or of a node of real-time ageing in a conditioning plan, names the months after which units are taken out of real-time storage. One of these days lies more than two months back, and no verification record says under `real_time_pull` that it tested these units. Or a record names months that the schedule does not have.\n\nUntil real-time units are tested, the shelf life rests on an assumption about temperature alone. A pull that is forgotten cannot be made up for: the units grow older.\n\nTest the units and add the record with `real_time_pull`. Where the schedule was changed, correct it with its reason.',
  examines: 'pulls of real-time ageing, and records that test one',
  subjects: ({ graph }) =>
    pullSchedules(graph).flatMap((schedule) => [
      ...schedule.pulls.map((pull) => ({ kind: 'pull' as const, schedule, pull })),
      ...schedule.tests.map((record) => ({ kind: 'record' as const, schedule, record })),
    ]),
  judge: (subject, { asOf }): readonly Draft[] => {
    const { schedule } = subject;
    if (subject.kind === 'record') {
      const { record } = subject;
      const months = record.fields.real_time_pull?.months;
      return schedule.pulls.some((pull) => pull.months === months)
        ? []
        : [
            {
              place: placeOf(record, 'real_time_pull', 'months'),
              message: `${record.id} tests the units of ${months} months, and the schedule of ${schedule.named} has ${schedule.pulls.map((pull) => pull.months).join(', ')}`,
              hint: 'Correct the months, or the schedule.',
              records: [record.id, schedule.owner],
              related: [{ place: schedule.place, message: `the schedule of ${schedule.named}` }],
            },
          ];
    }
    const { pull } = subject;
    if (schedule.tests.some((record) => record.fields.real_time_pull?.months === pull.months)) return [];
    const node = schedule.node === undefined ? '' : `, node: ${schedule.node}`;
    return asOf <= monthsLater(pull.due, grace)
      ? []
      : [
          {
            place: pull.place,
            message: `${schedule.named}: the units of ${pull.months} months were due on ${pull.due}, and no record tests them`,
            hint: `Test them, and add a record with "real_time_pull: { schedule: ${schedule.owner}${node}, months: ${pull.months} }".`,
            records: [schedule.owner],
            data: { due: pull.due },
          },
        ];
  },
});

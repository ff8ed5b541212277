import { isRealDate, monthsLater } from '../../records/calendar.ts';
import type { Assumption, EvidenceTable } from '../result.ts';
import type { InputProblem } from './calculation.ts';

/** Units in real-time storage: when they went in, and after how many months they are taken out and tested. */
export interface RealTimeSchedule {
  readonly start: string;
  readonly pulls: readonly { readonly months: number; readonly due: string; readonly days: number }[];
}

const daysFrom = (from: string, to: string): number =>
  Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / 86_400_000);

/** Reads `real_time`: `start`, a date, and `pulls`, months in ascending order. Undefined where it is not there. */
export const readRealTimeSchedule = (
  value: unknown,
  problems: InputProblem[],
): RealTimeSchedule | undefined => {
  if (value === undefined) return undefined;
  const { start, pulls } = (value ?? {}) as Readonly<Record<string, unknown>>;
  const refuse = (field: string, message: string): undefined => {
    problems.push({ path: ['real_time', field], message });
    return undefined;
  };
  if (typeof start !== 'string' || !isRealDate(start))
    return refuse('start', 'calculation.real_time.start must be a day such as 2026-01-12');
  if (
    !Array.isArray(pulls) ||
    pulls.length === 0 ||
    !pulls.every((months) => Number.isSafeInteger(months) && months > 0 && months <= 1200) ||
    pulls.some((months, place) => place > 0 && months <= pulls[place - 1])
  )
    return refuse('pulls', 'calculation.real_time.pulls must be whole numbers of months in ascending order');
  return {
    start,
    pulls: (pulls as readonly number[]).map((months) => {
      const due = monthsLater(start, months);
      return { months, due, days: daysFrom(start, due) };
    }),
  };
};

/** Due dates of a schedule, for the working. */
export const scheduleTable = ({ start, pulls }: RealTimeSchedule): EvidenceTable => ({
  title: `Real-time ageing from ${start}`,
  columns: ['pull after', 'due', 'days'],
  rows: pulls.map(({ months, due, days }) => [
    `${months} month${months === 1 ? '' : 's'}`,
    due,
    String(days),
  ]),
});

/** Whether the schedule runs as long as what is claimed. */
export const scheduleReachesClaim = ({ pulls }: RealTimeSchedule, claimDays: number): Assumption => {
  const last = pulls.at(-1);
  // Within a day: a year of the unit is 365.25 d, twelve months of the calendar are 365 or 366.
  const met = last !== undefined && last.days + 1 > claimDays;
  return {
    name: 'real-time ageing covers the claim',
    outcome: met ? 'met' : 'not met',
    detail: `the last pull is due on ${last?.due ?? 'no day'} after ${last?.days ?? 0} d, claimed are ${claimDays} d; until then the claim rests on accelerated ageing`,
  };
};

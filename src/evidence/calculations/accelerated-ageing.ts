import { isRealDate } from '../../records/calendar.ts';
import { unitConverter } from '../../records/units.ts';
import { ageingDuration, ageingFactor, equivalentRealTime } from '../../statistics/ageing.ts';
import { fixed } from '../number-text.ts';
import type { Assumption, NamedValue } from '../result.ts';
import {
  type Calculation,
  type CalculationInput,
  type CalculationOutcome,
  type InputProblem,
  numberAt,
  optionalNumberAt,
} from './calculation.ts';
import { belowTransition, humidityAssumption, oneRateLaw } from './rate-law.ts';
import { readRealTimeSchedule, scheduleReachesClaim, scheduleTable } from './real-time-schedule.ts';

const day = 86_400_000;

/** Whole days from one ISO date to another; undefined where one of them is no day of the calendar. */
const daysBetween = (from: unknown, to: unknown): number | undefined => {
  if (typeof from !== 'string' || typeof to !== 'string' || !isRealDate(from) || !isRealDate(to))
    return undefined;
  const days = (Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / day;
  return Number.isFinite(days) ? days : undefined;
};

const calculate = ({ analysis, limits }: CalculationInput): CalculationOutcome => {
  const fields: Readonly<Record<string, unknown>> = analysis.fields.calculation;
  const problems: InputProblem[] = [];
  const q10 = numberAt(fields, 'q10', problems);
  const ageingTemperature = numberAt(fields, 'ageing_temperature', problems);
  const storageTemperature = numberAt(fields, 'reference_temperature', problems);
  const days = numberAt(fields, 'days', problems);
  const claim = numberAt(fields, 'claim_days', problems);
  const transition = optionalNumberAt(fields, 'transition_temperature', problems);
  const humidity = optionalNumberAt(fields, 'relative_humidity', problems);
  const schedule = readRealTimeSchedule(fields['real_time'], problems);
  if (q10 <= 0) problems.push({ path: ['q10'], message: 'calculation.q10 must be above 0' });
  if (days < 0) problems.push({ path: ['days'], message: 'calculation.days must not be negative' });
  const hasDates = fields['from'] !== undefined || fields['to'] !== undefined;
  const measured = daysBetween(fields['from'], fields['to']);
  if (hasDates && measured === undefined)
    problems.push({
      path: [fields['from'] === undefined ? 'to' : 'from'],
      message: 'calculation.from and calculation.to must both be days such as 2026-01-12',
    });
  if (measured !== undefined && measured < 0)
    problems.push({ path: ['to'], message: 'calculation.to lies before calculation.from' });
  if (claim <= 0) problems.push({ path: ['claim_days'], message: 'calculation.claim_days must be above 0' });
  const factor =
    problems.length === 0 ? ageingFactor({ q10, ageingTemperature, storageTemperature }) : Number.NaN;
  if (problems.length === 0 && !(factor > 0 && Number.isFinite(factor * days)))
    problems.push({
      path: ['q10'],
      message: 'calculation.q10 and the temperatures give no factor that can be computed with',
    });
  const limit = limits[0] ?? { characteristic: 'real time represented', unit: 'd', lower: claim };
  const toDays = unitConverter(limit.unit, 'd');
  if (!toDays)
    problems.push({ path: [], message: `the limit is in ${limit.unit}, which is no unit of time` });
  if (limit.upper !== undefined)
    problems.push({ path: [], message: 'the limit has an upper end; ageing shows at least a time' });
  if (problems.length > 0 || !toDays) return { ok: false, problems };
  const counted = Math.min(days, measured ?? days);
  const represented = equivalentRealTime({ chamberDays: counted, factor });
  const wanted = Math.max(limit.lower === undefined ? claim : toDays(limit.lower), claim);
  const needed = ageingDuration({ realTimeDays: wanted, factor }).wholeDays;
  const passes = represented >= wanted * (1 - 1e-12);
  const assumptions: readonly Assumption[] = [
    oneRateLaw,
    ...belowTransition(ageingTemperature, transition),
    ...(humidity === undefined ? [] : [humidityAssumption({ lowest: humidity, highest: humidity }, {})]),
    ...(schedule ? [scheduleReachesClaim(schedule, wanted)] : []),
  ];
  const broken = passes ? assumptions.filter((each) => each.outcome === 'not met') : [];
  const inChamber =
    measured !== undefined && measured < days
      ? `${counted} d between the recorded dates (${days} d stated)`
      : `${counted} d`;
  const result = `${inChamber} at ${ageingTemperature} °C represent ${fixed(represented, 0)} d at ${storageTemperature} °C (factor ${fixed(factor, 2)}), required ${wanted} d`;
  const value = (key: string, label: string, number: number, unit: string, decimals: number): NamedValue => ({
    key,
    label,
    value: number,
    unit,
    decimals,
  });
  return {
    ok: true,
    characteristics: [
      {
        limits: limit,
        verdict: broken.length > 0 ? 'undecided' : passes ? 'pass' : 'fail',
        reason: [result, ...broken.map((each) => each.detail)].join('; '),
        sampleSize: 1,
        readings: [],
        values: [
          value('factor', 'ageing factor', factor, '1', 2),
          value('days', 'days in the chamber', counted, 'd', 0),
          value('days_needed', 'days needed, rounded up', needed, 'd', 0),
          value('real_time', 'real time represented', represented, 'd', 0),
        ],
        assumptions,
        ...(schedule ? { tables: [scheduleTable(schedule)] } : {}),
        ...(passes
          ? broken.length > 0
            ? {
                remedy:
                  'Judge by hand what the formula does not cover, or plan the real-time ageing to the end of the claim.',
              }
            : {}
          : { remedy: `Age for ${needed} d, or claim ${Math.floor(represented)} d.` }),
      },
    ],
  };
};

export const acceleratedAgeing: Calculation = {
  name: 'accelerated-ageing',
  title: 'Accelerated ageing',
  basis: 'ageing factor Q10^((T ageing − T reference) / 10), ASTM F1980',
  explain:
    'Days in the chamber times the ageing factor give the real time that the ageing stands for. It must reach the claim. Where `from` and `to` are given, the days between them count if they are fewer than `days`.\n\nThe formula knows nothing of humidity, of glass transition or of softening, and Q10 = 2 is an assumption: qualified people judge it, and real-time ageing confirms it.\n\nInputs: `q10`, `ageing_temperature`, `reference_temperature` (°C), `days`, `claim_days`; `transition_temperature`, the lowest glass transition, softening or melting of the materials (the verdict is undecided less than 10 °C below it; ASTM F1980, from memory); `relative_humidity` of the chamber in per cent, stated as a caution; `real_time` with `start` and `pulls` in months, whose due dates are printed and which must run as long as the claim. A log of the chamber is evaluated by temperature-excursion.',
  calculate,
};

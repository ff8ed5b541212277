import { isRealDate } from '../../records/calendar.ts';
import { unitConverter } from '../../records/units.ts';
import { ageingDuration, ageingFactor, equivalentRealTime } from '../../statistics/ageing.ts';
import { fixed } from '../number-text.ts';
import type { NamedValue } from '../result.ts';
import {
  type Calculation,
  type CalculationInput,
  type CalculationOutcome,
  type InputProblem,
  numberAt,
} from './calculation.ts';

const day = 86_400_000;

/** Whole days from one ISO date to another; undefined where one of them is no day of the calendar. */
const daysBetween = (from: unknown, to: unknown): number | undefined => {
  if (typeof from !== 'string' || typeof to !== 'string' || !isRealDate(from) || !isRealDate(to))
    return undefined;
  const days = (Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / day;
  return Number.isFinite(days) ? days : undefined;
};

const calculate = ({ analysis, limits }: CalculationInput): CalculationOutcome => {
  const fields = analysis.fields.calculation;
  const problems: InputProblem[] = [];
  const q10 = numberAt(fields, 'q10', problems);
  const ageingTemperature = numberAt(fields, 'ageing_temperature', problems);
  const storageTemperature = numberAt(fields, 'reference_temperature', problems);
  const days = numberAt(fields, 'days', problems);
  const claim = numberAt(fields, 'claim_days', problems);
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
  const needed = ageingDuration({ realTimeDays: claim, factor }).wholeDays;
  const wanted = Math.max(limit.lower === undefined ? claim : toDays(limit.lower), claim);
  const passes = represented >= wanted * (1 - 1e-12);
  const inChamber =
    measured !== undefined && measured < days
      ? `${counted} d between the recorded dates (${days} d stated)`
      : `${counted} d`;
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
        verdict: passes ? 'pass' : 'fail',
        reason: `${inChamber} at ${ageingTemperature} °C represent ${fixed(represented, 0)} d at ${storageTemperature} °C (factor ${fixed(factor, 2)}), required ${wanted} d`,
        sampleSize: 1,
        readings: [],
        values: [
          value('factor', 'ageing factor', factor, '1', 2),
          value('days', 'days in the chamber', counted, 'd', 0),
          value('days_needed', 'days needed, rounded up', needed, 'd', 0),
          value('real_time', 'real time represented', represented, 'd', 0),
        ],
        assumptions: [
          {
            name: 'one rate law',
            outcome: 'not tested',
            detail:
              'Q10 describes chemical ageing only; humidity, glass transition and softening are judged by people, and real-time ageing must confirm the claim',
          },
        ],
        ...(passes ? {} : { remedy: `Age for ${needed} d, or claim ${Math.floor(represented)} d.` }),
      },
    ],
  };
};

export const acceleratedAgeing: Calculation = {
  name: 'accelerated-ageing',
  title: 'Accelerated ageing',
  basis: 'ageing factor Q10^((T ageing - T reference) / 10), ASTM F1980',
  explain:
    'Days in the chamber times the ageing factor give the real time that the ageing stands for. It must reach the claim. Where `from` and `to` are given, the days between them count if they are fewer than `days`.\n\nThe formula knows nothing of humidity, of glass transition or of softening, and Q10 = 2 is an assumption: qualified people judge it, and real-time ageing confirms it.\n\nInputs: `q10`, `ageing_temperature`, `reference_temperature` (°C), `days`, `claim_days`.',
  calculate,
};

/**
 * Accelerated ageing by the rule that a reaction runs `q10` times as fast for each 10 degrees Celsius (ASTM F1980).
 * The rule is an assumption: real-time ageing has to confirm it.
 */
import { requireFinite, requireNonNegative, requirePositive } from './argument-checks.ts';

/**
 * The ageing factor q10^((ageing temperature - storage temperature) / 10), temperatures in degrees Celsius. Throws a
 * RangeError when q10 is not positive or a temperature not finite.
 *
 * Source: ASTM F1980, accelerated ageing factor (the clause from memory).
 */
export function ageingFactor({
  q10,
  ageingTemperature,
  storageTemperature,
}: {
  readonly q10: number;
  readonly ageingTemperature: number;
  readonly storageTemperature: number;
}): number {
  requirePositive('q10', q10);
  requireFinite('ageingTemperature', ageingTemperature);
  requireFinite('storageTemperature', storageTemperature);
  return q10 ** ((ageingTemperature - storageTemperature) / 10);
}

/**
 * Days in the chamber that stand for `realTimeDays` of storage: exact, and rounded up to whole days. Throws a
 * RangeError when realTimeDays is negative or the factor not positive.
 *
 * Source: ASTM F1980, accelerated ageing time = desired real time over the factor (the clause from memory).
 */
export function ageingDuration({
  realTimeDays,
  factor,
}: {
  readonly realTimeDays: number;
  readonly factor: number;
}): { readonly days: number; readonly wholeDays: number } {
  requireNonNegative('realTimeDays', realTimeDays);
  requirePositive('factor', factor);
  const days = realTimeDays / factor;
  // A whole number of days that came out a rounding error too large is not raised by a day.
  return { days, wholeDays: Math.ceil(days * (1 - 1e-12)) };
}

/**
 * Days of storage that `chamberDays` in the chamber stand for. Throws a RangeError when chamberDays is negative or
 * the factor not positive.
 *
 * Source: ASTM F1980, the same relation read backwards (the clause from memory).
 */
export function equivalentRealTime({
  chamberDays,
  factor,
}: {
  readonly chamberDays: number;
  readonly factor: number;
}): number {
  requireNonNegative('chamberDays', chamberDays);
  requirePositive('factor', factor);
  return chamberDays * factor;
}

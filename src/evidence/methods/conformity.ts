import type { UnitReading } from '../readings.ts';
import type { AcceptanceLimits } from '../result.ts';

/** Whether one reading conforms to the limits; `undefined` where a reading beyond the range can't tell. */
export const conforms = (reading: UnitReading, limits: AcceptanceLimits): boolean | undefined => {
  if (reading.word) return reading.word !== 'fail';
  const value = reading.value;
  if (value === undefined) return undefined;
  const low = limits.lower ?? Number.NEGATIVE_INFINITY;
  const high = limits.upper ?? Number.POSITIVE_INFINITY;
  if (reading.bound === 'below')
    return value <= high && limits.lower === undefined ? true : value < low ? false : undefined;
  if (reading.bound === 'above')
    return value >= low && limits.upper === undefined ? true : value > high ? false : undefined;
  return value >= low && value <= high;
};

/** The limits in words: `at least 30 N`, `17 to 23 mm³`. */
export const limitText = (limits: AcceptanceLimits, withUnit: (value: number) => string): string => {
  const { lower, upper, criterion } = limits;
  if (lower !== undefined && upper !== undefined)
    return lower === upper ? withUnit(lower) : `${lower} to ${withUnit(upper)}`;
  if (lower !== undefined) return `at least ${withUnit(lower)}`;
  if (upper !== undefined) return `at most ${withUnit(upper)}`;
  return criterion ?? 'no limit';
};

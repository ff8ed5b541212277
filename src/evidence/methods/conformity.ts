import { withUnit } from '../../records/units.ts';
import { printedNumber } from '../../statistics/number-notation.ts';
import type { UnitReading } from '../readings.ts';
import type { AcceptanceLimits, Beyond } from '../result.ts';

/**
 * Whether one reading conforms to the limits; `undefined` where it can't tell: beyond the range of the instrument, or
 * not applicable. A reading written `<1.0` is below 1.0, one written `>50` above 50.
 */
export const conforms = (reading: UnitReading, limits: AcceptanceLimits): boolean | undefined => {
  if (reading.word) return reading.word === 'not applicable' ? undefined : reading.word === 'pass';
  const value = reading.value;
  if (value === undefined) return undefined;
  const low = limits.lower ?? Number.NEGATIVE_INFINITY;
  const high = limits.upper ?? Number.POSITIVE_INFINITY;
  if (reading.bound === 'below')
    return value <= high && limits.lower === undefined ? true : value <= low ? false : undefined;
  if (reading.bound === 'above')
    return value >= low && limits.upper === undefined ? true : value >= high ? false : undefined;
  return value >= low && value <= high;
};

/** Numbers of a list, each with the side on which the unit lies where it is only a bound; nothing where none is. */
export const numbersOf = (
  list: readonly UnitReading[],
): { readonly readings: readonly number[]; readonly beyond?: readonly (Beyond | undefined)[] } => {
  const numbers = list.filter((reading) => reading.value !== undefined);
  return {
    readings: numbers.map((reading) => reading.value ?? Number.NaN),
    ...(numbers.some((reading) => reading.bound) ? { beyond: numbers.map((reading) => reading.bound) } : {}),
  };
};

/** The limits in words, as the protocol writes them: `at least 30 N`, `17.0 to 23.0 mm³`. */
export const limitText = (limits: AcceptanceLimits): string => {
  const { lower, upper, unit, criterion } = limits;
  const lowerText = lower === undefined ? undefined : printedNumber(limits.lowerText ?? String(lower));
  const upperText = upper === undefined ? undefined : printedNumber(limits.upperText ?? String(upper));
  if (lowerText !== undefined && upperText !== undefined)
    return lower === upper ? withUnit(lowerText, unit) : `${lowerText} to ${withUnit(upperText, unit)}`;
  if (lowerText !== undefined) return `at least ${withUnit(lowerText, unit)}`;
  if (upperText !== undefined) return `at most ${withUnit(upperText, unit)}`;
  return criterion ?? 'no limit';
};

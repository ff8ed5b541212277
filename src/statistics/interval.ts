/**
 * Interval arithmetic (Moore, Interval Analysis, 1966): bounds of a result when its inputs may lie anywhere between two
 * ends. Ends are rounded to nearest, not outwards; a comparison with a limit needs a slack for rounding.
 *
 * What has no bounds (a division by an interval that holds 0, the root of a negative number) throws a RangeError that says
 * so.
 */

/** All numbers from `low` to `high`, both finite. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/**
 * The interval that holds one number alone.
 *
 * Source: definition.
 */
export function pointInterval(value: number): Interval {
  return { low: value, high: value };
}

/**
 * The smallest interval that holds all the numbers.
 *
 * Source: definition.
 */
export function hullOf(...ends: readonly number[]): Interval {
  return { low: Math.min(...ends), high: Math.max(...ends) };
}

/**
 * Whether 0 lies in the interval, ends included.
 *
 * Source: definition.
 */
export function holdsZero({ low, high }: Interval): boolean {
  return low <= 0 && high >= 0;
}

/**
 * All sums of a number of each.
 *
 * Source: Moore, Interval Analysis (1966).
 */
export function addIntervals(a: Interval, b: Interval): Interval {
  return { low: a.low + b.low, high: a.high + b.high };
}

/**
 * All negatives.
 *
 * Source: Moore, Interval Analysis (1966).
 */
export function negateInterval({ low, high }: Interval): Interval {
  return { low: -high, high: -low };
}

/**
 * All products of a number of each.
 *
 * Source: Moore, Interval Analysis (1966).
 */
export function multiplyIntervals(a: Interval, b: Interval): Interval {
  return hullOf(a.low * b.low, a.low * b.high, a.high * b.low, a.high * b.high);
}

/**
 * 1 / a. Throws a RangeError where a holds 0.
 *
 * Source: Moore, Interval Analysis (1966).
 */
export function invertInterval(a: Interval): Interval {
  if (holdsZero(a)) throw new RangeError('a divisor can be 0');
  return hullOf(1 / a.low, 1 / a.high);
}

/**
 * a^exponent for a fixed exponent. Throws a RangeError where a power does not exist.
 *
 * Source: Moore, Interval Analysis (1966).
 */
export function powerOfInterval(a: Interval, exponent: number): Interval {
  if (exponent === 0) return pointInterval(1);
  if (exponent < 0) {
    if (holdsZero(a)) throw new RangeError('0 can come to a negative power');
    return invertInterval(powerOfInterval(a, -exponent));
  }
  if (!Number.isInteger(exponent) && a.low < 0)
    throw new RangeError('a negative number can come to a power that is no whole number');
  const ends = hullOf(a.low ** exponent, a.high ** exponent);
  return exponent % 2 === 0 && holdsZero(a) ? { low: 0, high: ends.high } : ends;
}

/**
 * All absolute values.
 *
 * Source: Moore, Interval Analysis (1966).
 */
export function absoluteInterval(a: Interval): Interval {
  const ends = hullOf(Math.abs(a.low), Math.abs(a.high));
  return holdsZero(a) ? { low: 0, high: ends.high } : ends;
}

/**
 * A rising function of an interval.
 *
 * Source: Moore, Interval Analysis (1966): a monotone function maps ends to ends.
 */
export function risingOf(a: Interval, f: (x: number) => number): Interval {
  return { low: f(a.low), high: f(a.high) };
}

/**
 * Bounds of the cosine: its ends, and 1 or -1 where a whole multiple of pi lies between them.
 *
 * Source: Moore, Interval Analysis (1966): ends and inner extremes.
 */
export function cosineOfInterval({ low, high }: Interval): Interval {
  const ends = hullOf(Math.cos(low), Math.cos(high));
  const turns = (phase: number): boolean =>
    Math.floor((high - phase) / (2 * Math.PI)) >= Math.ceil((low - phase) / (2 * Math.PI));
  return { low: turns(Math.PI) ? -1 : ends.low, high: turns(0) ? 1 : ends.high };
}

/**
 * Bounds of the sine: its ends, and 1 or -1 where a crest or a trough lies between them.
 *
 * Source: Moore, Interval Analysis (1966): ends and inner extremes.
 */
export function sineOfInterval({ low, high }: Interval): Interval {
  const ends = hullOf(Math.sin(low), Math.sin(high));
  const turns = (phase: number): boolean =>
    Math.floor((high - phase) / (2 * Math.PI)) >= Math.ceil((low - phase) / (2 * Math.PI));
  return { low: turns(-Math.PI / 2) ? -1 : ends.low, high: turns(Math.PI / 2) ? 1 : ends.high };
}

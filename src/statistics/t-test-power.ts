/** How surely a t test shows a difference that is there, and how many units that takes. */
import { requireFinite, requireOpenProbability, requirePositive } from './argument-checks.ts';
import { tQuantile } from './distributions.ts';
import { noncentralTUpperTail } from './noncentral-t.ts';
import { smallestSatisfying } from './plan-search.ts';

/**
 * How the units are used: `one-sample` stands for one group against a fixed value and for pairs (the standard deviation
 * is then that of the differences), `two-samples` for two independent groups of equal size.
 */
export type MeanDesign = 'one-sample' | 'two-samples';

/**
 * Standard error of the (difference of) means and its degrees of freedom, `count` units in each group.
 *
 * Source: as `oneSampleMean` and `pooledDifference`, with equal groups.
 */
export function designPrecision(design: MeanDesign, standardDeviation: number, count: number) {
  return design === 'one-sample'
    ? { standardError: standardDeviation / Math.sqrt(count), degreesOfFreedom: count - 1 }
    : { standardError: standardDeviation * Math.sqrt(2 / count), degreesOfFreedom: 2 * count - 2 };
}

/** What a t test is asked to show. */
export interface TTestAim {
  /** True value minus hypothesised value, in the unit of the values; for one side, in the direction to be shown. */
  readonly difference: number;
  /** Probability of showing a difference where there is none. */
  readonly significance: number;
  /** One-sided: only `difference` upwards counts. Two-sided: either direction, each with half the significance. */
  readonly sides: 'one' | 'two';
}

/**
 * Probability that the test is significant: the upper tail of the noncentral t distribution with noncentrality
 * difference / standard error, beyond the critical t; for two sides also the small lower tail. `standardError` is the
 * true one. Throws a RangeError on arguments out of range.
 *
 * Source: Johnson and Welch, Biometrika 31 (1940); Owen, Journal of the American Statistical Association 60 (1965).
 */
export function tTestPower({
  difference,
  standardError,
  degreesOfFreedom,
  significance,
  sides,
}: TTestAim & { readonly standardError: number; readonly degreesOfFreedom: number }): number {
  requireFinite('difference', difference);
  requirePositive('standardError', standardError);
  requireOpenProbability('significance', significance);
  const noncentrality = difference / standardError;
  const critical = -tQuantile(sides === 'one' ? significance : significance / 2, degreesOfFreedom);
  const towards = noncentralTUpperTail(critical, { degreesOfFreedom, noncentrality });
  if (sides === 'one') return towards;
  return towards + noncentralTUpperTail(critical, { degreesOfFreedom, noncentrality: -noncentrality });
}

/**
 * The fewest units (in each group) with which the test has at least the power. Throws a RangeError on arguments out
 * of range, also where there is no difference to show or, one-sided, where it points the other way.
 *
 * Source: as `tTestPower`, by search.
 */
export function tTestSampleSize({
  design,
  standardDeviation,
  power,
  ...aim
}: TTestAim & {
  readonly design: MeanDesign;
  readonly standardDeviation: number;
  readonly power: number;
}): number {
  requirePositive('standardDeviation', standardDeviation);
  requireOpenProbability('power', power);
  requirePositive('difference', aim.sides === 'two' ? Math.abs(aim.difference) : aim.difference);
  return smallestSatisfying(
    2,
    (count) => tTestPower({ ...aim, ...designPrecision(design, standardDeviation, count) }) >= power,
  );
}

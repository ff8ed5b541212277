import { requireOpenProbability } from './argument-checks.ts';
import { type Computed, computed, findDataProblem, findNotPositive } from './data-problem.ts';
import type { ToleranceRequirement } from './tolerance-factor.ts';
import { type NormalToleranceInterval, normalToleranceInterval, type Sides } from './tolerance-factor.ts';

/** A tolerance interval of lognormal values, in their unit, with the interval of their logarithms. */
export interface LognormalToleranceInterval {
  readonly count: number;
  /** Mean, standard deviation, factor and limits of the natural logarithms. */
  readonly ofLogarithms: NormalToleranceInterval;
  /** exp of the mean of the logarithms: an estimate of the median. */
  readonly geometricMean: number;
  /** Absent for an upper limit alone. */
  readonly lower?: number;
  /** Absent for a lower limit alone. */
  readonly upper?: number;
}

/**
 * The tolerance interval of values whose logarithms are normal: the exact normal interval of the logarithms, carried
 * back by exp. As exp keeps the order, coverage and confidence stay exact. Needs two values, all greater than 0 and
 * not all equal. Throws a RangeError on arguments out of range.
 *
 * Source: Meeker, Hahn and Escobar, Statistical Intervals, 2nd edition (2017), section 4.9; USEPA Unified Guidance
 * (2009), section 17.3.
 */
export function lognormalToleranceInterval(
  values: readonly number[],
  required: ToleranceRequirement & { readonly sides: Sides },
): Computed<LognormalToleranceInterval> {
  requireOpenProbability('coverage', required.coverage);
  requireOpenProbability('confidence', required.confidence);
  const problem = findDataProblem(values, { minimum: 2, spread: true }) ?? findNotPositive(values);
  if (problem) return problem;
  const interval = normalToleranceInterval(values.map(Math.log), required);
  if (!interval.ok) return interval;
  const { count, mean, lower, upper } = interval.value;
  return computed({
    count,
    ofLogarithms: interval.value,
    geometricMean: Math.exp(mean),
    ...(lower !== undefined && { lower: Math.exp(lower) }),
    ...(upper !== undefined && { upper: Math.exp(upper) }),
  });
}

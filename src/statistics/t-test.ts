/** Tests and confidence limits of a mean or a difference of means, by Student's t distribution. */
import { requireFinite, requireOpenProbability, requirePositive } from './argument-checks.ts';
import { tCdf, tQuantile } from './distributions.ts';
import type { MeanEstimate } from './mean-estimate.ts';
import type { Sides } from './tolerance-factor.ts';

export interface TTest {
  /** (estimate - hypothesised) / standard error. */
  readonly statistic: number;
  readonly degreesOfFreedom: number;
  /**
   * p values by what shall be shown: that the true value is less than the hypothesised one, greater, or different. The
   * smaller tail is computed as a tail and keeps its digits.
   */
  readonly pValues: { readonly less: number; readonly greater: number; readonly different: number };
}

/**
 * Student's t test of an estimate against a hypothesised value. Throws a RangeError on arguments out of range.
 *
 * Source: Student, Biometrika 6 (1908); NIST/SEMATECH e-Handbook 1.3.5.2, 1.3.5.3 and 7.3.1.
 */
export function tTest(estimate: MeanEstimate, hypothesised = 0): TTest {
  checkEstimate(estimate);
  requireFinite('hypothesised', hypothesised);
  const { degreesOfFreedom } = estimate;
  const statistic = (estimate.estimate - hypothesised) / estimate.standardError;
  const less = tCdf(statistic, degreesOfFreedom);
  const greater = tCdf(-statistic, degreesOfFreedom);
  return {
    statistic,
    degreesOfFreedom,
    pValues: { less, greater, different: Math.min(1, 2 * Math.min(less, greater)) },
  };
}

/** Confidence limits; the one that was not asked for is absent. */
export interface MeanLimits {
  readonly lower?: number;
  readonly upper?: number;
}

/**
 * Confidence limits estimate +/- t x standard error. `lower` and `upper` put all risk on one side; `both` halves it.
 * Throws a RangeError on arguments out of range.
 *
 * Source: NIST/SEMATECH e-Handbook 1.3.5.2.
 */
export function meanConfidenceLimits(
  estimate: MeanEstimate,
  { confidence, sides }: { readonly confidence: number; readonly sides: Sides },
): MeanLimits {
  checkEstimate(estimate);
  requireOpenProbability('confidence', confidence);
  const risk = sides === 'both' ? (1 - confidence) / 2 : 1 - confidence;
  const margin = -tQuantile(risk, estimate.degreesOfFreedom) * estimate.standardError;
  return {
    ...(sides !== 'upper' && { lower: estimate.estimate - margin }),
    ...(sides !== 'lower' && { upper: estimate.estimate + margin }),
  };
}

/**
 * Throws a RangeError unless the estimate can be judged by a t distribution.
 *
 * Source: no formula; a precondition.
 */
export function checkEstimate({ estimate, standardError, degreesOfFreedom }: MeanEstimate): void {
  requireFinite('estimate', estimate);
  requirePositive('standardError', standardError);
  requirePositive('degreesOfFreedom', degreesOfFreedom);
}

import { requireCount, requireOpenProbability } from './argument-checks.ts';
import { betaQuantile, binomialCdf } from './distributions.ts';
import { riskIsMet, smallestSatisfying } from './plan-search.ts';

/** With `confidence`, at least the share `reliability` of units conforms. */
export interface ReliabilityRequirement {
  readonly confidence: number;
  readonly reliability: number;
}

/**
 * The smallest number of units that, with at most `failures` of them failing (0 unless given), demonstrates
 * `reliability` with `confidence`. Without failures this is ln(1 - C) / ln R, rounded up (success-run theorem); with
 * failures the smallest n for which the binomial P(X <= failures; n, 1 - R) is at most 1 - C. Throws a RangeError on
 * arguments out of range.
 *
 * Source: with no failures R^n <= 1 - C, the binomial probability of no failure, solved for n: Meeker, Hahn and
 * Escobar, Statistical Intervals, 2nd edition (2017), chapter on binomial demonstration tests (from memory); with
 * failures Clopper and Pearson, Biometrika 26 (1934), solved for n.
 */
export function successRunSampleSize({
  confidence,
  reliability,
  failures = 0,
}: ReliabilityRequirement & { readonly failures?: number }): number {
  requireOpenProbability('confidence', confidence);
  requireOpenProbability('reliability', reliability);
  requireCount('failures', failures, 0);
  if (failures === 0) {
    const exact = Math.log(1 - confidence) / Math.log(reliability);
    // The slack keeps a whole number that came out a rounding error too large from being raised by one.
    return Math.max(1, Math.ceil(exact * (1 - 1e-12)));
  }
  return smallestSatisfying(failures + 1, (size) =>
    riskIsMet(binomialCdf(failures, size, 1 - reliability), confidence),
  );
}

/**
 * The reliability that `sampleSize` units with `failures` failures demonstrate with `confidence`: the lower one-sided
 * Clopper-Pearson limit of the conforming share; (1 - C)^(1/n) without failures, 0 when all fail. (A second form,
 * with n + 1 for n, assumes a uniform prior; it is not used here.) Throws a RangeError on arguments out of range.
 *
 * Source: Clopper and Pearson, Biometrika 26 (1934); the second form: Lipson and Sheth, Statistical Design and
 * Analysis of Engineering Experiments (1973) (from memory).
 */
export function demonstratedReliability({
  sampleSize,
  failures,
  confidence,
}: {
  readonly sampleSize: number;
  readonly failures: number;
  readonly confidence: number;
}): number {
  requireCount('sampleSize', sampleSize, 1);
  requireCount('failures', failures, 0);
  if (failures > sampleSize)
    throw new RangeError(`failures is ${failures}; it must not exceed sampleSize, ${sampleSize}`);
  requireOpenProbability('confidence', confidence);
  if (failures === sampleSize) return 0;
  if (failures === 0) return Math.exp(Math.log(1 - confidence) / sampleSize);
  return betaQuantile(1 - confidence, sampleSize - failures, failures + 1);
}

/**
 * The confidence with which `sampleSize` units with `failures` failures demonstrate `reliability`: 1 - P(X <=
 * failures; n, 1 - R). Throws a RangeError on arguments out of range.
 *
 * Source: Clopper and Pearson, Biometrika 26 (1934), solved for the confidence.
 */
export function demonstratedConfidence({
  sampleSize,
  failures,
  reliability,
}: {
  readonly sampleSize: number;
  readonly failures: number;
  readonly reliability: number;
}): number {
  requireCount('sampleSize', sampleSize, 1);
  requireCount('failures', failures, 0);
  requireOpenProbability('reliability', reliability);
  if (failures >= sampleSize) return 0;
  return 1 - binomialCdf(failures, sampleSize, 1 - reliability);
}

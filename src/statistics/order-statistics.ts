/**
 * Nonparametric tolerance bounds: an order statistic as a bound that holds at least the share `coverage` of any
 * continuous population (Wilks, Annals of Mathematical Statistics 12, 1941; Meeker, Hahn & Escobar, Statistical
 * Intervals, chapter 5).
 *
 * `rank` counts from the end: 1 is the extreme value. For an interval it is the two ranks added up: minimum to
 * maximum is rank 2. The arithmetic is the same.
 */
import { requireCount, requireOpenProbability } from './argument-checks.ts';
import { type Computed, computed, dataProblem, findDataProblem } from './data-problem.ts';
import { inAscendingOrder } from './descriptive.ts';
import { binomialCdf } from './distributions.ts';
import { riskIsMet, smallestSatisfying } from './plan-search.ts';
import type { ToleranceRequirement } from './tolerance-factor.ts';

/** An interval taken from the ordered values, with the confidence that it really has. */
export interface OrderStatisticInterval {
  readonly count: number;
  /** Counted from the smallest value, which is 1. */
  readonly lowerRank: number;
  /** Counted from the largest value, which is 1. */
  readonly upperRank: number;
  readonly lower: number;
  readonly upper: number;
  readonly achievedConfidence: number;
}

/** A bound taken from the ordered values, with the confidence that it really has. */
export interface OrderStatisticBound {
  readonly count: number;
  /** 1 is the extreme value, 2 the one next to it. */
  readonly rank: number;
  readonly bound: number;
  readonly achievedConfidence: number;
}

/**
 * The largest rank that may serve as a bound: the largest r with P(X <= r - 1; n, 1 - coverage) at most 1 -
 * confidence. 0 when not even the extreme value suffices. Throws a RangeError on arguments out of range.
 *
 * Source: Wilks, Annals of Mathematical Statistics 12 (1941); Meeker, Hahn and Escobar, Statistical Intervals, 2nd
 * edition (2017), chapter 5.
 */
export function largestToleranceRank({
  sampleSize,
  coverage,
  confidence,
}: ToleranceRequirement & { readonly sampleSize: number }): number {
  requireCount('sampleSize', sampleSize, 1);
  requireOpenProbability('coverage', coverage);
  requireOpenProbability('confidence', confidence);
  // A sample has no more ranks than values; there the search ends whatever the confidence.
  const tooLarge = smallestSatisfying(
    1,
    (rank) => rank > sampleSize || !riskIsMet(binomialCdf(rank - 1, sampleSize, 1 - coverage), confidence),
  );
  return tooLarge - 1;
}

/**
 * The smallest sample in which the order statistic of this rank (1 unless given) is a bound for `coverage` with
 * `confidence`. Throws a RangeError on arguments out of range.
 *
 * Source: Wilks, Annals of Mathematical Statistics 12 (1941), solved for n.
 */
export function smallestSampleForRank({
  coverage,
  confidence,
  rank = 1,
}: ToleranceRequirement & { readonly rank?: number }): number {
  requireOpenProbability('coverage', coverage);
  requireOpenProbability('confidence', confidence);
  requireCount('rank', rank, 1);
  return smallestSatisfying(rank, (size) => riskIsMet(binomialCdf(rank - 1, size, 1 - coverage), confidence));
}

/**
 * The confidence with which the order statistic of this rank is a bound for `coverage`. Throws a RangeError.
 *
 * Source: Wilks, Annals of Mathematical Statistics 12 (1941).
 */
export function rankConfidence({
  sampleSize,
  coverage,
  rank,
}: {
  readonly sampleSize: number;
  readonly coverage: number;
  readonly rank: number;
}): number {
  requireCount('sampleSize', sampleSize, 1);
  requireOpenProbability('coverage', coverage);
  requireCount('rank', rank, 1);
  return rank > sampleSize ? 0 : 1 - binomialCdf(rank - 1, sampleSize, 1 - coverage);
}

/**
 * The nonparametric bound of a sample: the order statistic of the largest rank allowed. Returns a data problem when
 * the sample is too small for the requirement. Throws a RangeError on arguments out of range.
 *
 * Source: as `largestToleranceRank`.
 */
export function orderStatisticBound(
  values: readonly number[],
  { coverage, confidence, side }: ToleranceRequirement & { readonly side: 'lower' | 'upper' },
): Computed<OrderStatisticBound> {
  const needed = smallestSampleForRank({ coverage, confidence });
  const problem = findDataProblem(values, { minimum: 1 });
  if (problem) return problem;
  const count = values.length;
  const rank = largestToleranceRank({ sampleSize: count, coverage, confidence });
  if (rank === 0) return dataProblem('too-few-values', `${count} values, at least ${needed} needed`);
  const ordered = inAscendingOrder(values);
  const bound = side === 'lower' ? ordered[rank - 1]! : ordered[count - rank]!;
  return computed({
    count,
    rank,
    bound,
    achievedConfidence: rankConfidence({ sampleSize: count, coverage, rank }),
  });
}

/**
 * The nonparametric interval of a sample: as much is cut off at both ends, all in all the largest rank allowed; where
 * that is odd, the lower end keeps the outer value. Returns a data problem when the sample is too small for the
 * requirement. Throws a RangeError on arguments out of range.
 *
 * Source: as `largestToleranceRank`; how an odd rank is shared out is a rule of this tool, no published source.
 */
export function orderStatisticInterval(
  values: readonly number[],
  { coverage, confidence }: ToleranceRequirement,
): Computed<OrderStatisticInterval> {
  const needed = smallestSampleForRank({ coverage, confidence, rank: 2 });
  const problem = findDataProblem(values, { minimum: 1 });
  if (problem) return problem;
  const count = values.length;
  const rank = largestToleranceRank({ sampleSize: count, coverage, confidence });
  if (rank < 2 || rank > count)
    return dataProblem('too-few-values', `${count} values, at least ${needed} needed`);
  const lowerRank = Math.floor(rank / 2);
  const upperRank = rank - lowerRank;
  const ordered = inAscendingOrder(values);
  return computed({
    count,
    lowerRank,
    upperRank,
    lower: ordered[lowerRank - 1]!,
    upper: ordered[count - upperRank]!,
    achievedConfidence: rankConfidence({ sampleSize: count, coverage, rank }),
  });
}

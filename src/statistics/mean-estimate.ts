/**
 * Means and differences of means with what is needed to judge them: an estimate whose error, divided by its standard
 * error, follows Student's t distribution. Tests, confidence limits and equivalence all start from it.
 */
import { requireCount, requireFinite, requireNonNegative } from './argument-checks.ts';
import { type Computed, computed, dataProblem, findDataProblem } from './data-problem.ts';
import { arithmeticMean, sampleStandardDeviation } from './descriptive.ts';

/** Count, mean and sample standard deviation of one group, in the unit of the values. */
export interface GroupSummary {
  readonly count: number;
  readonly mean: number;
  readonly standardDeviation: number;
}

/** A mean, or a difference of means, in the unit of the values. */
export interface MeanEstimate {
  readonly estimate: number;
  /** Greater than 0. */
  readonly standardError: number;
  /** Not necessarily whole. */
  readonly degreesOfFreedom: number;
}

/**
 * Count, mean and standard deviation of a group. Needs two finite values; equal values are allowed.
 *
 * Source: as `arithmeticMean` and `sampleStandardDeviation`.
 */
export function summariseGroup(values: readonly number[]): Computed<GroupSummary> {
  const problem = findDataProblem(values, { minimum: 2 });
  if (problem) return problem;
  return computed({
    count: values.length,
    mean: arithmeticMean(values),
    standardDeviation: sampleStandardDeviation(values),
  });
}

/**
 * The mean of one group: standard error s / sqrt n, n - 1 degrees of freedom. Needs some spread. Throws a RangeError
 * on a summary out of range.
 *
 * Source: Student, Biometrika 6 (1908); NIST/SEMATECH e-Handbook 1.3.5.2.
 */
export function oneSampleMean(group: GroupSummary): Computed<MeanEstimate> {
  checkSummary('group', group);
  const { count, mean, standardDeviation } = group;
  if (standardDeviation === 0) return dataProblem('no-spread', `all ${count} values are ${mean}`);
  return computed({
    estimate: mean,
    standardError: standardDeviation / Math.sqrt(count),
    degreesOfFreedom: count - 1,
  });
}

/**
 * The mean of the differences `second - first` of pairs, such as one unit before and after: the one-sample estimate
 * of the differences. Needs two pairs whose differences are not all equal.
 *
 * Source: Student, Biometrika 6 (1908); NIST/SEMATECH e-Handbook 7.3.1.1.
 */
export function pairedDifference(
  pairs: readonly { readonly first: number; readonly second: number }[],
): Computed<MeanEstimate> {
  const differences = pairs.map(({ first, second }) => second - first);
  const group = summariseGroup(differences);
  if (!group.ok) return group;
  if (differences.every((difference) => difference === differences[0]))
    return dataProblem('no-spread', `all ${differences.length} differences are ${differences[0]}`);
  return oneSampleMean(group.value);
}

/**
 * The difference `second - first` of two independent groups with one common standard deviation, pooled over both: n1
 * + n2 - 2 degrees of freedom. Needs spread in one of them. Throws a RangeError on summaries out of range.
 *
 * Source: NIST/SEMATECH e-Handbook 1.3.5.3.
 */
export function pooledDifference(first: GroupSummary, second: GroupSummary): Computed<MeanEstimate> {
  const problem = bothWithoutSpread(first, second);
  if (problem) return problem;
  return computed({
    estimate: second.mean - first.mean,
    standardError: pooledStandardDeviation(first, second) * Math.sqrt(1 / first.count + 1 / second.count),
    degreesOfFreedom: first.count + second.count - 2,
  });
}

/**
 * Root of the variance of two groups, weighted by n - 1.
 *
 * Source: NIST/SEMATECH e-Handbook 1.3.5.3.
 */
export function pooledStandardDeviation(first: GroupSummary, second: GroupSummary): number {
  checkSummary('first', first);
  checkSummary('second', second);
  const degrees = [first.count - 1, second.count - 1] as const;
  const squares = degrees[0] * first.standardDeviation ** 2 + degrees[1] * second.standardDeviation ** 2;
  return Math.sqrt(squares / (degrees[0] + degrees[1]));
}

/**
 * The difference `second - first` of two independent groups whose standard deviations may differ, with
 * Satterthwaite's degrees of freedom. Needs spread in one of them. Throws a RangeError on summaries out of range.
 *
 * Source: Welch, Biometrika 34 (1947); degrees of freedom: Satterthwaite, Biometrics Bulletin 2 (1946); NIST/SEMATECH
 * e-Handbook 1.3.5.3.
 */
export function welchDifference(first: GroupSummary, second: GroupSummary): Computed<MeanEstimate> {
  const problem = bothWithoutSpread(first, second);
  if (problem) return problem;
  const variances = [first, second].map((group) => group.standardDeviation ** 2 / group.count);
  const total = variances[0]! + variances[1]!;
  if (!(total > 0 && Number.isFinite(total)))
    return dataProblem('no-spread', 'the spread of the groups is too small or too large to compute with');
  // Shares of the variance, so that no square under- or overflows.
  const degrees = [first, second].map((group, i) => (variances[i]! / total) ** 2 / (group.count - 1));
  return computed({
    estimate: second.mean - first.mean,
    standardError: Math.sqrt(total),
    degreesOfFreedom: 1 / (degrees[0]! + degrees[1]!),
  });
}

function bothWithoutSpread(first: GroupSummary, second: GroupSummary) {
  checkSummary('first', first);
  checkSummary('second', second);
  return first.standardDeviation === 0 && second.standardDeviation === 0
    ? dataProblem(
        'no-spread',
        `neither group has any spread: all values are ${first.mean} and ${second.mean}`,
      )
    : undefined;
}

function checkSummary(name: string, { count, mean, standardDeviation }: GroupSummary): void {
  requireCount(`${name}.count`, count, 2);
  requireFinite(`${name}.mean`, mean);
  requireNonNegative(`${name}.standardDeviation`, standardDeviation);
}

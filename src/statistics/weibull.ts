/**
 * The Weibull distribution with two parameters, S(x) = exp(-(x / scale)^shape) for x > 0: strengths that end at the
 * weakest place, and lives. Its logarithm has the smallest extreme value distribution with location log(scale) and
 * spread 1 / shape, on which everything here is computed.
 */
import { requireFinite, requireOpenProbability, requirePositive } from './argument-checks.ts';
import { type Computed, computed, dataProblem, findDataProblem, findNotPositive } from './data-problem.ts';
import { compensatedSum } from './descriptive.ts';

/** Readings of units, some of which outlasted the test or the range of the instrument. */
export interface CensoredSample {
  /** The values at which units failed, in any order, greater than 0. */
  readonly failures: readonly number[];
  /** For each unit that did not fail: the value up to which it held (right censoring). */
  readonly censored?: readonly number[];
}

/** Shape without a unit, scale in the unit of the values. */
export interface WeibullParameters {
  readonly shape: number;
  /** The value that a share of 1/e, 36.8 %, of the units outlasts. */
  readonly scale: number;
}

/** Parameters found from a sample, with what it held. */
export interface WeibullFit extends WeibullParameters {
  readonly count: number;
  readonly failureCount: number;
  /** Natural logarithm of the likelihood at its maximum, in the unit of the values. */
  readonly logLikelihood: number;
}

/**
 * Maximum likelihood estimates with right censoring: the shape is the one root of sum(x^b log x) / sum(x^b) - 1/b -
 * mean(log of failures), sums over all units, and scale^b = sum(x^b) / failures. Needs two failures that do not all
 * stand at the largest value.
 *
 * Source: Cohen, Technometrics 7 (1965); NIST/SEMATECH e-Handbook 8.4.1.2.
 */
export function fitWeibull({ failures, censored = [] }: CensoredSample): Computed<WeibullFit> {
  const all = [...failures, ...censored];
  const problem = findDataProblem(all, { minimum: 2 }) ?? findNotPositive(all);
  if (problem) return problem;
  if (failures.length < 2)
    return dataProblem(
      'too-few-values',
      `${failures.length} of ${all.length} units failed, at least 2 failures needed`,
    );
  const largest = all.reduce((a, b) => Math.max(a, b));
  if (failures.every((value) => value === largest))
    return dataProblem('no-spread', `all ${failures.length} failures are at the largest value, ${largest}`);

  const logs = all.map((value) => logRatio(value, largest));
  const counts = all.map(() => 1);
  const { shape, logScale } = fitRelativeLogs(logs, counts, failures.length);
  const scale = largest * Math.exp(logScale);
  // At the estimates the sum of (x / scale)^shape is the number of failures.
  const logLikelihood =
    failures.length * (Math.log(shape) - Math.log(largest) - shape * logScale - 1) +
    (shape - 1) * compensatedSum(logs.slice(0, failures.length));
  return computed({ shape, scale, count: all.length, failureCount: failures.length, logLikelihood });
}

/**
 * The value that the share `probability` of units falls short of. Throws a RangeError on arguments out of range.
 *
 * Source: NIST/SEMATECH e-Handbook 1.3.6.6.8, percent point function.
 */
export function weibullQuantile(probability: number, { shape, scale }: WeibullParameters): number {
  requireOpenProbability('probability', probability);
  requirePositive('shape', shape);
  requirePositive('scale', scale);
  return scale * Math.exp(standardLogQuantile(probability) / shape);
}

/**
 * The share of units that outlast x; 1 for x <= 0. Throws a RangeError on arguments out of range.
 *
 * Source: NIST/SEMATECH e-Handbook 1.3.6.6.8, survival function.
 */
export function weibullReliability(x: number, { shape, scale }: WeibullParameters): number {
  requireFinite('x', x);
  requirePositive('shape', shape);
  requirePositive('scale', scale);
  return x <= 0 ? 1 : Math.exp(-((x / scale) ** shape));
}

/** log(-log(1 - p)): the quantile of the standard smallest extreme value distribution. */
function standardLogQuantile(probability: number): number {
  return Math.log(-Math.log1p(-probability));
}

/**
 * Shape and log scale of values given as logarithms relative to the largest, so that none is above 0. The first
 * `failureCount` are failures; `counts` says how many units stand behind each entry (a last failure may stand for the
 * units still on test as well). Not all failures may be 0.
 *
 * Source: as `fitWeibull`, in logarithms.
 */
export function fitRelativeLogs(
  logs: ArrayLike<number>,
  counts: ArrayLike<number>,
  failureCount: number,
): { readonly shape: number; readonly logScale: number } {
  let total = 0;
  let squares = 0;
  for (let i = 0; i < failureCount; i++) total += logs[i]!;
  const mean = total / failureCount;
  for (let i = 0; i < failureCount; i++) squares += (logs[i]! - mean) ** 2;
  // The standard deviation of log x is pi / (sqrt 6 shape); censoring makes this start too steep, which does no harm.
  let shape = squares > 0 ? Math.PI / Math.sqrt((6 * squares) / failureCount) : -1 / mean;
  let low = 0;
  let high = Number.POSITIVE_INFINITY;
  let sum = 0;
  for (let step = 0; step < 200; step++) {
    sum = 0;
    let first = 0;
    let second = 0;
    for (let i = 0; i < logs.length; i++) {
      const log = logs[i]!;
      const power = counts[i]! * Math.exp(shape * log);
      sum += power;
      first += power * log;
      second += power * log * log;
    }
    const weighted = first / sum;
    const gap = weighted - 1 / shape - mean;
    if (gap > 0) high = shape;
    else low = shape;
    let next = shape - gap / (second / sum - weighted * weighted + 1 / (shape * shape));
    // Newton's steps square the error: after one this small the next could change nothing.
    const isClose = Math.abs(next - shape) <= 1e-9 * shape;
    if (!(next > low && next < high) && !isClose)
      next = high === Number.POSITIVE_INFINITY ? 2 * shape : 0.5 * (low + high);
    shape = next;
    if (isClose) break;
  }
  sum = 0;
  for (let i = 0; i < logs.length; i++) sum += counts[i]! * Math.exp(shape * logs[i]!);
  return { shape, logScale: Math.log(sum / failureCount) / shape };
}

/**
 * log(x / largest), exact also where the two are close together or very far apart.
 *
 * Source: no formula; log1p where the ratio is near 1.
 */
export function logRatio(x: number, largest: number): number {
  return x > 0.5 * largest ? Math.log1p((x - largest) / largest) : Math.log(x) - Math.log(largest);
}

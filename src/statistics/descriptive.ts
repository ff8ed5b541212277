import { requireProbability } from './argument-checks.ts';
import { type Computed, computed, findDataProblem } from './data-problem.ts';

/** Count, location and spread of a sample, in the unit of the values. */
export interface DescriptiveStatistics {
  readonly count: number;
  readonly mean: number;
  /** Sample standard deviation, divisor n - 1. */
  readonly standardDeviation: number;
  readonly minimum: number;
  readonly maximum: number;
  readonly median: number;
}

/**
 * Sum with Neumaier's compensation: the error does not grow with the number of terms.
 *
 * Source: Neumaier, Zeitschrift für Angewandte Mathematik und Mechanik 54 (1974).
 */
export function compensatedSum(terms: Iterable<number>): number {
  let sum = 0;
  let lost = 0;
  for (const term of terms) {
    const next = sum + term;
    lost += Math.abs(sum) >= Math.abs(term) ? sum - next + term : term - next + sum;
    sum = next;
  }
  return sum + lost;
}

/**
 * The power of two by which a sample is multiplied before it is squared or summed, so that neither overflows nor
 * vanishes: 1 for all but the smallest and the largest numbers. A power of two changes no digit. Common practice, no source.
 */
function safeScale(values: readonly number[]): number {
  let largest = 0;
  for (const value of values) if (Math.abs(value) > largest) largest = Math.abs(value);
  if (largest > 2 ** 400) return 2 ** -600;
  return largest < 2 ** -400 && largest > 0 ? 2 ** 600 : 1;
}

/** The values times a scale. */
function scaled(values: readonly number[], scale: number): readonly number[] {
  return scale === 1 ? values : values.map((value) => value * scale);
}

/**
 * Arithmetic mean of finite values. The mean of the residuals is added back, which removes the rounding of the first
 * division. It does not overflow. Throws a RangeError when there is no value.
 *
 * Source: NIST/SEMATECH e-Handbook 1.3.5.1; the second step as in Chan, Golub and LeVeque, American Statistician 37
 * (1983).
 */
export function arithmeticMean(values: readonly number[]): number {
  if (values.length === 0) throw new RangeError('values is empty; a mean needs at least one value');
  const scale = safeScale(values);
  return plainMean(scaled(values, scale)) / scale;
}

function plainMean(values: readonly number[]): number {
  const first = compensatedSum(values) / values.length;
  return first + compensatedSum(values.map((value) => value - first)) / values.length;
}

/**
 * Sum of squared deviations from the mean, two passes; the second term removes what is left of the rounding of the
 * mean (corrected two-pass algorithm). Where the square is beyond the range of numbers the sum is 0 or Infinity:
 * `sampleStandardDeviation` does not go through it.
 *
 * Source: Chan, Golub and LeVeque, American Statistician 37 (1983).
 */
export function sumOfSquaredDeviations(values: readonly number[]): number {
  const scale = safeScale(values);
  return plainSquares(scaled(values, scale)) / scale / scale;
}

function plainSquares(values: readonly number[]): number {
  const mean = plainMean(values);
  const deviations = values.map((value) => value - mean);
  const squares = compensatedSum(deviations.map((deviation) => deviation * deviation));
  const rest = compensatedSum(deviations);
  return squares - (rest * rest) / values.length;
}

/**
 * Sample standard deviation, divisor n - 1, of finite values. Throws a RangeError with fewer than two values. Right
 * to the digits that double-precision input allows (NIST StRD univariate sets), also where the squares of the values
 * are beyond the range of numbers.
 *
 * Source: NIST/SEMATECH e-Handbook 1.3.5.6.
 */
export function sampleStandardDeviation(values: readonly number[]): number {
  if (values.length < 2)
    throw new RangeError(`values has ${values.length}; a standard deviation needs at least two values`);
  if (values.every((value) => value === values[0])) return 0;
  const scale = safeScale(values);
  return Math.sqrt(plainSquares(scaled(values, scale)) / (values.length - 1)) / scale;
}

/**
 * Count, mean, standard deviation, extremes and median. Needs two finite values; equal values are allowed.
 *
 * Source: as `arithmeticMean`, `sampleStandardDeviation` and `sampleMedian`.
 */
export function describeSample(values: readonly number[]): Computed<DescriptiveStatistics> {
  const problem = findDataProblem(values, { minimum: 2 });
  if (problem) return problem;
  const ordered = inAscendingOrder(values);
  return computed({
    count: values.length,
    mean: arithmeticMean(values),
    standardDeviation: sampleStandardDeviation(values),
    minimum: ordered[0]!,
    maximum: ordered[ordered.length - 1]!,
    median: quantileOfOrdered(ordered, 0.5),
  });
}

/**
 * Median: the middle value, or the mean of the two middle values. Needs one finite value.
 *
 * Source: NIST/SEMATECH e-Handbook 1.3.5.1.
 */
export function sampleMedian(values: readonly number[]): Computed<number> {
  return sampleQuantile(values, 0.5);
}

/**
 * Sample quantile by linear interpolation between order statistics at position 1 + (n - 1) p. `probability` may be 0
 * (minimum) to 1 (maximum).
 *
 * Source: Hyndman and Fan, American Statistician 50 (1996), definition 7.
 */
export function sampleQuantile(values: readonly number[], probability: number): Computed<number> {
  requireProbability('probability', probability);
  const problem = findDataProblem(values, { minimum: 1 });
  if (problem) return problem;
  return computed(quantileOfOrdered(inAscendingOrder(values), probability));
}

/**
 * A sorted copy, smallest value first.
 *
 * Source: no formula; it sorts.
 */
export function inAscendingOrder(values: readonly number[]): number[] {
  return values.toSorted((a, b) => a - b);
}

function quantileOfOrdered(ordered: readonly number[], probability: number): number {
  const position = (ordered.length - 1) * probability;
  const below = Math.floor(position);
  const share = position - below;
  const lower = ordered[below]!;
  return share === 0 ? lower : lower * (1 - share) + ordered[below + 1]! * share;
}

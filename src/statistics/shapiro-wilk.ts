import { type Computed, computed, dataProblem, findDataProblem } from './data-problem.ts';
import { arithmeticMean, compensatedSum, inAscendingOrder } from './descriptive.ts';
import { normalCdf, normalQuantile } from './distributions.ts';

/** Shapiro-Wilk test of normality. */
export interface ShapiroWilkTest {
  readonly count: number;
  /** W, at most 1; small values speak against normality. */
  readonly statistic: number;
  readonly pValue: number;
}

/**
 * Tests whether the values can come from a normal distribution. Needs 3 to 5000 finite values, not all equal.
 *
 * Source: Royston, Algorithm AS R94, Applied Statistics 44 (1995): coefficients and p value.
 */
export function shapiroWilkTest(values: readonly number[]): Computed<ShapiroWilkTest> {
  const problem = findDataProblem(values, { minimum: 3, maximum: 5000, spread: true });
  if (problem) return problem;
  const count = values.length;
  const ordered = inAscendingOrder(values);
  const range = ordered[count - 1]! - ordered[0]!;
  if (!(range > 0 && Number.isFinite(range)))
    return dataProblem('no-spread', `the range of the values is ${range}`);

  const mean = arithmeticMean(ordered);
  const scaled = ordered.map((value) => (value - mean) / range);
  const coefficients = upperCoefficients(count);
  const contrast = compensatedSum(
    coefficients.map((coefficient, i) => coefficient * (scaled[count - 1 - i]! - scaled[i]!)),
  );
  const root = Math.sqrt(compensatedSum(scaled.map((value) => value * value)));
  // 1 - W as a product: near W = 1 the difference itself would lose its digits. The coefficients' sum of squares is 1.
  const norm = Math.sqrt(2 * compensatedSum(coefficients.map((coefficient) => coefficient * coefficient)));
  const shortfall = ((root * norm - contrast) * (root * norm + contrast)) / (root * root * norm * norm);
  const statistic = 1 - Math.max(shortfall, 0);
  return computed({ count, statistic, pValue: pValueOf(statistic, Math.max(shortfall, 0), count) });
}

/** Coefficients of the largest, second largest ... value; those of the lower half are their negatives. */
function upperCoefficients(count: number): number[] {
  if (count === 3) return [Math.SQRT1_2];
  const half = Math.floor(count / 2);
  const scores = Array.from({ length: half }, (_, i) => -normalQuantile((i + 1 - 0.375) / (count + 0.25)));
  const sumOfSquares = 2 * compensatedSum(scores.map((score) => score * score));
  const norm = Math.sqrt(sumOfSquares);
  const u = 1 / Math.sqrt(count);
  const [first, second] = [scores[0]!, scores[1]!];
  const a1 = polynomial([0, 0.221157, -0.147981, -2.07119, 4.434685, -2.706056], u) + first / norm;
  if (count <= 5) {
    const scale = Math.sqrt((sumOfSquares - 2 * first * first) / (1 - 2 * a1 * a1));
    return [a1, ...scores.slice(1).map((score) => score / scale)];
  }
  const a2 = polynomial([0, 0.042981, -0.293762, -1.752461, 5.682633, -3.582633], u) + second / norm;
  const scale = Math.sqrt(
    (sumOfSquares - 2 * first * first - 2 * second * second) / (1 - 2 * a1 * a1 - 2 * a2 * a2),
  );
  return [a1, a2, ...scores.slice(2).map((score) => score / scale)];
}

function pValueOf(statistic: number, shortfall: number, count: number): number {
  if (count === 3) {
    const exact = (6 / Math.PI) * (Math.asin(Math.sqrt(statistic)) - Math.asin(Math.sqrt(0.75)));
    return Math.min(Math.max(exact, 0), 1);
  }
  if (shortfall === 0) return 1;
  const y = Math.log(shortfall);
  if (count <= 11) {
    const limit = polynomial([-2.273, 0.459], count);
    // Beyond the limit W is smaller than the fitted distribution allows.
    if (y >= limit) return 0;
    const mean = polynomial([0.544, -0.39978, 0.025054, -6.714e-4], count);
    const spread = Math.exp(polynomial([1.3822, -0.77857, 0.062767, -0.0020322], count));
    return normalCdf((mean + Math.log(limit - y)) / spread);
  }
  const x = Math.log(count);
  const mean = polynomial([-1.5861, -0.31082, -0.083751, 0.0038915], x);
  const spread = Math.exp(polynomial([-0.4803, -0.082676, 0.0030302], x));
  return normalCdf((mean - y) / spread);
}

/** Coefficients in rising powers. */
function polynomial(coefficients: readonly number[], x: number): number {
  return coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0);
}

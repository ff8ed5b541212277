import { requireCount } from './argument-checks.ts';
import { type Computed, computed, findDataProblem } from './data-problem.ts';
import { arithmeticMean, compensatedSum, inAscendingOrder, sumOfSquaredDeviations } from './descriptive.ts';
import { normalQuantile } from './distributions.ts';
import { seededNormals, simulationSeed } from './seeded-generator.ts';

/** Test of normality by the correlation of the normal probability plot. */
export interface ProbabilityPlotCorrelationTest {
  readonly count: number;
  /** Correlation of the ordered values with the medians of normal order statistics; small values speak against normality. */
  readonly statistic: number;
  /** Share of simulated normal samples with as small a correlation, the sample itself counted in. */
  readonly pValue: number;
  readonly simulations: number;
}

/**
 * Medians of the order statistics of a standard normal sample, smallest first: the quantiles at 1 - 0.5^(1/n), (i -
 * 0.3175) / (n + 0.365) and 0.5^(1/n). Throws a RangeError for fewer than 2.
 *
 * Source: Filliben, Technometrics 17 (1975); NIST/SEMATECH e-Handbook 1.3.3.21.
 */
export function normalOrderStatisticMedians(count: number): readonly number[] {
  requireCount('count', count, 2);
  const last = 0.5 ** (1 / count);
  // The lower half by its own probability, the upper by symmetry, so that both ends keep their digits.
  const lower = Array.from({ length: Math.floor(count / 2) }, (_, i) =>
    normalQuantile(i === 0 ? 1 - last : (i + 1 - 0.3175) / (count + 0.365)),
  );
  const middle = count % 2 === 1 ? [0] : [];
  return [...lower, ...middle, ...lower.toReversed().map((score) => -score)];
}

/**
 * The correlation coefficient of the normal probability plot. Needs 3 finite values, not all equal. It does not
 * change with shift and scale.
 *
 * Source: Filliben, Technometrics 17 (1975).
 */
export function normalPlotCorrelation(values: readonly number[]): Computed<number> {
  const problem = findDataProblem(values, { minimum: 3, spread: true });
  if (problem) return problem;
  return computed(correlation(inAscendingOrder(values), normalOrderStatisticMedians(values.length)));
}

/**
 * Tests whether values can come from a normal distribution, with p counted from simulated normal samples, with the
 * seed of this folder. Needs 3 to 5000 finite values, not all equal.
 *
 * Source: Filliben, Technometrics 17 (1975), the statistic; p value simulated.
 */
export function probabilityPlotCorrelationTest(
  values: readonly number[],
): Computed<ProbabilityPlotCorrelationTest> {
  const problem = findDataProblem(values, { minimum: 3, maximum: 5000, spread: true });
  if (problem) return problem;
  const statistic = correlation(inAscendingOrder(values), normalOrderStatisticMedians(values.length));
  const simulated = simulatedCorrelations(values.length);
  const worse = simulated.filter((value) => value <= statistic).length;
  return computed({
    count: values.length,
    statistic,
    pValue: (1 + worse) / (1 + simulated.length),
    simulations: simulated.length,
  });
}

/**
 * The correlation below which the share `significance` of normal samples falls, simulated with the seed of this
 * folder. Throws a RangeError on arguments out of range.
 *
 * Source: simulated; compared with the table of NIST/SEMATECH e-Handbook 1.3.6.7.6.
 */
export function criticalPlotCorrelation({
  sampleSize,
  significance,
}: {
  readonly sampleSize: number;
  readonly significance: number;
}): number {
  requireCount('sampleSize', sampleSize, 3);
  if (!(significance >= 0.001 && significance <= 0.5))
    throw new RangeError(`significance is ${significance}; it must lie between 0.001 and 0.5`);
  const ordered = simulatedCorrelations(sampleSize);
  return ordered[Math.max(Math.round(significance * ordered.length) - 1, 0)]!;
}

const known = new Map<number, readonly number[]>();

/** Correlations of normal samples in ascending order: 20 000 of them, fewer where a sample is large. */
function simulatedCorrelations(count: number): readonly number[] {
  const remembered = known.get(count);
  if (remembered) return remembered;
  const normal = seededNormals(simulationSeed);
  const medians = normalOrderStatisticMedians(count);
  const simulations = Math.min(Math.max(Math.round(1_000_000 / count), 1000), 20_000);
  const sample = new Float64Array(count);
  const found = Float64Array.from({ length: simulations }, () => {
    for (let i = 0; i < count; i++) sample[i] = normal();
    sample.sort();
    return quickCorrelation(sample, medians);
  });
  const ordered = [...found.sort()];
  known.set(count, ordered);
  return ordered;
}

/** Correlation of ordered values with scores whose mean is 0. */
function correlation(ordered: readonly number[], scores: readonly number[]): number {
  const mean = arithmeticMean(ordered);
  const products = compensatedSum(ordered.map((value, i) => (value - mean) * scores[i]!));
  const squares = compensatedSum(scores.map((score) => score * score));
  return products / Math.sqrt(sumOfSquaredDeviations(ordered) * squares);
}

/** The same for standard normal numbers, where plain sums are exact enough. */
function quickCorrelation(ordered: Float64Array, scores: readonly number[]): number {
  let sum = 0;
  let squares = 0;
  let products = 0;
  let scoreSquares = 0;
  for (let i = 0; i < ordered.length; i++) {
    const value = ordered[i]!;
    const score = scores[i]!;
    sum += value;
    squares += value * value;
    products += value * score;
    scoreSquares += score * score;
  }
  return products / Math.sqrt((squares - (sum * sum) / ordered.length) * scoreSquares);
}

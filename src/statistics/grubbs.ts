import { requireCount, requireOpenProbability } from './argument-checks.ts';
import { type Computed, computed, findDataProblem } from './data-problem.ts';
import { arithmeticMean, sampleStandardDeviation } from './descriptive.ts';
import { tQuantile } from './distributions.ts';

/** Grubbs' test for one outlier at either end. A value it names is a reason to investigate, not to exclude. */
export interface GrubbsTest {
  readonly count: number;
  /** The largest distance from the mean, in standard deviations. */
  readonly statistic: number;
  readonly criticalValue: number;
  /** Place of the most distant value in `values`, counted from 0. */
  readonly suspectIndex: number;
  readonly suspectValue: number;
  /** Whether the statistic exceeds the critical value. */
  readonly significant: boolean;
}

/**
 * Two-sided Grubbs test at the level `significance` (for example 0.05). Needs three finite values, not all equal.
 * Assumes that the other values are normal. Throws a RangeError on a significance out of range.
 *
 * Source: Grubbs, Technometrics 11 (1969); NIST/SEMATECH e-Handbook 1.3.5.17.1.
 */
export function grubbsTest(
  values: readonly number[],
  { significance }: { readonly significance: number },
): Computed<GrubbsTest> {
  requireOpenProbability('significance', significance);
  const problem = findDataProblem(values, { minimum: 3, spread: true });
  if (problem) return problem;
  const count = values.length;
  const mean = arithmeticMean(values);
  const distances = values.map((value) => Math.abs(value - mean));
  const largest = distances.reduce((a, b) => Math.max(a, b));
  const suspectIndex = distances.indexOf(largest);
  const statistic = largest / sampleStandardDeviation(values);
  const criticalValue = grubbsCriticalValue({ sampleSize: count, significance, sides: 'two' });
  const significant = statistic > criticalValue;
  return computed({
    count,
    statistic,
    criticalValue,
    suspectIndex,
    suspectValue: values[suspectIndex]!,
    significant,
  });
}

/**
 * Critical value (n - 1) / sqrt(n) * sqrt(t^2 / (n - 2 + t^2)), with t the upper significance / (2 n) quantile
 * (significance / n one-sided) of Student's t with n - 2 degrees of freedom. Throws a RangeError on arguments out of
 * range.
 *
 * Source: NIST/SEMATECH e-Handbook 1.3.5.17.1.
 */
export function grubbsCriticalValue({
  sampleSize,
  significance,
  sides,
}: {
  readonly sampleSize: number;
  readonly significance: number;
  readonly sides: 'one' | 'two';
}): number {
  requireCount('sampleSize', sampleSize, 3);
  requireOpenProbability('significance', significance);
  const tail = significance / (sides === 'two' ? 2 * sampleSize : sampleSize);
  const t = tQuantile(tail, sampleSize - 2);
  return ((sampleSize - 1) / Math.sqrt(sampleSize)) * Math.sqrt((t * t) / (sampleSize - 2 + t * t));
}

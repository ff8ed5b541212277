import { type Computed, computed, findDataProblem } from './data-problem.ts';
import { arithmeticMean, compensatedSum, inAscendingOrder, sampleStandardDeviation } from './descriptive.ts';
import { logNormalCdf } from './distributions.ts';

/** Anderson-Darling test of normality, mean and standard deviation estimated from the sample. */
export interface AndersonDarlingTest {
  readonly count: number;
  /** A^2 as it comes from the sample. */
  readonly statistic: number;
  /** A^2 (1 + 0.75/n + 2.25/n^2), to which the p value belongs. */
  readonly adjustedStatistic: number;
  readonly pValue: number;
}

/**
 * Fewest values with which a test of normality can say that nothing speaks against it: the p value's approximation holds
 * from here on (D'Agostino & Stephens, Goodness-of-Fit Techniques, 1986, table 4.9). With fewer, a test finds only the
 * coarsest deviations, and its silence means nothing.
 */
export const fewestValuesForNormality = 8;

/**
 * Tests whether the values can come from a normal distribution. Needs 8 finite values, not all equal: the p value's
 * approximation is not meant for fewer.
 *
 * Source: D'Agostino and Stephens, Goodness-of-Fit Techniques (1986), table 4.9: statistic, adjustment and p value.
 */
export function andersonDarlingTest(values: readonly number[]): Computed<AndersonDarlingTest> {
  const problem = findDataProblem(values, { minimum: fewestValuesForNormality, spread: true });
  if (problem) return problem;
  const count = values.length;
  const mean = arithmeticMean(values);
  const standardDeviation = sampleStandardDeviation(values);
  const scores = inAscendingOrder(values).map((value) => (value - mean) / standardDeviation);
  const terms = scores.map(
    (score, i) => (2 * i + 1) * (logNormalCdf(score) + logNormalCdf(-scores[count - 1 - i]!)),
  );
  const statistic = -count - compensatedSum(terms) / count;
  const adjustedStatistic = statistic * (1 + 0.75 / count + 2.25 / (count * count));
  return computed({ count, statistic, adjustedStatistic, pValue: pValueOf(adjustedStatistic) });
}

/** Four fitted pieces. Beyond 10 the probability is below 1e-23; the value there is kept as a bound. */
function pValueOf(a: number): number {
  if (a < 0.2) return -Math.expm1(-13.436 + 101.14 * a - 223.73 * a * a);
  if (a < 0.34) return -Math.expm1(-8.318 + 42.796 * a - 59.938 * a * a);
  if (a < 0.6) return Math.exp(0.9177 - 4.279 * a - 1.38 * a * a);
  const last = Math.min(a, 10);
  return Math.exp(1.2937 - 5.709 * last + 0.0186 * last * last);
}

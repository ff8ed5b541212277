import { type Computed, computed, dataProblem } from './data-problem.ts';
import { compensatedSum, inAscendingOrder } from './descriptive.ts';
import { seededExponentials, simulationSeed } from './seeded-generator.ts';
import { type CensoredSample, fitRelativeLogs, fitWeibull } from './weibull.ts';
import { censoringOf } from './weibull-bound.ts';
import { drawSmallest } from './weibull-pivots.ts';

/** Anderson-Darling test of a Weibull distribution, both parameters estimated from the sample. */
export interface WeibullFitTest {
  readonly count: number;
  readonly failureCount: number;
  /** A^2, for a censored sample over the failures alone. */
  readonly statistic: number;
  /** Share of simulated samples that fit no better, the sample itself counted in. */
  readonly pValue: number;
  readonly simulations: number;
}

/** Samples that p is counted from: the standard error of a p of 0.05 is 0.005. */
const simulations = 2000;

/**
 * Tests whether failures can come from a Weibull distribution. The distribution of the statistic of a complete or
 * type II censored sample hangs only on the numbers of units and failures, so p is counted from samples of the
 * standard distribution, with the seed of this folder. Where the test ends at a fixed value, it is taken to have
 * ended with the last failure. Needs 5 failures.
 *
 * Source: D'Agostino and Stephens, Goodness-of-Fit Techniques (1986), chapter 4, sections on complete and on singly
 * censored samples; p value simulated.
 */
export function weibullFitTest(sample: CensoredSample): Computed<WeibullFitTest> {
  const fit = fitWeibull(sample);
  if (!fit.ok) return fit;
  const censoring = censoringOf(sample);
  if (!censoring.ok) return censoring;
  const { failureCount, count } = fit.value;
  if (failureCount < 5)
    return dataProblem('too-few-values', `${failureCount} failures, at least 5 needed for a test of fit`);
  const ordered = inAscendingOrder(sample.failures);
  const largest = ordered[failureCount - 1]!;
  const logs = Float64Array.from(ordered, (value) => Math.log(value / largest));
  const statistic = statisticOf(logs, count);
  const simulated = simulatedStatistics(count, failureCount);
  const worse = simulated.filter((value) => value >= statistic).length;
  return computed({
    count,
    failureCount,
    statistic,
    pValue: (1 + worse) / (1 + simulated.length),
    simulations: simulated.length,
  });
}

const known = new Map<string, readonly number[]>();

function simulatedStatistics(count: number, failureCount: number): readonly number[] {
  const key = `${count} ${failureCount}`;
  const remembered = known.get(key);
  if (remembered) return remembered;
  const exponential = seededExponentials(simulationSeed);
  const logs = new Float64Array(failureCount);
  const statistics = Array.from({ length: simulations }, () => {
    drawSmallest(count, exponential, logs);
    return statisticOf(logs, count);
  });
  known.set(key, statistics);
  return statistics;
}

/** A^2 of failures given as ascending logarithms relative to the largest, with the units still on test after it. */
function statisticOf(logs: Float64Array, count: number): number {
  const failures = logs.length;
  const counts = new Float64Array(failures).fill(1);
  counts[failures - 1] = 1 + count - failures;
  const { shape, logScale } = fitRelativeLogs(logs, counts, failures);
  // -log(1 - F) and log F at each failure.
  const hazards = Array.from(logs, (log) => Math.exp(shape * (log - logScale)));
  const logShares = hazards.map((hazard) => Math.log(-Math.expm1(-hazard)));
  const terms = hazards.map((hazard, i) => (2 * i + 1) * (logShares[i]! + hazard));
  const total = -compensatedSum(terms) / count + 2 * compensatedSum(hazards);
  const survivors = count - failures;
  if (survivors === 0) return total - count;
  const lastHazard = hazards[failures - 1]!;
  const lastLogShare = logShares[failures - 1]!;
  return (
    total +
    (survivors * survivors * lastHazard +
      failures * failures * lastLogShare +
      count * count * Math.expm1(-lastHazard)) /
      count
  );
}

/**
 * Confidence bounds on a percentile and on the reliability of a Weibull distribution, by pivotal quantities.
 *
 * Complete samples, and tests that end with the last failure (type II censoring): exact but for the error of the
 * simulation, which is stated (weibull-pivots.ts). Tests that end at a fixed value, such as the range of the instrument
 * (type I): the same quantity, with its distribution simulated from the estimates and cut at the same value (parametric
 * bootstrap; Meeker and Escobar, Statistical Methods for Reliability Data, 1998, section 9.5), good but not exact. Not by
 * profile likelihood, which falls short of its confidence in small samples.
 */
import { requireCount, requireOpenProbability, requirePositive } from './argument-checks.ts';
import { type Computed, computed, dataProblem } from './data-problem.ts';
import { seededExponentials, simulationSeed } from './seeded-generator.ts';
import {
  type CensoredSample,
  fitRelativeLogs,
  fitWeibull,
  type WeibullFit,
  weibullReliability,
} from './weibull.ts';
import { percentilePivotQuantile, reliabilityPivotBound, type SimulatedValue } from './weibull-pivots.ts';

/** How the test of a sample ended: with every failure seen, with the last failure, or at a fixed value. */
export type Censoring = 'complete' | 'type II' | 'type I';

/** A bound with what it was computed from. */
export interface WeibullBound {
  readonly fit: WeibullFit;
  readonly censoring: Censoring;
  /** The maximum likelihood estimate of what is bounded. */
  readonly estimate: number;
  readonly bound: number;
  /** Standard error of the simulation, in the unit of the bound. */
  readonly simulationError: number;
}

/** A bound on a percentile, with its factor. */
export interface WeibullPercentileBound extends WeibullBound {
  /** The q of bound = scale exp(-q / shape); it hangs on the numbers of units and failures, coverage and confidence. */
  readonly factor: number;
}

/**
 * How the test ended, or the problem where units outlasted different values: the distribution of the pivotal quantity
 * is then not known.
 *
 * Source: Meeker and Escobar, Statistical Methods for Reliability Data (1998), section 2.3, kinds of censoring (the
 * section from memory).
 */
export function censoringOf({ failures, censored = [] }: CensoredSample): Computed<Censoring> {
  if (censored.length === 0) return computed('complete');
  const end = censored[0]!;
  const last = failures.reduce((a, b) => Math.max(a, b), 0);
  if (censored.some((value) => value !== end))
    return dataProblem('uneven-censoring', 'units that did not fail were held up to different values');
  if (last > end)
    return dataProblem(
      'uneven-censoring',
      `a unit failed at ${last}, above ${end}, up to which others were held`,
    );
  return computed(last === end ? 'type II' : 'type I');
}

/**
 * The bound that, with `confidence`, at least the share `coverage` of units reaches (side `lower`) or does not exceed
 * (`upper`). Needs 3 failures. `simulations` is the number of samples where the test ended at a fixed value, 20 000
 * unless given, fewer where a sample is large. Throws a RangeError on arguments out of range.
 *
 * Source: Lawless, Statistical Models and Methods for Lifetime Data (1982), section 4.1; for a test that ends at a
 * fixed value Meeker and Escobar, Statistical Methods for Reliability Data (1998), section 9.5.
 */
export function weibullPercentileBound(
  sample: CensoredSample,
  {
    coverage,
    confidence,
    side,
    simulations,
  }: {
    readonly coverage: number;
    readonly confidence: number;
    readonly side: 'lower' | 'upper';
    readonly simulations?: number;
  },
): Computed<WeibullPercentileBound> {
  requireOpenProbability('coverage', coverage);
  requireOpenProbability('confidence', confidence);
  if (simulations !== undefined) requireCount('simulations', simulations, 100);
  const taken = prepare(sample, simulations);
  if (!taken.ok) return taken;
  const { fit, censoring, bootstrap } = taken.value;
  const share = side === 'lower' ? confidence : 1 - confidence;
  const w = side === 'lower' ? Math.log(-Math.log(coverage)) : Math.log(-Math.log1p(-coverage));
  const factor = bootstrap
    ? empiricalQuantile(
        bootstrap.map(({ location, spread }) => (location - w) / spread),
        share,
      )
    : percentilePivotQuantile(patternOf(fit), w, share);
  const bound = fit.scale * Math.exp(-factor.value / fit.shape);
  return computed({
    fit,
    censoring,
    estimate: fit.scale * Math.exp(w / fit.shape),
    bound,
    simulationError: (bound * factor.standardError) / fit.shape,
    factor: factor.value,
  });
}

/**
 * The share of units that, with `confidence`, at least reaches `limit`: a lower bound on the reliability. Needs 3
 * failures. The lower bound on a percentile read backwards: at the bound for a coverage it is that coverage. Throws a
 * RangeError on arguments out of range.
 *
 * Source: as `weibullPercentileBound`, read backwards.
 */
export function weibullReliabilityBound(
  sample: CensoredSample,
  { limit, confidence }: { readonly limit: number; readonly confidence: number },
): Computed<WeibullBound> {
  requirePositive('limit', limit);
  requireOpenProbability('confidence', confidence);
  const taken = prepare(sample);
  if (!taken.ok) return taken;
  const { fit, censoring, bootstrap } = taken.value;
  const distance = fit.shape * (Math.log(fit.scale) - Math.log(limit));
  const w = bootstrap
    ? empiricalQuantile(
        bootstrap.map(({ location, spread }) => location - distance * spread),
        confidence,
      )
    : reliabilityPivotBound(patternOf(fit), distance, confidence);
  const hazard = Math.exp(w.value);
  const bound = Math.exp(-hazard);
  return computed({
    fit,
    censoring,
    estimate: weibullReliability(limit, fit),
    bound,
    simulationError: bound * hazard * w.standardError,
  });
}

const fewestFailures = 3;

function patternOf({ count, failureCount }: WeibullFit) {
  return { count, failureCount };
}

/** Estimates of location and spread in a simulated sample of the standard distribution. */
interface StandardEstimates {
  readonly location: number;
  readonly spread: number;
}

interface Prepared {
  readonly fit: WeibullFit;
  readonly censoring: Censoring;
  /** Absent where the pivotal quantity is exact. */
  readonly bootstrap?: readonly StandardEstimates[];
}

function prepare(sample: CensoredSample, simulations?: number): Computed<Prepared> {
  const fit = fitWeibull(sample);
  if (!fit.ok) return fit;
  const { failureCount, count } = fit.value;
  if (failureCount < fewestFailures)
    return dataProblem(
      'too-few-values',
      `${failureCount} of ${count} units failed, at least ${fewestFailures} failures needed`,
    );
  const censoring = censoringOf(sample);
  if (!censoring.ok) return censoring;
  if (censoring.value !== 'type I') return computed({ fit: fit.value, censoring: censoring.value });
  const samples = simulations ?? Math.min(Math.max(Math.round(600_000 / count), 2000), 20_000);
  const bootstrap = simulateFixedEnd(fit.value, sample.censored?.[0] ?? Number.NaN, samples);
  if (!bootstrap.ok) return bootstrap;
  return computed({ fit: fit.value, censoring: censoring.value, bootstrap: bootstrap.value });
}

/**
 * Samples of the standard distribution, held up to the same value as the real one by its estimates. Those with fewer than 2
 * failures, which have no estimates, are drawn anew.
 */
function simulateFixedEnd(
  { count, shape, scale }: WeibullFit,
  end: number,
  samples: number,
): Computed<readonly StandardEstimates[]> {
  const exponential = seededExponentials(simulationSeed);
  const logEnd = shape * (Math.log(end) - Math.log(scale));
  const found: StandardEstimates[] = [];
  const logs = new Float64Array(count + 1);
  const counts = new Float64Array(count + 1).fill(1);
  for (let tries = 0; found.length < samples; tries++) {
    if (tries > 20 * samples)
      return dataProblem('too-few-values', 'too few failures before the end of the range for a simulation');
    let failures = 0;
    let value = 0;
    for (; failures < count; failures++) {
      // Gaps of ordered exponentials (Renyi, 1953).
      value += exponential() / (count - failures);
      const log = Math.log(value) - logEnd;
      if (log > 0) break;
      logs[failures] = log;
    }
    if (failures < 2) continue;
    const survivors = count - failures;
    logs[failures] = 0;
    counts.fill(1, 0, failures);
    counts[failures] = survivors;
    const { shape: simulated, logScale } = fitRelativeLogs(logs.subarray(0, failures + 1), counts, failures);
    found.push({ location: logScale + logEnd, spread: 1 / simulated });
  }
  return computed(found);
}

/** The quantile of simulated values, with its standard error from the order statistics one error of the share away. */
function empiricalQuantile(values: readonly number[], share: number): SimulatedValue {
  const ordered = values.toSorted((a, b) => a - b);
  const at = (p: number): number =>
    ordered[Math.min(Math.max(Math.round(p * (ordered.length + 1)) - 1, 0), ordered.length - 1)]!;
  const error = Math.sqrt((share * (1 - share)) / ordered.length);
  return { value: at(share), standardError: (at(share + error) - at(share - error)) / 2 };
}

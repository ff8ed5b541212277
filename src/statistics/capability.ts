import { requireCount, requireFinite, requireOpenProbability, requirePositive } from './argument-checks.ts';
import { type Computed, computed, findDataProblem } from './data-problem.ts';
import { arithmeticMean, sampleStandardDeviation } from './descriptive.ts';
import { chiSquareQuantile, normalCdf, normalQuantile } from './distributions.ts';

/** One or both limits, in the unit of the values. */
export interface SpecificationLimits {
  readonly lower?: number;
  readonly upper?: number;
}

/** Capability indices from a mean and a standard deviation. */
export interface CapabilityIndices {
  /** (upper - lower) / (6 s); only with both limits. */
  readonly pp?: number;
  /** (mean - lower) / (3 s); only with a lower limit. */
  readonly ppl?: number;
  /** (upper - mean) / (3 s); only with an upper limit. */
  readonly ppu?: number;
  /** The smaller of ppl and ppu. */
  readonly ppk: number;
  /** Share of a normal population below the lower and above the upper limit. */
  readonly shareOutside: { readonly below: number; readonly above: number };
}

/** Limits of an index, two-sided. */
export interface ConfidenceLimits {
  readonly lower: number;
  readonly upper: number;
}

/** Indices of a sample with the figures they were computed from. */
export interface Capability extends CapabilityIndices {
  readonly count: number;
  readonly mean: number;
  /** The overall standard deviation. */
  readonly standardDeviation: number;
}

/**
 * Pp and Ppk of a sample, with its overall standard deviation. Needs two finite values, not all equal, and rests on a
 * normal distribution. Throws a RangeError when no limit is given or the lower is not below the upper.
 *
 * Source: as `capabilityIndices`; mean and standard deviation as `arithmeticMean` and `sampleStandardDeviation`.
 */
export function capability(values: readonly number[], limits: SpecificationLimits): Computed<Capability> {
  checkLimits(limits);
  const problem = findDataProblem(values, { minimum: 2, spread: true });
  if (problem) return problem;
  const mean = arithmeticMean(values);
  const standardDeviation = sampleStandardDeviation(values);
  const indices = capabilityIndices({ mean, standardDeviation }, limits);
  return computed({ count: values.length, mean, standardDeviation, ...indices });
}

/**
 * The same indices from a mean and a standard deviation; with a standard deviation within subgroups they are Cp and
 * Cpk. Throws a RangeError on arguments out of range.
 *
 * Source: Kane, Journal of Quality Technology 18 (1986): Pp = (U - L) / (6 s), Ppk = min((U - mean) / (3 s), (mean -
 * L) / (3 s)); NIST/SEMATECH e-Handbook 6.1.6. Shares outside: the normal distribution function beyond each limit.
 */
export function capabilityIndices(
  { mean, standardDeviation }: { readonly mean: number; readonly standardDeviation: number },
  limits: SpecificationLimits,
): CapabilityIndices {
  requireFinite('mean', mean);
  requirePositive('standardDeviation', standardDeviation);
  checkLimits(limits);
  const { lower, upper } = limits;
  const ppl = lower === undefined ? undefined : (mean - lower) / (3 * standardDeviation);
  const ppu = upper === undefined ? undefined : (upper - mean) / (3 * standardDeviation);
  return {
    ...(lower !== undefined && upper !== undefined && { pp: (upper - lower) / (6 * standardDeviation) }),
    ...(ppl !== undefined && { ppl }),
    ...(ppu !== undefined && { ppu }),
    ppk: Math.min(ppl ?? Number.POSITIVE_INFINITY, ppu ?? Number.POSITIVE_INFINITY),
    shareOutside: {
      below: ppl === undefined ? 0 : normalCdf(-3 * ppl),
      above: ppu === undefined ? 0 : normalCdf(-3 * ppu),
    },
  };
}

/**
 * Two-sided confidence limits of Pp: Pp sqrt(chi-square quantile / f), exact for a normal population.
 * `degreesOfFreedom` is n - 1 for the overall standard deviation (within-subgroup-spread.ts has those of Cp). Throws
 * a RangeError on arguments out of range.
 *
 * Source: Kane, Journal of Quality Technology 18 (1986).
 */
export function ppConfidenceLimits({
  pp,
  degreesOfFreedom,
  confidence,
}: {
  readonly pp: number;
  readonly degreesOfFreedom: number;
  readonly confidence: number;
}): ConfidenceLimits {
  requirePositive('pp', pp);
  requirePositive('degreesOfFreedom', degreesOfFreedom);
  requireOpenProbability('confidence', confidence);
  const limit = (probability: number) =>
    pp * Math.sqrt(chiSquareQuantile(probability, degreesOfFreedom) / degreesOfFreedom);
  return { lower: limit((1 - confidence) / 2), upper: limit((1 + confidence) / 2) };
}

/**
 * Two-sided confidence limits of Ppk by Bissell's normal approximation, Ppk +/- z sqrt(1 / (9 n) + Ppk^2 / (2 f));
 * fair from about 30 values on. Throws a RangeError on arguments out of range.
 *
 * Source: Bissell, Applied Statistics 39 (1990).
 */
export function ppkConfidenceLimits({
  ppk,
  sampleSize,
  degreesOfFreedom = sampleSize - 1,
  confidence,
}: {
  readonly ppk: number;
  readonly sampleSize: number;
  readonly degreesOfFreedom?: number;
  readonly confidence: number;
}): ConfidenceLimits {
  requireFinite('ppk', ppk);
  requireCount('sampleSize', sampleSize, 2);
  requirePositive('degreesOfFreedom', degreesOfFreedom);
  requireOpenProbability('confidence', confidence);
  const spread = Math.sqrt(1 / (9 * sampleSize) + (ppk * ppk) / (2 * degreesOfFreedom));
  const margin = normalQuantile((1 + confidence) / 2) * spread;
  return { lower: ppk - margin, upper: ppk + margin };
}

function checkLimits({ lower, upper }: SpecificationLimits): void {
  if (lower === undefined && upper === undefined)
    throw new RangeError('limits has neither lower nor upper; at least one is needed');
  if (lower !== undefined) requireFinite('lower', lower);
  if (upper !== undefined) requireFinite('upper', upper);
  if (lower !== undefined && upper !== undefined && lower >= upper)
    throw new RangeError(`lower is ${lower}; it must be less than upper, ${upper}`);
}

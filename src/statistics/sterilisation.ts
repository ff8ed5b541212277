/**
 * Death of microorganisms in a sterilising process: their number falls by a power of ten with each decimal reduction time
 * D (ISO 11138-1; ISO 11135, annex B; ISO 14937). Times are in any one unit; populations are counts per unit of product
 * or per biological indicator.
 */
import {
  requireCount,
  requireNonNegative,
  requireOpenProbability,
  requirePositive,
} from './argument-checks.ts';

/**
 * D = t / (log10 N0 - log10 N), from counts before and after an exposure. Throws a RangeError.
 *
 * Source: ISO 11138-1, survivor curve method (the annex from memory).
 */
export function decimalReductionTime({
  exposure,
  initial,
  surviving,
}: {
  readonly exposure: number;
  readonly initial: number;
  readonly surviving: number;
}): number {
  requirePositive('exposure', exposure);
  requirePositive('initial', initial);
  requirePositive('surviving', surviving);
  if (surviving >= initial)
    throw new RangeError(`surviving is ${surviving}; it must be less than initial, ${initial}`);
  return exposure / Math.log10(initial / surviving);
}

/**
 * D from replicates of which some show no growth: D = t / (log10 N0 - log10 ln(n / r)) with r negative of n, where
 * ln(n / r) is the most probable number of survivors in each. Needs at least one replicate with growth and one
 * without. Throws a RangeError.
 *
 * Source: Stumbo, Murphy and Cochran, Food Technology 4 (1950); ISO 11138-1, fraction negative method (the annex from
 * memory).
 */
export function decimalReductionTimeFromNegatives({
  exposure,
  initial,
  replicates,
  negative,
}: {
  readonly exposure: number;
  readonly initial: number;
  readonly replicates: number;
  readonly negative: number;
}): number {
  requireCount('replicates', replicates, 2);
  requireCount('negative', negative, 1);
  if (negative >= replicates)
    throw new RangeError(
      `negative is ${negative}; it must be less than replicates, ${replicates}: with no growth at all there is only a bound`,
    );
  return decimalReductionTime({ exposure, initial, surviving: Math.log(replicates / negative) });
}

/** One step of a fraction-negative study: `negative` of `replicates` show no growth after `exposure`. */
export interface ExposureStep {
  readonly exposure: number;
  readonly replicates: number;
  readonly negative: number;
}

/**
 * D by Holcomb, Spearman and Karber: the mean exposure until sterility, sum of the middles of neighbouring exposures
 * times the rise of the negative share between them, over log10 N0 + 0.2507, which is Euler's constant over ln 10.
 * Exposures ascend, from one where all replicates grow to one where none does, and the negative share must not fall
 * on the way. Throws a RangeError that says what is amiss.
 *
 * Source: ISO 11138-1, annex D, Holcomb-Spearman-Karber procedure.
 */
export function decimalReductionTimeBySpearmanKarber(
  steps: readonly ExposureStep[],
  { initial }: { readonly initial: number },
): number {
  requirePositive('initial', initial);
  const first = steps[0];
  const last = steps.at(-1);
  if (steps.length < 2 || first === undefined || last === undefined)
    throw new RangeError(`there are ${steps.length} exposures; at least 2 are needed`);
  for (const { exposure, replicates, negative } of steps) {
    requireNonNegative('exposure', exposure);
    requireCount('replicates', replicates, 1);
    requireCount('negative', negative, 0);
    if (negative > replicates)
      throw new RangeError(`negative is ${negative}; it must not exceed replicates, ${replicates}`);
  }
  if (first.negative !== 0)
    throw new RangeError(
      `${first.negative} replicates are negative at the first exposure; all must grow there`,
    );
  if (last.negative !== last.replicates)
    throw new RangeError(
      `${last.replicates - last.negative} replicates grow at the last exposure; none may grow there`,
    );
  let mean = 0;
  for (let place = 1; place < steps.length; place++) {
    const from = steps[place - 1]!;
    const to = steps[place]!;
    const rise = to.negative / to.replicates - from.negative / from.replicates;
    if (to.exposure <= from.exposure)
      throw new RangeError(`exposure ${to.exposure} does not lie above ${from.exposure}, the one before it`);
    if (rise < 0)
      throw new RangeError(`the negative share falls from exposure ${from.exposure} to ${to.exposure}`);
    mean += ((from.exposure + to.exposure) / 2) * rise;
  }
  return mean / (Math.log10(initial) + eulerConstant / Math.LN10);
}

const eulerConstant = 0.5772156649015329;

/**
 * Powers of ten by which an exposure lowers a population, t / D. Throws a RangeError.
 *
 * Source: ISO 11138-1 and ISO 14937, t / D by the definition of D.
 */
export function sporeLogReduction({
  exposure,
  decimalReduction,
}: {
  readonly exposure: number;
  readonly decimalReduction: number;
}): number {
  requireNonNegative('exposure', exposure);
  requirePositive('decimalReduction', decimalReduction);
  return exposure / decimalReduction;
}

/**
 * The sterility assurance level: expected number of survivors on a unit, N0 x 10^-SLR, which is its probability of
 * not being sterile as long as it is small. Throws a RangeError.
 *
 * Source: ISO/TS 11139, sterility assurance level; ISO 14937 for the line of log survivors.
 */
export function sterilityAssuranceLevel({
  population,
  logReduction,
}: {
  readonly population: number;
  readonly logReduction: number;
}): number {
  requirePositive('population', population);
  requireNonNegative('logReduction', logReduction);
  return population * 10 ** -logReduction;
}

/**
 * The exposure after which `population` comes down to the sterility assurance level: D (log10 N0 - log10 SAL). Throws
 * a RangeError.
 *
 * Source: as `sterilityAssuranceLevel`, solved for the exposure.
 */
export function exposureForAssurance({
  population,
  decimalReduction,
  level,
}: {
  readonly population: number;
  readonly decimalReduction: number;
  readonly level: number;
}): number {
  requirePositive('population', population);
  requirePositive('decimalReduction', decimalReduction);
  requirePositive('level', level);
  return Math.max(0, decimalReduction * Math.log10(population / level));
}

/**
 * The largest bioburden per unit that a process of `logReduction` brings down to the sterility assurance level.
 * Throws a RangeError.
 *
 * Source: as `sterilityAssuranceLevel`, solved for the population.
 */
export function bioburdenLimit({
  logReduction,
  level,
}: {
  readonly logReduction: number;
  readonly level: number;
}): number {
  requireNonNegative('logReduction', logReduction);
  requirePositive('level', level);
  return level * 10 ** logReduction;
}

/**
 * The spore log reduction that `indicators` biological indicators without any growth show with `confidence`. With
 * Poisson survivors, no growth at all has the probability exp(-n N0 10^-SLR); it is below 1 - C unless N0 10^-SLR is
 * at most -ln(1 - C) / n, so SLR is at least log10 N0 - log10(-ln(1 - C) / n). The same reasoning as the success-run
 * theorem; the customary claim of a full log10 N0 reduction from a half cycle without growth (ISO 11135, annex B) is
 * the point where one survivor is expected on each indicator, and is weaker where n is above -ln(1 - C). Never below
 * 0. Throws a RangeError.
 *
 * Source: derived here as written; the same reasoning as `successRunSampleSize`. ISO 11135, annex B, for the
 * customary claim.
 */
export function demonstratedLogReduction({
  population,
  indicators,
  confidence,
}: {
  readonly population: number;
  readonly indicators: number;
  readonly confidence: number;
}): number {
  requirePositive('population', population);
  requireCount('indicators', indicators, 1);
  requireOpenProbability('confidence', confidence);
  return Math.max(0, Math.log10(population) - Math.log10(-Math.log1p(-confidence) / indicators));
}

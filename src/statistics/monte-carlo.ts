/**
 * Propagation of distributions by simulation (JCGM 101:2008, Supplement 1 to the Guide to the expression of uncertainty in
 * measurement), with a seeded generator, so that the same seed gives the same figures everywhere.
 */
import {
  requireCount,
  requireFinite,
  requireNonNegative,
  requireOpenProbability,
  requirePositive,
} from './argument-checks.ts';
import { clopperPearsonLimits } from './clopper-pearson.ts';
import { type Computed, computed, dataProblem } from './data-problem.ts';
import { arithmeticMean, sampleStandardDeviation } from './descriptive.ts';
import { seededNormals, seededUniforms } from './seeded-generator.ts';

/** How a quantity is spread over its tolerance. */
export type Distribution = 'normal' | 'uniform' | 'triangular';

/** A quantity that varies: the middle of its tolerance, and half of the width. */
export interface SpreadQuantity {
  readonly centre: number;
  readonly halfWidth: number;
  readonly distribution: Distribution;
  /** For a normal distribution: standard deviations in the half width; 3 unless given (a capability index of 1). */
  readonly sigmaLevel?: number;
}

/**
 * Standard deviation of a quantity: half width over its sigma level, root 3 (uniform) or root 6 (triangular). Throws
 * a RangeError.
 *
 * Source: JCGM 100:2008, Guide to the expression of uncertainty in measurement, 4.3.7 (a half width over root 3) and
 * 4.3.9 (triangular: over root 6).
 */
export function standardDeviationOf({
  halfWidth,
  distribution,
  sigmaLevel = 3,
}: Omit<SpreadQuantity, 'centre'>): number {
  requireNonNegative('halfWidth', halfWidth);
  requirePositive('sigmaLevel', sigmaLevel);
  if (distribution === 'uniform') return halfWidth / Math.sqrt(3);
  if (distribution === 'triangular') return halfWidth / Math.sqrt(6);
  return halfWidth / sigmaLevel;
}

/** What the trials gave. */
export interface Simulation {
  readonly trials: number;
  readonly mean: number;
  readonly standardDeviation: number;
  /** The interval that holds `coverage` of the trials, with the same share left out on both sides (JCGM 101, 7.7). */
  readonly lower: number;
  readonly upper: number;
  readonly smallest: number;
  readonly largest: number;
  /** Trials outside the limits, and the upper confidence limit (Clopper-Pearson) of their share. */
  readonly outside: number;
  readonly shareOutsideLimit: number;
}

/**
 * Draws every quantity `trials` times, independently and in the order given, and runs the model on each draw. A trial
 * without a finite result is a problem of the data. Throws a RangeError on arguments out of range.
 *
 * Source: JCGM 101:2008, 7.3 to 7.7, with the probabilistically symmetric coverage interval; limit of the share
 * outside as `clopperPearsonLimits`.
 */
export function simulate(
  quantities: readonly SpreadQuantity[],
  model: (values: readonly number[]) => number,
  {
    trials,
    seed,
    coverage,
    confidence,
    limits = {},
  }: {
    readonly trials: number;
    readonly seed: number;
    /** Share of the trials that the interval holds. */
    readonly coverage: number;
    readonly confidence: number;
    readonly limits?: { readonly lower?: number; readonly upper?: number };
  },
): Computed<Simulation> {
  requireCount('trials', trials, 1000);
  requireOpenProbability('coverage', coverage);
  requireOpenProbability('confidence', confidence);
  if (quantities.length === 0) throw new RangeError('a simulation needs at least one quantity');
  for (const quantity of quantities) {
    requireFinite('centre', quantity.centre);
    standardDeviationOf(quantity);
  }
  const uniform = seededUniforms(seed);
  // A sequence of its own, so that the polar method's rejections do not shift the uniform draws.
  const normal = seededNormals(seed + 1);
  const drawers = quantities.map((quantity) => drawerOf(quantity, uniform, normal));
  const values = new Float64Array(trials);
  const draw = new Array<number>(quantities.length).fill(0);
  let outside = 0;
  const { lower = Number.NEGATIVE_INFINITY, upper = Number.POSITIVE_INFINITY } = limits;
  for (let trial = 0; trial < trials; trial++) {
    for (let place = 0; place < drawers.length; place++) draw[place] = drawers[place]!();
    const value = model(draw);
    if (!Number.isFinite(value))
      return dataProblem(
        'non-finite-value',
        `trial ${trial + 1} of ${trials} has no result that is a finite number`,
      );
    if (value < lower || value > upper) outside++;
    values[trial] = value;
  }
  // The trials stay in their order for the mean; the compensated sums need no more than one pass over them.
  const mean = arithmeticMean([...values]);
  const standardDeviation = sampleStandardDeviation([...values]);
  values.sort();
  const held = Math.round(coverage * trials);
  const first = Math.min(Math.floor((trials - held) / 2), trials - 1);
  return computed({
    trials,
    mean,
    standardDeviation,
    lower: values[first]!,
    upper: values[Math.min(first + held, trials - 1)]!,
    smallest: values[0]!,
    largest: values[trials - 1]!,
    outside,
    shareOutsideLimit: clopperPearsonLimits({
      count: outside,
      sampleSize: trials,
      confidence,
      sides: 'upper',
    }).upper,
  });
}

function drawerOf(
  { centre, halfWidth, distribution, sigmaLevel = 3 }: SpreadQuantity,
  uniform: () => number,
  normal: () => number,
): () => number {
  if (distribution === 'uniform') return () => centre + halfWidth * (2 * uniform() - 1);
  if (distribution === 'triangular') return () => centre + halfWidth * (uniform() + uniform() - 1);
  return () => centre + (halfWidth / sigmaLevel) * normal();
}

import { requireCount, requireOpenProbability } from './argument-checks.ts';
import { type Computed, computed, findDataProblem } from './data-problem.ts';
import { arithmeticMean, sampleStandardDeviation } from './descriptive.ts';
import { chiSquareCdf, normalCdf, normalDensity, normalQuantile } from './distributions.ts';
import { visitPanels } from './gauss-legendre.ts';
import { noncentralTQuantile } from './noncentral-t.ts';
import { stirlingCorrection } from './stirling-correction.ts';

/** What a tolerance interval shall achieve: with `confidence`, at least `coverage` of the population lies inside. */
export interface ToleranceRequirement {
  readonly coverage: number;
  readonly confidence: number;
}

/** Which limits are drawn. */
export type Sides = 'lower' | 'upper' | 'both';

/** A normal tolerance interval with the figures it was computed from, in the unit of the values. */
export interface NormalToleranceInterval {
  readonly count: number;
  readonly mean: number;
  readonly standardDeviation: number;
  readonly factor: number;
  /** Absent for an upper limit alone. */
  readonly lower?: number;
  /** Absent for a lower limit alone. */
  readonly upper?: number;
}

/**
 * The exact k for a one-sided normal tolerance limit mean + k s (or mean - k s): the `confidence` quantile of the
 * noncentral t distribution with n - 1 degrees of freedom and noncentrality z(coverage) sqrt(n), over sqrt(n). Throws
 * a RangeError on arguments out of range.
 *
 * Source: ISO 16269-6; NIST/SEMATECH e-Handbook 7.2.6.3.
 */
export function oneSidedToleranceFactor({
  sampleSize,
  coverage,
  confidence,
}: ToleranceRequirement & { readonly sampleSize: number }): number {
  checkArguments(sampleSize, coverage, confidence);
  return remembered(`one ${sampleSize} ${coverage} ${confidence}`, () => {
    const root = Math.sqrt(sampleSize);
    const parameters = { degreesOfFreedom: sampleSize - 1, noncentrality: normalQuantile(coverage) * root };
    return noncentralTQuantile(confidence, parameters) / root;
  });
}

/**
 * The exact k for a two-sided normal tolerance interval mean +/- k s that holds at least `coverage` between its
 * limits: the root of an integral. Not Howe's approximation, which is too small at n = 10. Throws a RangeError on
 * arguments out of range.
 *
 * Source: ISO 16269-6, annex F; Meeker, Hahn and Escobar, Statistical Intervals, 2nd edition (2017), section 4.6.
 */
export function twoSidedToleranceFactor({
  sampleSize,
  coverage,
  confidence,
}: ToleranceRequirement & { readonly sampleSize: number }): number {
  checkArguments(sampleSize, coverage, confidence);
  return remembered(`two ${sampleSize} ${coverage} ${confidence}`, () =>
    solveTwoSided(sampleSize, coverage, confidence),
  );
}

/**
 * The normal tolerance interval of a sample. Needs two finite values that are not all equal. It rests on a normal
 * distribution of the values, which the caller has to test. Throws a RangeError on arguments out of range.
 *
 * Source: ISO 16269-6; NIST/SEMATECH e-Handbook 7.2.6.3; factors as `oneSidedToleranceFactor` and
 * `twoSidedToleranceFactor`.
 */
export function normalToleranceInterval(
  values: readonly number[],
  { coverage, confidence, sides }: ToleranceRequirement & { readonly sides: Sides },
): Computed<NormalToleranceInterval> {
  requireOpenProbability('coverage', coverage);
  requireOpenProbability('confidence', confidence);
  const problem = findDataProblem(values, { minimum: 2, spread: true });
  if (problem) return problem;
  const mean = arithmeticMean(values);
  const standardDeviation = sampleStandardDeviation(values);
  const required = { sampleSize: values.length, coverage, confidence };
  const factor = sides === 'both' ? twoSidedToleranceFactor(required) : oneSidedToleranceFactor(required);
  const margin = factor * standardDeviation;
  return computed({
    count: values.length,
    mean,
    standardDeviation,
    factor,
    ...(sides !== 'upper' && { lower: mean - margin }),
    ...(sides !== 'lower' && { upper: mean + margin }),
  });
}

function checkArguments(sampleSize: number, coverage: number, confidence: number): void {
  requireCount('sampleSize', sampleSize, 2);
  requireOpenProbability('coverage', coverage);
  requireOpenProbability('confidence', confidence);
}

/** Factors by their arguments. A file asks for the same few again and again. */
const factors = new Map<string, number>();

function remembered(key: string, compute: () => number): number {
  const known = factors.get(key);
  if (known !== undefined) return known;
  const factor = compute();
  factors.set(key, factor);
  return factor;
}

/**
 * Given the mean's error z (in standard errors), k s must reach r(z / sqrt n), so the interval fails when
 * chi-square with f = n - 1 is at most f (r / k)^2. Averaged over z this probability must be 1 - confidence:
 * solved by Newton's method on its logarithm as a function of log k.
 */
function solveTwoSided(sampleSize: number, coverage: number, confidence: number): number {
  const degrees = sampleSize - 1;
  const target = Math.log(1 - confidence);
  const points = meanErrorPoints(sampleSize, coverage);
  const logChiScale = logChiSquareScale(degrees);

  const failure = (logK: number) => {
    let probability = 0;
    let slope = 0;
    for (const { weight, reach } of points) {
      const ratio = reach * Math.exp(-logK);
      const x = degrees * ratio * ratio;
      probability += weight * chiSquareCdf(x, degrees);
      // -dP/d(log k) is 2 x times the chi-square density at x.
      slope +=
        weight * 2 * Math.exp(logChiScale + 0.5 * degrees * Math.log(x / degrees) - 0.5 * (x - degrees));
    }
    return { probability, slope };
  };

  let low = Number.NEGATIVE_INFINITY;
  let high = Number.POSITIVE_INFINITY;
  let logK = Math.log(normalQuantile(0.5 + coverage / 2));
  for (let step = 0; step < 100; step++) {
    const { probability, slope } = failure(logK);
    const gap = Math.log(probability) - target;
    if (gap > 0) low = logK;
    else high = logK;
    let next = logK + (gap * probability) / slope;
    // Newton's steps square the error: after one this small the next could change nothing.
    if (Math.abs(next - logK) < 1e-9) return Math.exp(next);
    if (!(next > low && next < high)) {
      if (Number.isFinite(low) && Number.isFinite(high)) next = 0.5 * (low + high);
      else next = gap > 0 ? logK + 0.5 : logK - 0.5;
    }
    logK = next;
  }
  return Math.exp(logK);
}

/** Quadrature points over z from 0 to 10 (both signs folded), with r(z / sqrt n) solved at each. */
function meanErrorPoints(sampleSize: number, coverage: number) {
  const root = Math.sqrt(sampleSize);
  const points: { weight: number; reach: number }[] = [];
  let reach = normalQuantile(0.5 + coverage / 2);
  visitPanels([0, 2.5, 5, 10], (z, weight) => {
    reach = halfWidthAround(z / root, coverage, reach);
    points.push({ weight: 2 * weight * normalDensity(z), reach });
  });
  return points;
}

/** The r with Phi(x + r) - Phi(x - r) = coverage, x >= 0, by Newton's method from a value nearby. */
function halfWidthAround(x: number, coverage: number, nearby: number): number {
  const outside = 1 - coverage;
  let r = Math.max(nearby, x + normalQuantile(coverage));
  for (let step = 0; step < 60; step++) {
    // Counted by what lies outside, so that a coverage near 1 keeps its digits.
    const gap = normalCdf(x - r) + normalCdf(-x - r) - outside;
    const change = gap / (normalDensity(x - r) + normalDensity(x + r));
    r += change;
    if (Math.abs(change) <= 1e-15 * r) break;
  }
  return r;
}

/** log of f times the chi-square density at its mean f, with f degrees of freedom. */
function logChiSquareScale(degrees: number): number {
  const a = degrees / 2;
  return 0.5 * Math.log(a / (2 * Math.PI)) - stirlingCorrection(a);
}

/**
 * The noncentral t distribution: T = (Z + delta) / S with Z standard normal and S^2 chi-square divided by its
 * degrees of freedom, independent.
 *
 * P(T <= t) is the integral over u = log s of Phi(t s - delta) g(u), where g is the density of log S. Both factors
 * are smooth, so panels of 20-point Gauss-Legendre quadrature, placed where the product lives, reach rounding
 * accuracy for any noncentrality. Series in the noncentrality (Algorithm AS 243 and its descendants) lose all
 * digits in the far tails and beyond delta of about 37.
 */
import { requireFinite, requireOpenProbability } from './argument-checks.ts';
import { logNormalCdf, normalCdf, normalDensity, normalQuantile } from './distributions.ts';
import { visitPanels } from './gauss-legendre.ts';
import { stirlingCorrection } from './stirling-correction.ts';

/** Degrees of freedom (1 or more, not necessarily whole) and noncentrality (any finite number). */
export interface NoncentralT {
  readonly degreesOfFreedom: number;
  readonly noncentrality: number;
}

/**
 * P(T <= t). Keeps its relative accuracy (about 1e-13) while the probability is small. Throws a RangeError.
 *
 * Source: Johnson and Welch, Biometrika 31 (1940), the definition; the integral of the head of this file.
 */
export function noncentralTCdf(t: number, parameters: NoncentralT): number {
  checkArguments(t, parameters);
  return lowerTail(t, parameters).probability;
}

/**
 * P(T > t). Keeps its relative accuracy (about 1e-13) while the probability is small. Throws a RangeError.
 *
 * Source: as `noncentralTCdf`.
 */
export function noncentralTUpperTail(t: number, parameters: NoncentralT): number {
  checkArguments(t, parameters);
  return lowerTail(-t, mirrored(parameters)).probability;
}

/**
 * The t with P(T <= t) = probability, from 1e-100 to below 1. Newton's method on the logarithm of the smaller tail,
 * kept inside a bracket. Throws a RangeError on arguments out of range.
 *
 * Source: as `noncentralTCdf`, solved for t.
 */
export function noncentralTQuantile(probability: number, parameters: NoncentralT): number {
  requireOpenProbability('probability', probability);
  if (probability < 1e-100) throw new RangeError(`probability is ${probability}; it must be at least 1e-100`);
  checkArguments(0, parameters);
  if (probability > 0.5) return -lowerTailQuantile(1 - probability, mirrored(parameters));
  return lowerTailQuantile(probability, parameters);
}

function checkArguments(t: number, { degreesOfFreedom, noncentrality }: NoncentralT): void {
  requireFinite('t', t);
  if (!(degreesOfFreedom >= 1 && Number.isFinite(degreesOfFreedom)))
    throw new RangeError(`degreesOfFreedom is ${degreesOfFreedom}; it must be a finite number of at least 1`);
  requireFinite('noncentrality', noncentrality);
}

function mirrored({ degreesOfFreedom, noncentrality }: NoncentralT): NoncentralT {
  return { degreesOfFreedom, noncentrality: -noncentrality };
}

/** P(T <= t) and its derivative with respect to t. */
function lowerTail(t: number, { degreesOfFreedom, noncentrality }: NoncentralT) {
  const logScale = logDensityScale(degreesOfFreedom);
  let probability = 0;
  let density = 0;
  visitPanels(panels(t, degreesOfFreedom, noncentrality), (u, weight) => {
    const s = Math.exp(u);
    const x = t * s - noncentrality;
    const mass = weight * Math.exp(logScale + logShape(u, degreesOfFreedom));
    probability += mass * normalCdf(x);
    density += mass * s * normalDensity(x);
  });
  return { probability: Math.min(probability, 1), density };
}

/** log of g(u), the density of u = log S, without its constant; 0 at its maximum u = 0. */
function logShape(u: number, degreesOfFreedom: number): number {
  return degreesOfFreedom * (u - 0.5 * Math.expm1(2 * u));
}

/** log of g(0) = 2 a^a e^-a / Gamma(a) with a = half the degrees of freedom. */
function logDensityScale(degreesOfFreedom: number): number {
  const a = degreesOfFreedom / 2;
  return Math.LN2 + 0.5 * Math.log(a / (2 * Math.PI)) - stirlingCorrection(a);
}

/** How far below its maximum the integrand may be left out: e^-42 is below 1e-18. */
const depth = 42;

/** Breakpoints over u = log s, fine enough for both factors of the integrand. */
function panels(t: number, degreesOfFreedom: number, noncentrality: number): number[] {
  const logIntegrand = (u: number): number =>
    logShape(u, degreesOfFreedom) + logNormalCdf(t * Math.exp(u) - noncentrality);
  const width = panelWidth(t, degreesOfFreedom, noncentrality);
  const peak = peakOf(t, degreesOfFreedom, noncentrality);
  const floor = logIntegrand(peak) - depth;
  const start = crossing(logIntegrand, peak, floor, -1, width);
  const end = crossing(logIntegrand, peak, floor, 1, width);

  const breakpoints = [start];
  let u = start;
  while (u < end) {
    u = Math.min(u + width(u), end);
    breakpoints.push(u);
  }
  return breakpoints;
}

/**
 * Where the integrand is largest, closely enough to place panels: at s = 1 if Phi is near 1 there, else where
 * the Gaussian tail of Phi and the density balance, the positive root of (t^2 + f) s^2 - delta t s - f = 0.
 */
function peakOf(t: number, degreesOfFreedom: number, noncentrality: number): number {
  if (t >= noncentrality) return 0;
  const product = noncentrality * t;
  const square = t * t + degreesOfFreedom;
  const root = Math.sqrt(product * product + 4 * square * degreesOfFreedom);
  // The two forms of the root are equal; each is used where it does not subtract.
  return Math.log(product > 0 ? (product + root) / (2 * square) : (2 * degreesOfFreedom) / (root - product));
}

/** The u on one side of the peak where the integrand falls through the floor, to within a panel. */
function crossing(
  f: (u: number) => number,
  peak: number,
  floor: number,
  direction: -1 | 1,
  width: (u: number) => number,
): number {
  let inside = 0;
  let outside = 0.05;
  while (f(peak + direction * outside) > floor) {
    inside = outside;
    outside *= 1.6;
  }
  while (outside - inside > Math.max(width(peak + direction * outside), 1e-14)) {
    const middle = 0.5 * (inside + outside);
    if (f(peak + direction * middle) > floor) inside = middle;
    else outside = middle;
  }
  return peak + direction * outside;
}

/**
 * How wide a panel may be that starts at u: two and a half standard deviations of the narrower factor. The density of
 * log S is locally a Gaussian of width 1 / (s sqrt(2 f)) above the peak and never wider than its exponential left side
 * needs. Phi turns from 0 to 1 over a width 1 / (|t| s); where its argument is above 9 it is 1 and does not matter.
 */
function panelWidth(t: number, degreesOfFreedom: number, noncentrality: number): (u: number) => number {
  const turningEnd = (noncentrality + 9) / t;
  const uEnd = turningEnd > 0 ? Math.log(turningEnd) : Number.NEGATIVE_INFINITY;
  const atPeak = Math.min(2.5 / Math.sqrt(2 * degreesOfFreedom), 1.2);
  return (u) => {
    const width = atPeak / Math.max(1, Math.exp(u));
    // With t > 0 the argument rises and Phi is done beyond uEnd; with t < 0 it falls and Phi is still 1 before uEnd.
    if (t > 0 && u >= uEnd) return width;
    if (t < 0 && uEnd - u > 1e-12) return Math.min(width, uEnd - u);
    return Math.min(width, 2.5 / (Math.abs(t) * Math.exp(u + width)));
  };
}

function lowerTailQuantile(probability: number, parameters: NoncentralT): number {
  const target = Math.log(probability);
  let low = Number.NEGATIVE_INFINITY;
  let high = Number.POSITIVE_INFINITY;
  let t = firstGuess(probability, parameters);
  let reach = 1 + 0.1 * Math.abs(t);
  for (let step = 0; step < 200; step++) {
    const tail = lowerTail(t, parameters);
    const gap = Math.log(tail.probability) - target;
    if (gap === 0) return t;
    if (gap > 0) high = t;
    else low = t;
    let next = t - stepLength(t, gap, tail);
    // Newton's steps square the error: after one this small the next could change nothing.
    if (Math.abs(next - t) <= 1e-9 * Math.abs(t)) return next;
    if (!(next > low && next < high)) {
      if (Number.isFinite(low) && Number.isFinite(high)) next = 0.5 * (low + high);
      else {
        next = gap > 0 ? t - reach : t + reach;
        reach *= 2;
      }
    }
    t = next;
  }
  return t;
}

/** Newton's step for log probability; in log |t| where t is negative, since far tails are powers of |t|. */
function stepLength(
  t: number,
  gap: number,
  tail: { readonly probability: number; readonly density: number },
): number {
  const step = (gap * tail.probability) / tail.density;
  return t < -1 ? t * -Math.expm1(-step / t) : step;
}

/** Jennett and Welch's normal approximation (Johnson, Kotz & Balakrishnan, vol. 2, ch. 31) where it has a root. */
function firstGuess(probability: number, { degreesOfFreedom, noncentrality }: NoncentralT): number {
  const z = normalQuantile(probability);
  const b = 1 - 1 / (4 * degreesOfFreedom);
  const spread = 1 / (2 * degreesOfFreedom);
  const below = b * b - spread * z * z;
  const inside = b * b + spread * (noncentrality * noncentrality - z * z);
  if (below <= 0.05 || inside <= 0) return noncentrality + z * Math.sqrt(1 + spread * noncentrality ** 2);
  return (noncentrality * b + z * Math.sqrt(inside)) / below;
}

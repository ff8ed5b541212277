/**
 * Constants of control charts, computed from their definitions instead of typed from a table, so that they hold for
 * every subgroup size and to the last digit.
 */
import { requireCount, requirePositive } from './argument-checks.ts';
import { normalCdf } from './distributions.ts';
import { visitPanels } from './gauss-legendre.ts';
import { stirlingCorrection } from './stirling-correction.ts';

/** Subgroups larger than this have no range constants: the range wastes most of what they hold. */
const largestSubgroup = 1000;

/**
 * c4: the mean of the sample standard deviation over the true one, sqrt(2 / f) Gamma((f + 1) / 2) / Gamma(f / 2) with
 * f = n - 1. Throws a RangeError.
 *
 * Source: ASTM MNL 7, Manual on Presentation of Data and Control Chart Analysis; NIST/SEMATECH e-Handbook 6.3.2.
 */
export function c4(sampleSize: number): number {
  requireCount('sampleSize', sampleSize, 2);
  return meanOfChi(sampleSize - 1);
}

/**
 * d2: the mean range of n standard normal values, the integral over x of 1 - Phi(x)^n - (1 - Phi(x))^n. Throws a
 * RangeError.
 *
 * Source: Tippett, Biometrika 17 (1925).
 */
export function d2(sampleSize: number): number {
  return rangeMoments(sampleSize).mean;
}

/**
 * d3: the standard deviation of that range. Its mean square is twice the double integral, over x below y, of 1 -
 * Phi(y)^n - (1 - Phi(x))^n + (Phi(y) - Phi(x))^n. Throws a RangeError.
 *
 * Source: Tippett, Biometrika 17 (1925).
 */
export function d3(sampleSize: number): number {
  return rangeMoments(sampleSize).standardDeviation;
}

/**
 * Degrees of freedom of the chi distribution whose variance over its squared mean is `relativeVariance`: how much an
 * estimate of a standard deviation that is not a root of a sum of squares is worth. An approximation: the shape is
 * taken to be that of chi. Throws a RangeError.
 *
 * Source: Patnaik, Biometrika 37 (1950).
 */
export function equivalentDegreesOfFreedom(relativeVariance: number): number {
  requirePositive('relativeVariance', relativeVariance);
  const excess = (logDegrees: number): number => {
    const mean = meanOfChi(Math.exp(logDegrees));
    return (1 - mean) * (1 + mean) - relativeVariance * mean * mean;
  };
  // About 1 / (2 f) for large f, never below 1 / (2 f + 1).
  let low = -Math.log(2 * relativeVariance) - 2;
  let high = low + 4;
  while (excess(low) < 0) low -= 2;
  while (excess(high) > 0) high += 2;
  for (let step = 0; step < 100; step++) {
    const middle = 0.5 * (low + high);
    if (middle === low || middle === high) break;
    if (excess(middle) > 0) low = middle;
    else high = middle;
  }
  return Math.exp(0.5 * (low + high));
}

/** Mean of S, S^2 chi-square over its f degrees of freedom; the gamma functions' large terms cancel on paper. */
function meanOfChi(degreesOfFreedom: number): number {
  const a = degreesOfFreedom / 2;
  return Math.exp(a * Math.log1p(0.5 / a) - 0.5 + stirlingCorrection(a + 0.5) - stirlingCorrection(a));
}

interface RangeMoments {
  readonly mean: number;
  readonly standardDeviation: number;
}

/** Moments by subgroup size: a chart asks for the same one again and again, and the double integral takes a while. */
const known = new Map<number, RangeMoments>();

function rangeMoments(sampleSize: number): RangeMoments {
  requireCount('sampleSize', sampleSize, 2);
  if (sampleSize > largestSubgroup)
    throw new RangeError(`sampleSize is ${sampleSize}; it must be at most ${largestSubgroup}`);
  const ready = known.get(sampleSize);
  if (ready) return ready;
  const n = sampleSize;
  // The integrand is even: twice the right half.
  let mean = 0;
  visitPanels(rightHalf, (x, weight) => {
    const tail = normalCdf(-x);
    mean += 2 * weight * (someAbove(tail, n) - tail ** n);
  });
  const points: {
    readonly x: number;
    readonly weight: number;
    readonly tail: number;
    readonly none: number;
  }[] = [];
  visitPanels(wholeLine, (x, weight) => {
    const tail = normalCdf(-x);
    points.push({ x, weight, tail, none: tail ** n });
  });
  // Over the range w = y - x and its lower end x, so that no corner cuts through a panel.
  let square = 0;
  visitPanels(ranges, (range, weight) => {
    let inner = 0;
    for (const point of points) {
      const tail = normalCdf(-point.x - range);
      inner += point.weight * (someAbove(tail, n) - point.none + Math.max(point.tail - tail, 0) ** n);
    }
    square += 2 * weight * inner;
  });
  const moments = { mean, standardDeviation: Math.sqrt(square - mean * mean) };
  known.set(sampleSize, moments);
  return moments;
}

/** Beyond 9 standard deviations nothing is left; beyond 18 for a range. */
const rightHalf = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9];
const wholeLine = Array.from({ length: 14 }, (_, i) => (i * 27) / 13 - 18);
const ranges = Array.from({ length: 10 }, (_, i) => 2 * i);

/** Probability that one of n values or more lies in a tail of this probability. */
function someAbove(tail: number, n: number): number {
  return -Math.expm1(n * Math.log1p(-tail));
}

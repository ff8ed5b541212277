/**
 * The central distributions: thin typed wrappers, so that no other file depends on the numerical library.
 *
 * Upper tails are computed as tails, never as one minus a lower tail, so that small probabilities keep their
 * digits.
 */
import erfc from '@stdlib/math-base-special-erfc';
import libraryBetaQuantile from '@stdlib/stats-base-dists-beta-quantile';
import libraryBinomialCdf from '@stdlib/stats-base-dists-binomial-cdf';
import libraryChiSquareCdf from '@stdlib/stats-base-dists-chisquare-cdf';
import libraryChiSquareQuantile from '@stdlib/stats-base-dists-chisquare-quantile';
import libraryFCdf from '@stdlib/stats-base-dists-f-cdf';
import libraryHypergeometricCdf from '@stdlib/stats-base-dists-hypergeometric-cdf';
import libraryNormalQuantile from '@stdlib/stats-base-dists-normal-quantile';
import libraryTCdf from '@stdlib/stats-base-dists-t-cdf';
import libraryTQuantile from '@stdlib/stats-base-dists-t-quantile';
import { chiSquareLowerTail, chiSquareQuantileByTails, fewestDegreesForTails } from './chi-square-tails.ts';

const sqrtTwoPi = Math.sqrt(2 * Math.PI);

/**
 * Density of the standard normal distribution at x.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.2.1.
 */
export function normalDensity(x: number): number {
  return Math.exp(-0.5 * x * x) / sqrtTwoPi;
}

/**
 * P(Z <= x) for a standard normal Z; keeps its relative accuracy in the lower tail.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.2.2 with 26.2.29: erfc(-x / sqrt 2) /
 * 2.
 */
export function normalCdf(x: number): number {
  return 0.5 * erfc(-x * Math.SQRT1_2);
}

/**
 * Natural logarithm of P(Z <= x), also where the probability itself would underflow.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.2.12, the asymptotic series, far in
 * the tail.
 */
export function logNormalCdf(x: number): number {
  if (x > -30) return Math.log(normalCdf(x));
  const w = 1 / (x * x);
  // Asymptotic series, Abramowitz & Stegun 26.2.12; at x = -30 the first term left out is below 1e-12.
  const series = -w * (1 - w * (3 - w * (15 - w * 105)));
  return -0.5 * x * x - Math.log(-x * sqrtTwoPi) + Math.log1p(series);
}

/**
 * The x with P(Z <= x) = p, 0 < p < 1. The library's value loses digits from p = 1e-6 down and is infinite below
 * 1e-16; it serves as a start for Newton's method on log p, in the nearer tail, which goes to rounding.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.2.2, solved by the method of Newton.
 */
export function normalQuantile(p: number): number {
  if (p === 0.5) return 0;
  const tail = p < 0.5 ? p : 1 - p;
  const target = Math.log(tail);
  let x =
    tail > 1e-8
      ? libraryNormalQuantile(tail, 0, 1)
      : -Math.sqrt(-2 * target - Math.log(-4 * Math.PI * target));
  // A start good to 1e-9 needs one step, the asymptotic one (within 1 %) three: convergence is quadratic.
  for (let step = tail > 1e-8 ? 1 : 4; step > 0; step--) {
    const log = logNormalCdf(x);
    x -= (log - target) * Math.exp(log + 0.5 * x * x) * sqrtTwoPi;
  }
  return p < 0.5 ? x : -x;
}

/**
 * P(T <= x) for Student's t with `degreesOfFreedom`.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.7.1; NIST/SEMATECH e-Handbook
 * 1.3.6.6.4.
 */
export function tCdf(x: number, degreesOfFreedom: number): number {
  return libraryTCdf(x, degreesOfFreedom);
}

/**
 * The x with P(T <= x) = p for Student's t with `degreesOfFreedom`.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.7.1, solved for x; NIST/SEMATECH
 * e-Handbook 1.3.6.7.2.
 */
export function tQuantile(p: number, degreesOfFreedom: number): number {
  return libraryTQuantile(p, degreesOfFreedom);
}

/**
 * P(X <= x) for chi-square with `degreesOfFreedom`.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.4.1; NIST/SEMATECH e-Handbook
 * 1.3.6.6.6.
 */
export function chiSquareCdf(x: number, degreesOfFreedom: number): number {
  return degreesOfFreedom >= fewestDegreesForTails
    ? chiSquareLowerTail(x, degreesOfFreedom)
    : libraryChiSquareCdf(x, degreesOfFreedom);
}

/**
 * The x with P(X <= x) = p for chi-square with `degreesOfFreedom`.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.4.1, solved for x; NIST/SEMATECH
 * e-Handbook 1.3.6.7.4.
 */
export function chiSquareQuantile(p: number, degreesOfFreedom: number): number {
  return degreesOfFreedom >= fewestDegreesForTails
    ? chiSquareQuantileByTails(p, degreesOfFreedom, normalQuantile(p))
    : libraryChiSquareQuantile(p, degreesOfFreedom);
}

/**
 * P(F > x), the p value of an F ratio with the given degrees of freedom above and below the line.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.6.2; NIST/SEMATECH e-Handbook
 * 1.3.6.6.5.
 */
export function fUpperTail(x: number, degreesAbove: number, degreesBelow: number): number {
  if (x === 0) return 1;
  return libraryFCdf(1 / x, degreesBelow, degreesAbove);
}

/**
 * The x with P(F <= x) = p for an F distribution, through the beta quantile; always from the nearer tail, so that
 * small tails keep their digits.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.6.2.
 */
export function fQuantile(p: number, degreesAbove: number, degreesBelow: number): number {
  if (p > 0.5) return 1 / fQuantile(1 - p, degreesBelow, degreesAbove);
  const share = betaQuantile(p, degreesAbove / 2, degreesBelow / 2);
  return (degreesBelow * share) / (degreesAbove * (1 - share));
}

/**
 * The x with P(X <= x) = p for a beta distribution.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.5.1, solved for x; NIST/SEMATECH
 * e-Handbook 1.3.6.6.17.
 */
export function betaQuantile(p: number, alpha: number, beta: number): number {
  return libraryBetaQuantile(p, alpha, beta);
}

/**
 * P(X <= count) for `trials` independent trials with success probability `probability`.
 *
 * Source: the sum over i from 0 to count of C(n, i) p^i (1 - p)^(n - i): NIST/SEMATECH e-Handbook 1.3.6.6.18.
 */
export function binomialCdf(count: number, trials: number, probability: number): number {
  return libraryBinomialCdf(count, trials, probability);
}

/**
 * P(X <= count) marked units in a sample drawn without replacement from a lot with `marked` marked units.
 *
 * Source: the sum over i from 0 to count of C(M, i) C(N - M, n - i) / C(N, n), N units in the lot, M marked, n drawn:
 * Johnson, Kemp and Kotz, Univariate Discrete Distributions, 3rd edition (2005), chapter 6 (from memory).
 */
export function hypergeometricCdf(
  count: number,
  lot: {
    readonly lotSize: number;
    readonly marked: number;
    readonly sampleSize: number;
  },
): number {
  return libraryHypergeometricCdf(count, lot.lotSize, lot.marked, lot.sampleSize);
}

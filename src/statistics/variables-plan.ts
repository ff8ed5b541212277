/**
 * Acceptance by measurement of a normal characteristic: accept when mean + k s stays below the upper limit (mean - k s
 * above the lower one). With k a one-sided tolerance factor this is the verdict of a tolerance interval, so the same
 * functions say how likely a verification is to pass.
 */
import { requireCount, requireFinite, requireOpenProbability, requirePositive } from './argument-checks.ts';
import { chiSquareQuantile, normalCdf, normalQuantile } from './distributions.ts';
import { visitPanels } from './gauss-legendre.ts';
import { noncentralTQuantile, noncentralTUpperTail } from './noncentral-t.ts';
import { smallestSatisfying } from './plan-search.ts';
import { stirlingCorrection } from './stirling-correction.ts';

/** Whether the standard deviation is estimated from the sample or known beforehand. */
export type Spread = 'unknown' | 'known';

/** A sample size and the factor k by which the mean must keep away from the limit, in standard deviations. */
export interface VariablesPlan {
  readonly sampleSize: number;
  readonly factor: number;
}

/**
 * Probability that a plan with one limit accepts when the share `shareNonconforming` (0 to 1, both excluded) lies
 * beyond it. With the spread unknown, sqrt(n) (U - mean) / s is noncentral t with n - 1 degrees of freedom and
 * noncentrality z(1 - p) sqrt(n), and the plan accepts where it is at least k sqrt(n). Throws a RangeError.
 *
 * Source: Lieberman and Resnikoff, Journal of the American Statistical Association 50 (1955); ISO 3951-1.
 */
export function variablesAcceptanceProbability({
  sampleSize,
  factor,
  shareNonconforming,
  spread = 'unknown',
}: VariablesPlan & { readonly shareNonconforming: number; readonly spread?: Spread }): number {
  requireCount('sampleSize', sampleSize, spread === 'known' ? 1 : 2);
  requireFinite('factor', factor);
  requireOpenProbability('shareNonconforming', shareNonconforming);
  const root = Math.sqrt(sampleSize);
  const distance = -normalQuantile(shareNonconforming);
  if (spread === 'known') return normalCdf(root * (distance - factor));
  const parameters = { degreesOfFreedom: sampleSize - 1, noncentrality: distance * root };
  return noncentralTUpperTail(factor * root, parameters);
}

/**
 * Probability that mean - k s and mean + k s both lie within two limits, with the mean of the population `toLower`
 * and `toUpper` standard deviations away from them (negative where it lies outside). Over s the mean is normal and
 * independent: the integral of Phi(sqrt(n) (toUpper - k s)) - Phi(-sqrt(n) (toLower - k s)) over the density of s, in
 * units of the true standard deviation. Throws a RangeError.
 *
 * Source: derived here as written, from the independence of mean and standard deviation of a normal sample (Student,
 * Biometrika 6 (1908)).
 */
export function betweenLimitsAcceptanceProbability({
  sampleSize,
  factor,
  toLower,
  toUpper,
}: VariablesPlan & { readonly toLower: number; readonly toUpper: number }): number {
  requireCount('sampleSize', sampleSize, 2);
  requirePositive('factor', factor);
  requireFinite('toLower', toLower);
  requireFinite('toUpper', toUpper);
  const degrees = sampleSize - 1;
  const root = Math.sqrt(sampleSize);
  // Above this s the interval is wider than the limits.
  const widest = (toLower + toUpper) / (2 * factor);
  const start = Math.sqrt(chiSquareQuantile(1e-17, degrees) / degrees);
  const end = Math.min(widest, Math.sqrt((degrees + 90 + 14 * Math.sqrt(degrees)) / degrees));
  if (!(end > start)) return 0;
  const half = degrees / 2;
  const logScale = Math.LN2 + 0.5 * Math.log(half / (2 * Math.PI)) - stirlingCorrection(half);
  // Panels of at most a standard deviation of s, and of the error of the mean carried over to s.
  const width = Math.min(1 / Math.sqrt(2 * degrees), 1.5 / (root * factor), (end - start) / 8);
  const count = Math.ceil((end - start) / width);
  const breakpoints = Array.from({ length: count + 1 }, (_, i) => start + ((end - start) * i) / count);
  let probability = 0;
  visitPanels(breakpoints, (s, weight) => {
    const u = Math.log(s);
    const density = Math.exp(logScale + degrees * (u - 0.5 * Math.expm1(2 * u)) - u);
    const inside = normalCdf(root * (toUpper - factor * s)) - normalCdf(-root * (toLower - factor * s));
    probability += weight * density * Math.max(0, inside);
  });
  return Math.min(1, probability);
}

/** A plan for two points, with the range of factors that keep both risks. */
export interface TwoPointVariablesPlan extends VariablesPlan {
  /** `factor` is the smallest that keeps the consumer's risk; this is the largest that keeps the producer's. */
  readonly largestFactor: number;
}

/**
 * The smallest sample with a factor k that accepts the share `acceptableQuality` beyond one limit with probability at
 * least 1 - `producerRisk`, and `rejectableQuality` with at most `consumerRisk`; exact through the noncentral t, not
 * by the usual normal approximation. Throws a RangeError.
 *
 * Source: as `variablesAcceptanceProbability`, by search.
 */
export function twoPointVariablesPlan({
  acceptableQuality,
  rejectableQuality,
  producerRisk,
  consumerRisk,
  spread = 'unknown',
}: {
  readonly acceptableQuality: number;
  readonly rejectableQuality: number;
  readonly producerRisk: number;
  readonly consumerRisk: number;
  readonly spread?: Spread;
}): TwoPointVariablesPlan {
  requireOpenProbability('acceptableQuality', acceptableQuality);
  requireOpenProbability('rejectableQuality', rejectableQuality);
  requireOpenProbability('producerRisk', producerRisk);
  requireOpenProbability('consumerRisk', consumerRisk);
  if (acceptableQuality >= rejectableQuality)
    throw new RangeError(
      `acceptableQuality is ${acceptableQuality}; it must be less than rejectableQuality, ${rejectableQuality}`,
    );
  if (producerRisk + consumerRisk >= 1)
    throw new RangeError(
      `producerRisk + consumerRisk is ${producerRisk + consumerRisk}; it must be less than 1`,
    );
  const factorFor = (sampleSize: number, quality: number, rejected: number): number => {
    const root = Math.sqrt(sampleSize);
    const distance = -normalQuantile(quality);
    if (spread === 'known') return distance + normalQuantile(rejected) / root;
    const parameters = { degreesOfFreedom: sampleSize - 1, noncentrality: distance * root };
    return noncentralTQuantile(rejected, parameters) / root;
  };
  const smallest = (size: number): number => factorFor(size, rejectableQuality, 1 - consumerRisk);
  const largest = (size: number): number => factorFor(size, acceptableQuality, producerRisk);
  const sampleSize = smallestSatisfying(
    spread === 'known' ? 1 : 2,
    (size) => smallest(size) <= largest(size) + 1e-12,
  );
  return { sampleSize, factor: smallest(sampleSize), largestFactor: largest(sampleSize) };
}

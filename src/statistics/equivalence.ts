/**
 * Equivalence of means by two one-sided t tests (TOST): shows that a mean, or a difference of means, lies between two
 * limits, which a test of "no significant difference" never shows.
 */
import { requireFinite, requireOpenProbability, requirePositive } from './argument-checks.ts';
import { normalCdf, tQuantile } from './distributions.ts';
import { visitPanels } from './gauss-legendre.ts';
import type { MeanEstimate } from './mean-estimate.ts';
import { smallestSatisfying } from './plan-search.ts';
import { stirlingCorrection } from './stirling-correction.ts';
import { checkEstimate, meanConfidenceLimits, tTest } from './t-test.ts';
import { designPrecision, type MeanDesign } from './t-test-power.ts';

/** Between these the true value counts as equivalent; in the unit of the values, lower below upper. */
export interface EquivalenceLimits {
  readonly lower: number;
  readonly upper: number;
}

export interface EquivalenceTest {
  /** Against the lower limit: shows that the true value is above it. */
  readonly aboveLower: { readonly statistic: number; readonly pValue: number };
  /** Against the upper limit: shows that the true value is below it. */
  readonly belowUpper: { readonly statistic: number; readonly pValue: number };
  /** The larger of the two: both must be shown, so neither needs a correction. */
  readonly pValue: number;
  /** Confidence interval at 1 - 2 x significance. It lies between the limits exactly where the test shows equivalence. */
  readonly interval: { readonly lower: number; readonly upper: number };
  readonly isShown: boolean;
}

/**
 * Two one-sided tests, each at the significance; the size of the two together is at most that of one. Throws a
 * RangeError on arguments out of range; the significance must be below 0.5.
 *
 * Source: Schuirmann, Journal of Pharmacokinetics and Biopharmaceutics 15 (1987); size of the two together: Berger
 * and Hsu, Statistical Science 11 (1996).
 */
export function equivalenceTest(
  estimate: MeanEstimate,
  limits: EquivalenceLimits,
  significance: number,
): EquivalenceTest {
  checkEstimate(estimate);
  checkLimits(limits);
  checkSignificance(significance);
  const above = tTest(estimate, limits.lower);
  const below = tTest(estimate, limits.upper);
  const pValue = Math.max(above.pValues.greater, below.pValues.less);
  const interval = meanConfidenceLimits(estimate, { confidence: 1 - 2 * significance, sides: 'both' });
  return {
    aboveLower: { statistic: above.statistic, pValue: above.pValues.greater },
    belowUpper: { statistic: below.statistic, pValue: below.pValues.less },
    pValue,
    interval: { lower: interval.lower!, upper: interval.upper! },
    isShown: pValue <= significance,
  };
}

/** What the two tests are planned for. */
export interface EquivalenceAim {
  readonly limits: EquivalenceLimits;
  /** The true value that is expected, between the limits. */
  readonly difference: number;
  readonly significance: number;
}

/**
 * Exact probability that equivalence is shown. Given S, the estimated standard error over the true one, the estimate
 * must fall between lower + t S and upper - t S (in true standard errors); that normal probability is averaged over
 * the distribution of S up to where the two meet. This is the difference of two of Owen's Q functions, integrated
 * without splitting it, so nothing cancels. `standardError` is the true one. Throws a RangeError on arguments out of
 * range.
 *
 * Source: Owen, Biometrika 52 (1965); Phillips, Journal of Pharmacokinetics and Biopharmaceutics 18 (1990).
 */
export function equivalencePower({
  limits,
  difference,
  significance,
  standardError,
  degreesOfFreedom,
}: EquivalenceAim & { readonly standardError: number; readonly degreesOfFreedom: number }): number {
  checkLimits(limits);
  requireFinite('difference', difference);
  checkSignificance(significance);
  requirePositive('standardError', standardError);
  requirePositive('degreesOfFreedom', degreesOfFreedom);
  const critical = -tQuantile(significance, degreesOfFreedom);
  const low = (limits.lower - difference) / standardError;
  const high = (limits.upper - difference) / standardError;
  // Above this S the interval is wider than the limits are apart, wherever it lies.
  const end = Math.log((high - low) / (2 * critical));
  const logScale = logChiScale(degreesOfFreedom);
  let power = 0;
  visitPanels(panels(degreesOfFreedom, critical, end), (u, weight) => {
    const margin = critical * Math.exp(u);
    const inside = normalBetween(low + margin, high - margin);
    power += weight * inside * Math.exp(logScale + logChiShape(u, degreesOfFreedom));
  });
  return Math.min(Math.max(power, 0), 1);
}

/**
 * The fewest units (in each group) with which equivalence is shown with at least the power. Throws a RangeError on
 * arguments out of range, also where the expected value does not lie between the limits: no number of units shows it.
 *
 * Source: as `equivalencePower`, by search.
 */
export function equivalenceSampleSize({
  design,
  standardDeviation,
  power,
  ...aim
}: EquivalenceAim & {
  readonly design: MeanDesign;
  readonly standardDeviation: number;
  readonly power: number;
}): number {
  checkLimits(aim.limits);
  requirePositive('standardDeviation', standardDeviation);
  requireOpenProbability('power', power);
  if (!(aim.difference > aim.limits.lower && aim.difference < aim.limits.upper))
    throw new RangeError(
      `difference is ${aim.difference}; it must lie between the limits, ${aim.limits.lower} and ${aim.limits.upper}`,
    );
  return smallestSatisfying(
    2,
    (count) => equivalencePower({ ...aim, ...designPrecision(design, standardDeviation, count) }) >= power,
  );
}

/** P(low < Z < high), computed in the nearer tail. */
function normalBetween(low: number, high: number): number {
  if (low >= high) return 0;
  return low > 0 ? normalCdf(-low) - normalCdf(-high) : normalCdf(high) - normalCdf(low);
}

/** log density of u = log S, S^2 chi-square over its f degrees of freedom: without its constant, 0 at u = 0. */
function logChiShape(u: number, degreesOfFreedom: number): number {
  return degreesOfFreedom * (u - 0.5 * Math.expm1(2 * u));
}

/** log of that density at u = 0: 2 a^a e^-a / Gamma(a) with a = f / 2. */
function logChiScale(degreesOfFreedom: number): number {
  const a = degreesOfFreedom / 2;
  return Math.LN2 + 0.5 * Math.log(a / (2 * Math.PI)) - stirlingCorrection(a);
}

/** How far below its maximum the density may be left out: e^-42 is below 1e-18. */
const depth = 42;

/** Breakpoints over u = log S, fine enough for the density and for the normal probability; none where all is negligible. */
function panels(degreesOfFreedom: number, critical: number, end: number): number[] {
  const isNegligible = (u: number): boolean => logChiShape(u, degreesOfFreedom) < -depth;
  let start = 0;
  for (let step = 0.05; !isNegligible(start); step *= 1.6) start = -step;
  let last = 0;
  for (let step = 0.05; !isNegligible(last); step *= 1.6) last = step;
  const stop = Math.min(end, last);
  if (start >= stop) return [];
  const atPeak = Math.min(2.5 / Math.sqrt(2 * degreesOfFreedom), 1.2);
  const breakpoints = [start];
  for (let u = start; u < stop; ) {
    const width = atPeak / Math.max(1, Math.exp(u));
    u = Math.min(u + Math.min(width, 2.5 / (critical * Math.exp(u + width))), stop);
    breakpoints.push(u);
  }
  return breakpoints;
}

function checkLimits({ lower, upper }: EquivalenceLimits): void {
  requireFinite('lower', lower);
  requireFinite('upper', upper);
  if (lower >= upper) throw new RangeError(`lower is ${lower}; it must be less than upper, ${upper}`);
}

function checkSignificance(significance: number): void {
  if (!(significance > 0 && significance < 0.5))
    throw new RangeError(`significance is ${significance}; it must lie between 0 and 0.5, both excluded`);
}

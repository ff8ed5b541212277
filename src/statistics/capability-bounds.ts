/**
 * One-sided lower confidence bounds of capability indices: what a requirement on an index has to be held against. The
 * index of a sample alone is only an estimate; at 30 values it is easily 20 per cent too high.
 */
import { requireCount, requireFinite, requireOpenProbability, requirePositive } from './argument-checks.ts';
import { chiSquareQuantile, normalQuantile } from './distributions.ts';
import { noncentralTQuantile, noncentralTUpperTail } from './noncentral-t.ts';

/** Sample size behind the mean and degrees of freedom behind the standard deviation: n - 1 for Ppk. */
interface IndexPrecision {
  readonly sampleSize: number;
  readonly degreesOfFreedom: number;
  readonly confidence: number;
}

/**
 * Lower bound of Pp or Cp: the index times sqrt(chi-square quantile at 1 - confidence / f), exact for a normal
 * population. Throws a RangeError on arguments out of range.
 *
 * Source: Kane, Journal of Quality Technology 18 (1986).
 */
export function ppLowerBound({
  pp,
  degreesOfFreedom,
  confidence,
}: {
  readonly pp: number;
  readonly degreesOfFreedom: number;
  readonly confidence: number;
}): number {
  requirePositive('pp', pp);
  requirePositive('degreesOfFreedom', degreesOfFreedom);
  requireOpenProbability('confidence', confidence);
  return pp * Math.sqrt(chiSquareQuantile(1 - confidence, degreesOfFreedom) / degreesOfFreedom);
}

/**
 * Lower bound of Ppk or Cpk by the noncentral t distribution. 3 sqrt(n) times the index of one limit follows it with
 * noncentrality 3 sqrt(n) times the true index, so with one limit the bound is exact for a normal population. With
 * two limits the index is the smaller of two, hence never above the one that decides: the bound then holds with at
 * least the confidence. Throws a RangeError.
 *
 * Source: Chou, Owen and Borrego, Journal of Quality Technology 22 (1990) (from memory).
 */
export function ppkLowerBound({
  ppk,
  sampleSize,
  degreesOfFreedom,
  confidence,
}: IndexPrecision & { readonly ppk: number }): number {
  requireFinite('ppk', ppk);
  checkPrecision({ sampleSize, degreesOfFreedom, confidence });
  const scale = 3 * Math.sqrt(sampleSize);
  const t = scale * ppk;
  const risk = 1 - confidence;
  // So far from the limit the mean counts as known: what is left is the bound of the spread.
  if (Math.abs(t) > farFromTheLimit)
    return ppk * Math.sqrt(chiSquareQuantile(t > 0 ? risk : confidence, degreesOfFreedom) / degreesOfFreedom);
  // On the normal scale the tail is nearly a straight line in the noncentrality, so that a few secants do.
  const target = normalQuantile(risk);
  const excess = (noncentrality: number): number =>
    onNormalScale(noncentralTUpperTail(t, { degreesOfFreedom, noncentrality })) - target;
  const spread = Math.sqrt(1 + (t * t) / (2 * degreesOfFreedom));
  return increasingRoot(excess, t + target * spread, spread) / scale;
}

/** Standard errors between mean and limit beyond which the error of the mean is below the rounding of the bound. */
const farFromTheLimit = 1e8;

/** The z with P(Z <= z) = p, infinite where p is 0 or 1 to rounding. */
function onNormalScale(p: number): number {
  if (p <= 0) return Number.NEGATIVE_INFINITY;
  return p >= 1 ? Number.POSITIVE_INFINITY : normalQuantile(p);
}

/**
 * The smallest index of a sample whose lower bound (`ppkLowerBound`) reaches the required index: the noncentral t
 * quantile at the confidence over 3 sqrt(n). Throws a RangeError.
 *
 * Source: as `ppkLowerBound`, solved for the index of the sample.
 */
export function ppkNeeded({
  required,
  sampleSize,
  degreesOfFreedom,
  confidence,
}: IndexPrecision & { readonly required: number }): number {
  requireFinite('required', required);
  checkPrecision({ sampleSize, degreesOfFreedom, confidence });
  const scale = 3 * Math.sqrt(sampleSize);
  return noncentralTQuantile(confidence, { degreesOfFreedom, noncentrality: scale * required }) / scale;
}

/**
 * Lower bound of Ppk or Cpk by Bissell's normal approximation, index - z sqrt(1 / (9 n) + index^2 / (2 f)): the one
 * that most programs print. Fair from about 30 values on; verdicts use `ppkLowerBound`. Throws a RangeError.
 *
 * Source: Bissell, Applied Statistics 39 (1990).
 */
export function ppkApproximateLowerBound({
  ppk,
  sampleSize,
  degreesOfFreedom,
  confidence,
}: IndexPrecision & { readonly ppk: number }): number {
  requireFinite('ppk', ppk);
  checkPrecision({ sampleSize, degreesOfFreedom, confidence });
  const spread = Math.sqrt(1 / (9 * sampleSize) + (ppk * ppk) / (2 * degreesOfFreedom));
  return ppk - normalQuantile(confidence) * spread;
}

function checkPrecision({ sampleSize, degreesOfFreedom, confidence }: IndexPrecision): void {
  requireCount('sampleSize', sampleSize, 2);
  if (!(degreesOfFreedom >= 1 && Number.isFinite(degreesOfFreedom)))
    throw new RangeError(`degreesOfFreedom is ${degreesOfFreedom}; it must be a finite number of at least 1`);
  requireOpenProbability('confidence', confidence);
}

/**
 * Root of an increasing function with a slope of about 1 / `spread`: secants, halving whatever bracket is known where a
 * secant leaves it.
 */
function increasingRoot(f: (x: number) => number, guess: number, spread: number): number {
  let low = Number.NEGATIVE_INFINITY;
  let high = Number.POSITIVE_INFINITY;
  let x = guess;
  let slope = 1 / spread;
  let previous: { readonly x: number; readonly value: number } | undefined;
  for (let round = 0; round < 200; round++) {
    const value = f(x);
    if (value === 0) return x;
    if (value < 0) low = x;
    else high = x;
    if (previous && Number.isFinite(value)) {
      const secant = (value - previous.value) / (x - previous.x);
      if (secant > 0 && Number.isFinite(secant)) slope = secant;
    }
    let next = x - value / slope;
    if (!(next > low && next < high)) {
      if (Number.isFinite(low) && Number.isFinite(high)) next = 0.5 * (low + high);
      else next = value < 0 ? x + 4 * spread : x - 4 * spread;
    }
    if (Math.abs(next - x) <= 1e-13 * Math.max(Math.abs(x), 1)) return next;
    previous = { x, value };
    x = next;
  }
  return x;
}

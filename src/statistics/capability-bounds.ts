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
 * population (Kane, Journal of Quality Technology 18, 1986). Throws a RangeError on arguments out of range.
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
 * noncentrality 3 sqrt(n) times the true index (Chou, Owen & Borrego, Journal of Quality Technology 22, 1990, from memory), so with
 * one limit the bound is exact for a normal population. With two limits the index is the smaller of two, hence never
 * above the one that decides: the bound then holds with at least the confidence. Throws a RangeError.
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
  const excess = (noncentrality: number): number =>
    noncentralTUpperTail(t, { degreesOfFreedom, noncentrality }) - risk;
  // The tail grows with the noncentrality. A normal approximation to start with, then bracketing and halving by secants.
  const guess = t + normalQuantile(risk) * Math.sqrt(1 + (t * t) / (2 * degreesOfFreedom));
  return increasingRoot(excess, guess, 1 + 0.05 * Math.abs(guess)) / scale;
}

/**
 * The smallest index of a sample whose lower bound (`ppkLowerBound`) reaches the required index: the noncentral t
 * quantile at the confidence over 3 sqrt(n). Throws a RangeError.
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
 * Lower bound of Ppk or Cpk by Bissell's normal approximation, index - z sqrt(1 / (9 n) + index^2 / (2 f)) (Applied
 * Statistics 39, 1990): the one that most programs print. Fair from about 30 values on; verdicts use `ppkLowerBound`.
 * Throws a RangeError.
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

/** Root of a function that does not fall, to rounding: a bracket around the guess, then regula falsi with bisection. */
function increasingRoot(f: (x: number) => number, guess: number, reach: number): number {
  let low = guess;
  let fLow = f(low);
  let high = guess;
  let fHigh = fLow;
  for (let step = reach; fLow > 0; step *= 2) {
    high = low;
    fHigh = fLow;
    low -= step;
    fLow = f(low);
  }
  for (let step = reach; fHigh < 0; step *= 2) {
    low = high;
    fLow = fHigh;
    high += step;
    fHigh = f(high);
  }
  for (let round = 0; round < 200; round++) {
    // The Illinois variant of regula falsi where it makes progress, else the middle.
    const middle = 0.5 * (low + high);
    if (middle === low || middle === high) break;
    const secant = high - (fHigh * (high - low)) / (fHigh - fLow);
    const x = round % 3 === 2 || !(secant > low && secant < high) ? middle : secant;
    const value = f(x);
    if (value === 0) return x;
    if (value < 0) {
      low = x;
      fLow = value;
    } else {
      high = x;
      fHigh = value;
    }
    if (high - low <= 1e-14 * Math.max(Math.abs(low), Math.abs(high), 1)) break;
  }
  return 0.5 * (low + high);
}

import { stirlingCorrection } from './stirling-correction.ts';

/** From this many degrees of freedom on, the library's chi-square loses digits above the mean (the second one at 2000). */
export const fewestDegreesForTails = 800;

/** x^a e^-x / Gamma(a + 1), through Stirling's formula with its correction, so that large terms cancel on paper. */
function leadingTerm(a: number, x: number): number {
  const away = (x - a) / a;
  return Math.exp(-a * (away - Math.log1p(away)) - stirlingCorrection(a)) / Math.sqrt(2 * Math.PI * a);
}

/**
 * P(X <= x) of a chi-square distribution with many degrees of freedom, as the incomplete gamma function: below the
 * mean its series, above it one minus the continued fraction of the upper tail, by the method of Lentz.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 6.5.29 and 6.5.31; continued fraction by
 * the method of Lentz, Applied Optics 15 (1976) (the article from memory).
 */
export function chiSquareLowerTail(x: number, degreesOfFreedom: number): number {
  const a = degreesOfFreedom / 2;
  const half = x / 2;
  if (half <= 0) return 0;
  if (half < a + 1) {
    let term = 1;
    let sum = 1;
    for (let n = 1; term > sum * 1e-17; n += 1) {
      term *= half / (a + n);
      sum += term;
    }
    return leadingTerm(a, half) * sum;
  }
  return 1 - upperTail(a, half);
}

function upperTail(a: number, x: number): number {
  const tiny = 1e-300;
  let b = x + 1 - a;
  let c = 1 / tiny;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n < 100_000; n += 1) {
    const step = -n * (n - a);
    b += 2;
    d = step * d + b;
    if (Math.abs(d) < tiny) d = tiny;
    c = b + step / c;
    if (Math.abs(c) < tiny) c = tiny;
    d = 1 / d;
    const change = d * c;
    fraction *= change;
    if (Math.abs(change - 1) < 1e-16) break;
  }
  return leadingTerm(a, x) * a * fraction;
}

/**
 * The x with P(X <= x) = p, by bisection from the approximation of Wilson and Hilferty.
 *
 * Source: Wilson and Hilferty, Proceedings of the National Academy of Sciences 17 (1931), for the start;
 * `chiSquareLowerTail` for the value.
 */
export function chiSquareQuantileByTails(
  p: number,
  degreesOfFreedom: number,
  normalQuantileOfP: number,
): number {
  const part = 2 / (9 * degreesOfFreedom);
  const start = degreesOfFreedom * (1 - part + normalQuantileOfP * Math.sqrt(part)) ** 3;
  let [low, high] = [start * 0.99, start * 1.01];
  while (chiSquareLowerTail(low, degreesOfFreedom) > p) low *= 0.99;
  while (chiSquareLowerTail(high, degreesOfFreedom) < p) high *= 1.01;
  while (high - low > 1e-14 * high) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) break;
    if (chiSquareLowerTail(middle, degreesOfFreedom) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * The smallest whole number n >= start for which `holds(n)` is true, given that once true it stays true. Doubling,
 * then bisection: about 2 log2(n) evaluations.
 *
 * Source: no formula; doubling and bisection.
 */
export function smallestSatisfying(start: number, holds: (n: number) => boolean): number {
  if (holds(start)) return start;
  let fails = start;
  let step = 1;
  while (!holds(fails + step)) {
    fails += step;
    step *= 2;
  }
  let satisfies = fails + step;
  while (satisfies - fails > 1) {
    const middle = fails + Math.floor((satisfies - fails) / 2);
    if (holds(middle)) satisfies = middle;
    else fails = middle;
  }
  return satisfies;
}

/**
 * Whether a probability is at most `1 - confidence`. A hair of slack (1e-12) keeps plans that meet the confidence
 * exactly, such as n = 2 for confidence 0.75 at reliability 0.5, from failing on rounding.
 *
 * Source: no formula; a comparison with slack for rounding.
 */
export function riskIsMet(risk: number, confidence: number): boolean {
  return risk <= (1 - confidence) * (1 + 1e-12);
}

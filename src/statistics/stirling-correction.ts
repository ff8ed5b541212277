/**
 * ln Gamma(a) - ((a - 1/2) ln a - a + ln(2 pi) / 2) for a > 0: what Stirling's formula leaves out, by six terms after
 * raising a above 16. With it, x^a e^-x / Gamma(a) near its maximum keeps all its digits, because the large terms
 * cancel on paper.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 6.1.41.
 */
export function stirlingCorrection(a: number): number {
  let correction = 0;
  let raised = a;
  for (; raised < 16; raised++) correction += (raised + 0.5) * Math.log1p(1 / raised) - 1;
  const w = 1 / (raised * raised);
  const series =
    1 / 12 - w * (1 / 360 - w * (1 / 1260 - w * (1 / 1680 - w * (1 / 1188 - (w * 691) / 360360))));
  return correction + series / raised;
}

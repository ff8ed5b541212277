/**
 * Probabilities of single counts, as logarithms built up from the count 0, so that none underflows. The library offers
 * lower tails only; differences of tails would lose the digits of small probabilities.
 */

/**
 * P(X = count) for `count` from 0 to `largest`: X nonconforming of `trials`, each with `probability` from 0 to 1.
 *
 * Source: the terms of `binomialCdf`.
 */
export function binomialMasses(largest: number, trials: number, probability: number): number[] {
  if (probability === 0 || probability === 1) {
    const certain = probability === 0 ? 0 : trials;
    return Array.from({ length: largest + 1 }, (_, count) => (count === certain ? 1 : 0));
  }
  const odds = Math.log(probability) - Math.log1p(-probability);
  return massesFrom(largest, trials * Math.log1p(-probability), (count) =>
    count >= trials ? Number.NEGATIVE_INFINITY : Math.log((trials - count) / (count + 1)) + odds,
  );
}

/**
 * P(X = count) for `count` from 0 to `largest`: X marked units in a sample drawn without replacement from a lot.
 *
 * Source: the terms of `hypergeometricCdf`.
 */
export function hypergeometricMasses(
  largest: number,
  lot: { readonly lotSize: number; readonly marked: number; readonly sampleSize: number },
): number[] {
  const { lotSize, marked, sampleSize } = lot;
  const unmarked = lotSize - marked;
  // Below this count the sample would need more unmarked units than there are.
  const smallest = Math.max(0, sampleSize - unmarked);
  const below = Array.from({ length: Math.min(smallest, largest + 1) }, () => 0);
  if (smallest > largest) return below;
  const start =
    logChoose(marked, smallest) + logChoose(unmarked, sampleSize - smallest) - logChoose(lotSize, sampleSize);
  return [
    ...below,
    ...massesFrom(largest - smallest, start, (step) => {
      const count = smallest + step;
      if (count >= marked || count >= sampleSize) return Number.NEGATIVE_INFINITY;
      return Math.log(
        ((marked - count) / (count + 1)) * ((sampleSize - count) / (unmarked - sampleSize + count + 1)),
      );
    }),
  ];
}

/** Masses of the counts 0 to `largest`, from the logarithm of the first and of the ratio of each to the next. */
function massesFrom(largest: number, first: number, logRatio: (count: number) => number): number[] {
  const masses: number[] = [];
  let log = first;
  for (let count = 0; count <= largest; count++) {
    masses.push(Math.exp(log));
    log += logRatio(count);
  }
  return masses;
}

/** log of the number of ways to choose `chosen` of `all`. */
function logChoose(all: number, chosen: number): number {
  const fewer = Math.min(chosen, all - chosen);
  let log = 0;
  for (let i = 1; i <= fewer; i++) log += Math.log((all - fewer + i) / i);
  return log;
}

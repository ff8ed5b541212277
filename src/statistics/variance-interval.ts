/**
 * Confidence limits of a variance that is a weighted sum of independent mean squares, by the modified large-sample
 * method: Graybill and Wang, Journal of the American Statistical Association 75 (1980), where all weights are positive;
 * Ting, Burdick, Graybill, Jeyaratnam and Lu, Journal of Statistical Computation and Simulation 35 (1990), where one is
 * negative. For gauge studies: Burdick, Borror and Montgomery, Design and Analysis of Gauge R&R Studies (2005), chapter 3.
 */
import { requireOpenProbability } from './argument-checks.ts';
import { compensatedSum } from './descriptive.ts';
import { chiSquareQuantile, fQuantile } from './distributions.ts';
import type { VarianceLine } from './one-way-analysis-of-variance.ts';

export interface Interval {
  readonly lower: number;
  readonly upper: number;
}

export interface WeightedMeanSquare {
  readonly weight: number;
  readonly line: VarianceLine;
}

/**
 * Two-sided limits of the variance that the weighted mean squares estimate, half of the risk on each side. For one
 * mean square they are the exact chi-square limits; for several they hold approximately. A limit below 0 is set to 0.
 * Throws a RangeError when the confidence is out of range, or more than one weight is negative.
 *
 * Source: Graybill and Wang, Journal of the American Statistical Association 75 (1980); Ting, Burdick, Graybill,
 * Jeyaratnam and Lu, Journal of Statistical Computation and Simulation 35 (1990).
 */
export function varianceInterval(terms: readonly WeightedMeanSquare[], confidence: number): Interval {
  requireOpenProbability('confidence', confidence);
  const risk = (1 - confidence) / 2;
  const used = terms.filter((term) => term.weight !== 0);
  const added = used.filter((term) => term.weight > 0);
  const subtracted = used.filter((term) => term.weight < 0);
  if (subtracted.length > 1)
    throw new RangeError(`${subtracted.length} weights are negative; at most one may be`);
  const [taken] = subtracted;
  const share = ({ weight, line }: WeightedMeanSquare): number => Math.abs(weight) * line.meanSquare;
  const estimate = compensatedSum(used.map(({ weight, line }) => weight * line.meanSquare));
  const square = (value: number): number => value * value;

  const below = [
    ...added.map((term) => square(belowFactor(term, risk) * share(term))),
    ...subtracted.map((term) => square(aboveFactor(term, risk) * share(term))),
    ...(taken
      ? [
          ...added.map((term) => crossBelow(term, taken, risk) * share(term) * share(taken)),
          ...pairs(added).map(
            ([one, other]) =>
              (togetherBelow(one, other, risk) / (added.length - 1)) * share(one) * share(other),
          ),
        ]
      : []),
  ];
  const above = [
    ...added.map((term) => square(aboveFactor(term, risk) * share(term))),
    ...subtracted.map((term) => square(belowFactor(term, risk) * share(term))),
    ...(taken ? added.map((term) => crossAbove(term, taken, risk) * share(term) * share(taken)) : []),
  ];
  const root = (parts: readonly number[]): number => Math.sqrt(Math.max(0, compensatedSum(parts)));
  return { lower: Math.max(0, estimate - root(below)), upper: Math.max(0, estimate + root(above)) };
}

/**
 * 1 - n / chi-square at the upper point: how far, in shares of itself, a mean square may lie too high.
 *
 * Source: the factor G of Graybill and Wang, Journal of the American Statistical Association 75 (1980).
 */
export function belowFactor({ line }: { readonly line: VarianceLine }, risk: number): number {
  return 1 - line.degreesOfFreedom / chiSquareQuantile(1 - risk, line.degreesOfFreedom);
}

/**
 * n / chi-square at the lower point - 1: how far, in shares of itself, a mean square may lie too low.
 *
 * Source: the factor H of Graybill and Wang, Journal of the American Statistical Association 75 (1980).
 */
export function aboveFactor({ line }: { readonly line: VarianceLine }, risk: number): number {
  return line.degreesOfFreedom / chiSquareQuantile(risk, line.degreesOfFreedom) - 1;
}

function crossBelow(added: WeightedMeanSquare, taken: WeightedMeanSquare, risk: number): number {
  const f = fQuantile(1 - risk, added.line.degreesOfFreedom, taken.line.degreesOfFreedom);
  return ((f - 1) ** 2 - (belowFactor(added, risk) * f) ** 2 - aboveFactor(taken, risk) ** 2) / f;
}

function crossAbove(added: WeightedMeanSquare, taken: WeightedMeanSquare, risk: number): number {
  const f = fQuantile(risk, added.line.degreesOfFreedom, taken.line.degreesOfFreedom);
  return ((1 - f) ** 2 - (aboveFactor(added, risk) * f) ** 2 - belowFactor(taken, risk) ** 2) / f;
}

function togetherBelow(one: WeightedMeanSquare, other: WeightedMeanSquare, risk: number): number {
  const [n, m] = [one.line.degreesOfFreedom, other.line.degreesOfFreedom];
  const both = 1 - (n + m) / chiSquareQuantile(1 - risk, n + m);
  return (
    (both ** 2 * (n + m) ** 2) / (n * m) -
    (belowFactor(one, risk) ** 2 * n) / m -
    (belowFactor(other, risk) ** 2 * m) / n
  );
}

const pairs = <T>(items: readonly T[]): (readonly [T, T])[] =>
  items.flatMap((one, index) => items.slice(index + 1).map((other) => [one, other] as const));

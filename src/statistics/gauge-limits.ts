/** Confidence limits of a crossed gauge study: of which mean squares each component is made up, and the limits of ratios. */
import type { Crossing } from './crossed-readings.ts';
import { fQuantile } from './distributions.ts';
import type { VarianceLine } from './one-way-analysis-of-variance.ts';
import { aboveFactor, belowFactor, type Interval, type WeightedMeanSquare } from './variance-interval.ts';

export interface CrossedAnalysis {
  readonly part: VarianceLine;
  readonly operator: VarianceLine;
  readonly interaction: VarianceLine;
  readonly repeatability: VarianceLine;
  /** Interaction and repeatability together. */
  readonly pooled: VarianceLine;
}

type Weights = Readonly<
  Record<
    'repeatability' | 'operator' | 'interaction' | 'reproducibility' | 'gauge' | 'part' | 'total',
    readonly WeightedMeanSquare[]
  >
>;

type Design = Pick<Crossing, 'parts' | 'operators' | 'repeats'>;

/**
 * The mean squares of which each component is made up, with the interaction in the model (expected mean squares).
 *
 * Source: expected mean squares of the two-way random model: Montgomery, Design and Analysis of Experiments, chapter
 * on random factors (from memory); Burdick, Borror and Montgomery, Design and Analysis of Gauge R&R Studies (2005),
 * chapter 3.
 */
export function interactionWeights(
  { part, operator, interaction, repeatability }: CrossedAnalysis,
  { parts: p, operators: o, repeats: r }: Design,
): Weights {
  const of = (forPart: number, forOperator: number, forInteraction: number, forError: number, over: number) =>
    [
      { weight: forPart / over, line: part },
      { weight: forOperator / over, line: operator },
      { weight: forInteraction / over, line: interaction },
      { weight: forError / over, line: repeatability },
    ] as const;
  return {
    repeatability: of(0, 0, 0, 1, 1),
    operator: of(0, 1, -1, 0, p * r),
    interaction: of(0, 0, 1, -1, r),
    reproducibility: of(0, 1, p - 1, -p, p * r),
    gauge: of(0, 1, p - 1, p * (r - 1), p * r),
    part: of(1, 0, -1, 0, o * r),
    total: of(p, o, p * o - p - o, p * o * (r - 1), p * o * r),
  };
}

/**
 * The same without an interaction: what it had is in the pooled error.
 *
 * Source: expected mean squares of the two-way random model without interaction: Montgomery, Design and Analysis of
 * Experiments, chapter on random factors (from memory).
 */
export function pooledWeights(
  { part, operator, pooled }: CrossedAnalysis,
  { parts: p, operators: o, repeats: r }: Design,
): Weights {
  const of = (forPart: number, forOperator: number, forError: number, over: number) =>
    [
      { weight: forPart / over, line: part },
      { weight: forOperator / over, line: operator },
      { weight: forError / over, line: pooled },
    ] as const;
  return {
    repeatability: of(0, 0, 1, 1),
    operator: of(0, 1, -1, p * r),
    interaction: [],
    reproducibility: of(0, 1, -1, p * r),
    gauge: of(0, 1, p * r - 1, p * r),
    part: of(1, 0, -1, o * r),
    total: of(p, o, p * o * r - p - o, p * o * r),
  };
}

/**
 * Confidence limits of part variance over gauge variance. They hold approximately.
 *
 * Source: Burdick, Borror and Montgomery, Design and Analysis of Gauge R&R Studies (2005), chapter 3, as the public R
 * package gaugerr computes them.
 */
export function partToGaugeLimits(
  { part, operator, interaction, repeatability, pooled }: CrossedAnalysis,
  interactionPooled: boolean,
  { parts: p, operators: o, repeats: r, confidence }: Design & { readonly confidence: number },
): Interval {
  const risk = (1 - confidence) / 2;
  const [sp, so, spo, se] = [part, operator, interaction, repeatability].map((line) => line.meanSquare) as [
    number,
    number,
    number,
    number,
  ];
  const yardstick = interactionPooled ? pooled : interaction;
  const limit = (tail: number, factor: number): number => {
    const againstError = fQuantile(tail, part.degreesOfFreedom, yardstick.degreesOfFreedom);
    const againstOperator = fQuantile(tail, part.degreesOfFreedom, operator.degreesOfFreedom);
    if (!interactionPooled)
      return (
        (p * factor * (sp - againstError * spo)) /
        (p * o * (r - 1) * se + o * factor * againstOperator * so + o * (p - 1) * spo)
      );
    const s = pooled.meanSquare;
    return (
      (p * (factor * sp ** 2 - sp * s + (againstError - factor * againstError ** 2) * s ** 2)) /
      (o * sp * ((p * r - 1) * s + factor * againstOperator * so))
    );
  };
  return {
    lower: Math.max(0, limit(1 - risk, 1 - belowFactor({ line: part }, risk))),
    upper: Math.max(0, limit(risk, 1 + aboveFactor({ line: part }, risk))),
  };
}

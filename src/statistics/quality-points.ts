import type { AcceptancePlan } from './acceptance-plan.ts';
import { lotAcceptanceProbability } from './acceptance-plan.ts';
import { requireCount, requireOpenProbability } from './argument-checks.ts';
import { betaQuantile } from './distributions.ts';
import { smallestSatisfying } from './plan-search.ts';

/**
 * The share nonconforming at which an attribute plan accepts with `probability`: the p with P(X <= c; n, p) = Pa,
 * through the identity of binomial and beta distribution. Throws a RangeError when the plan accepts whatever it sees,
 * or an argument is out of range.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.5.24.
 */
export function qualityAtAcceptance({
  sampleSize,
  acceptanceNumber,
  probability,
}: AcceptancePlan & { readonly probability: number }): number {
  requireCount('sampleSize', sampleSize, 1);
  requireCount('acceptanceNumber', acceptanceNumber, 0);
  requireOpenProbability('probability', probability);
  if (acceptanceNumber >= sampleSize)
    throw new RangeError(
      `acceptanceNumber is ${acceptanceNumber}; it must be less than sampleSize, ${sampleSize}`,
    );
  return betaQuantile(1 - probability, acceptanceNumber + 1, sampleSize - acceptanceNumber);
}

/** What a plan does, in three shares nonconforming. */
export interface QualityPoints {
  /** Accepted with probability 0.95: the quality that a maker must have for the plan to pass as a rule (AQL point). */
  readonly acceptable: number;
  /** Accepted and rejected equally often. */
  readonly indifferent: number;
  /** Accepted with probability 0.10: the quality that the plan keeps out (LQ point). */
  readonly limiting: number;
}

/**
 * The points of a plan at the customary probabilities 0.95, 0.5 and 0.10. Throws a RangeError as
 * `qualityAtAcceptance`.
 *
 * Source: ISO 2859-1, which tabulates these points; the risks of 0.05 and 0.10 are common practice, no source. As
 * `qualityAtAcceptance`.
 */
export function qualityPoints(plan: AcceptancePlan): QualityPoints {
  return {
    acceptable: qualityAtAcceptance({ ...plan, probability: 0.95 }),
    indifferent: qualityAtAcceptance({ ...plan, probability: 0.5 }),
    limiting: qualityAtAcceptance({ ...plan, probability: 0.1 }),
  };
}

/**
 * The largest number of nonconforming units in a lot that a plan, drawn without replacement, accepts with at least
 * `probability` (hypergeometric). Throws a RangeError on arguments out of range.
 *
 * Source: as `lotAcceptanceProbability`, by search.
 */
export function lotQualityAtAcceptance({
  lotSize,
  probability,
  ...plan
}: AcceptancePlan & { readonly lotSize: number; readonly probability: number }): number {
  requireCount('lotSize', lotSize, plan.sampleSize);
  requireOpenProbability('probability', probability);
  const firstBelow = smallestSatisfying(
    0,
    (nonconforming) =>
      nonconforming > lotSize ||
      lotAcceptanceProbability({ ...plan, lotSize, nonconforming }) < probability * (1 - 1e-12),
  );
  return firstBelow - 1;
}

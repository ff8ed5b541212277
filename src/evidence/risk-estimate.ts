import type { PlinthFields, RiskFields } from '../records/fields.ts';

export type RiskCriteria = NonNullable<PlinthFields['risk']>;

export interface RiskEstimate {
  /** Probability of harm, P1 times P2, in the denominator of plinth.yaml. */
  readonly probability: number;
  readonly band: string;
  readonly acceptable: boolean;
}

/** The band that holds a probability: bands are half-open, each from the end of the one before up to, not including, its own. */
export const probabilityBand = (probability: number, criteria: RiskCriteria): string | undefined =>
  criteria.probability.bands.find((band) => band.below === undefined || probability < band.below)?.band;

/**
 * Estimate of a risk from P1 and P2 and the criteria of the risk management plan. Undefined where severity or band
 * are not among the criteria. Whether a risk is acceptable is the plan's rule, decided by people; this only looks
 * it up.
 */
export const estimateRisk = (
  severity: string,
  estimate: RiskFields['before'],
  criteria: RiskCriteria,
): RiskEstimate | undefined => {
  // The product of decimal fractions is rounded to 12 digits, so that 1e-3 x 2e-2 falls where it does on paper.
  const probability = Number((estimate.p1 * estimate.p2).toPrecision(12));
  const band = probabilityBand(probability, criteria);
  const limit = Object.hasOwn(criteria.acceptable, severity) ? criteria.acceptable[severity] : undefined;
  const bands = criteria.probability.bands.map((each) => each.band);
  if (band === undefined || limit === undefined || !bands.includes(limit)) return undefined;
  return { probability, band, acceptable: bands.indexOf(band) <= bands.indexOf(limit) };
};

import type { PlinthFields, RiskFields } from '../records/fields.ts';

export type RiskCriteria = NonNullable<PlinthFields['risk']>;

/** What a risk states before or after control: P1 and P2, or why they cannot be estimated. */
export type StatedEstimate = RiskFields['before'] & { readonly severity?: string };

interface ProbabilityEstimate {
  readonly kind: 'by probability';
  /** Severity class that was judged. */
  readonly severity: string;
  /** Probability of harm, P1 times P2, in the denominator of the criteria. */
  readonly probability: number;
  readonly band: string;
  readonly acceptable: boolean;
}

interface SeverityEstimate {
  readonly kind: 'by severity';
  readonly severity: string;
  /** Why the probability of harm cannot be estimated. */
  readonly reason: string;
  readonly acceptable: boolean;
}

/** A risk held against the criteria: by the band of its probability or, where there is none, by severity alone. */
export type RiskEstimate = ProbabilityEstimate | SeverityEstimate;

/** The band that holds a probability: bands are half-open, each from the end of the one before up to, not including, its own. */
export const probabilityBand = (probability: number, criteria: RiskCriteria): string | undefined =>
  criteria.probability.bands.find((band) => band.below === undefined || probability < band.below)?.band;

/**
 * Probability of harm, P1 times P2; undefined where it cannot be estimated. The product of decimal fractions is
 * rounded to 12 digits, so that 1e-3 x 2e-2 falls where it does on paper.
 */
export const probabilityOfHarm = ({ p1, p2 }: StatedEstimate): number | undefined =>
  p1 === undefined || p2 === undefined ? undefined : Number((p1 * p2).toPrecision(12));

/**
 * Estimate of a risk by the criteria of the risk management plan. Where the probability cannot be estimated, severity
 * alone decides, up to the class that the criteria name for that case. A severity that stands beside the estimate,
 * because control has changed it, takes the place of that of the risk. Undefined where severity, band or the rule for
 * what cannot be estimated are not among the criteria. Whether a risk is acceptable is the plan's rule, decided by
 * people; this only looks it up.
 */
export const estimateRisk = (
  severityOfRisk: string,
  stated: StatedEstimate,
  criteria: RiskCriteria,
): RiskEstimate | undefined => {
  const severity = stated.severity ?? severityOfRisk;
  const probability = probabilityOfHarm(stated);
  if (probability === undefined) return bySeverity(severity, stated.not_estimable ?? '', criteria);
  const band = probabilityBand(probability, criteria);
  const limit = Object.hasOwn(criteria.acceptable, severity) ? criteria.acceptable[severity] : undefined;
  const bands = criteria.probability.bands.map((each) => each.band);
  if (band === undefined || limit === undefined || !bands.includes(limit)) return undefined;
  return {
    kind: 'by probability',
    severity,
    probability,
    band,
    acceptable: bands.indexOf(band) <= bands.indexOf(limit),
  };
};

const bySeverity = (
  severity: string,
  reason: string,
  criteria: RiskCriteria,
): SeverityEstimate | undefined => {
  const classes = criteria.severities.map((each) => each.class);
  const rank = classes.indexOf(severity);
  const limit = classes.indexOf(criteria.not_estimable?.acceptable_up_to ?? '');
  if (rank === -1 || limit === -1) return undefined;
  return { kind: 'by severity', severity, reason, acceptable: rank <= limit };
};

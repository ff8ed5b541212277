import { fewestValuesForNormality } from '../statistics/anderson-darling.ts';
import { normalQuantile } from '../statistics/distributions.ts';
import { smallestSatisfying } from '../statistics/plan-search.ts';
import { oneSidedToleranceFactor, twoSidedToleranceFactor } from '../statistics/tolerance-factor.ts';
import { evidenceMethod } from './methods/index.ts';
import type { CharacteristicEvidence, EvidenceResult } from './result.ts';
import { type SamplePlan, zeroFailureSize } from './sample-plan.ts';

/** Methods whose smallest plan hangs on nothing but the statement. */
const countingMethods = ['attribute', 'success-run', 'nonparametric-tolerance-interval'];

/** Beyond this number of units a plan by measurement is no plan. */
const largestSample = 5_000;

const valueOf = ({ values }: CharacteristicEvidence, key: string): number =>
  values.find((value) => value.key === key)?.value ?? Number.NaN;

/**
 * Units with which the normal tolerance interval would keep the limits, if mean and standard deviation stayed what
 * they were, and normality could be tested: the smallest n whose exact factor is at most the distance to the nearer limit in standard deviations.
 * Undefined where no number of units would do. Two limits take the two-sided factor, as the verdict does.
 */
export const unitsByMeasurement = (
  evidence: CharacteristicEvidence,
  { confidence, reliability }: { readonly confidence: number; readonly reliability: number },
): number | undefined => {
  const mean = valueOf(evidence, 'mean');
  const spread = valueOf(evidence, 'standard_deviation');
  const { lower, upper } = evidence.limits;
  const isTwoSided = lower !== undefined && upper !== undefined;
  const distance = Math.min(
    lower === undefined ? Number.POSITIVE_INFINITY : (mean - lower) / spread,
    upper === undefined ? Number.POSITIVE_INFINITY : (upper - mean) / spread,
  );
  // With ever more units the factor falls towards this value and never reaches it.
  const narrowest = normalQuantile(isTwoSided ? 0.5 + reliability / 2 : reliability);
  if (!(distance > narrowest) || !Number.isFinite(distance)) return undefined;
  const keeps = (sampleSize: number): boolean =>
    (isTwoSided ? twoSidedToleranceFactor : oneSidedToleranceFactor)({
      sampleSize,
      coverage: reliability,
      confidence,
    }) <= distance;
  return keeps(largestSample) ? smallestSatisfying(fewestValuesForNormality, keeps) : undefined;
};

/**
 * The smallest plan of a protocol's own method that shows a confidence and reliability, in words for a hint: from the
 * method itself where it depends on nothing else, for measurements from the mean and spread that a result has shown.
 * Always names the plan without failures, which asks nothing of the distribution.
 */
export const smallestPlanWords = (
  sampling: SamplePlan,
  asked: { readonly confidence: number; readonly reliability: number },
  results: readonly EvidenceResult[],
): string => {
  const { confidence, reliability } = asked;
  const accept = sampling.accept ?? 0;
  const own = countingMethods.includes(sampling.kind)
    ? evidenceMethod(sampling.kind)?.smallestSize?.(confidence, reliability, accept)
    : undefined;
  const byCount = zeroFailureSize(confidence, reliability);
  const counted = `${byCount} units without failures`;
  if (own !== undefined)
    return own === byCount
      ? counted
      : accept > 0
        ? `${own} units with ${accept} allowed, or ${counted}`
        : `${own} units, or ${counted}`;
  if (sampling.kind !== 'normal-tolerance-interval') return counted;
  const latest = results.at(-1);
  if (!latest || latest.characteristics.length === 0)
    return `${counted}, or a sample by measurement, which plinth plan finds from the expected spread`;
  const sizes = latest.characteristics.map((each) => unitsByMeasurement(each, asked));
  return sizes.some((size) => size === undefined)
    ? `${counted}; by measurement no number of units would do with the mean and spread of ${latest.record}`
    : `${Math.max(...sizes.map((size) => size ?? 0))} units with the mean and spread of ${latest.record}, or ${counted}`;
};

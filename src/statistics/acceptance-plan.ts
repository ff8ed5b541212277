import { requireCount, requireOpenProbability, requireProbability } from './argument-checks.ts';
import { binomialCdf, hypergeometricCdf } from './distributions.ts';
import { riskIsMet, smallestSatisfying } from './plan-search.ts';
import { type ReliabilityRequirement, successRunSampleSize } from './success-run.ts';

/** Draw `sampleSize` units, accept with at most `acceptanceNumber` nonconforming. */
export interface AcceptancePlan {
  readonly sampleSize: number;
  readonly acceptanceNumber: number;
}

/** No search goes on beyond this sample: two qualities that close are not told apart by sampling. */
const largestSample = 250_000;

/** A finite lot. */
export interface Lot {
  readonly lotSize: number;
  readonly nonconforming: number;
}

/**
 * The smallest sample for which acceptance with at most `acceptanceNumber` nonconforming units demonstrates
 * `reliability` with `confidence` (binomial: a large lot or a process). Throws a RangeError on arguments out of
 * range.
 *
 * Source: as `successRunSampleSize`.
 */
export function smallestAttributePlan({
  confidence,
  reliability,
  acceptanceNumber,
}: ReliabilityRequirement & { readonly acceptanceNumber: number }): AcceptancePlan {
  const sampleSize = successRunSampleSize({ confidence, reliability, failures: acceptanceNumber });
  return { sampleSize, acceptanceNumber };
}

/**
 * The smallest sample without replacement from a lot for which at most `acceptanceNumber` nonconforming units show,
 * with `confidence`, that the lot holds fewer than `nonconforming` of them (hypergeometric). Throws a RangeError on
 * arguments out of range.
 *
 * Source: the hypergeometric tail by definition; Schilling and Neubauer, Acceptance Sampling in Quality Control,
 * chapter on single sampling (from memory); sample sizes of Cannon and Roe, Livestock Disease Surveys (1982), are
 * recomputed in the tests.
 */
export function smallestLotPlan({
  lotSize,
  nonconforming,
  confidence,
  acceptanceNumber,
}: Lot & { readonly confidence: number; readonly acceptanceNumber: number }): AcceptancePlan {
  checkLot(lotSize, nonconforming);
  requireOpenProbability('confidence', confidence);
  requireCount('acceptanceNumber', acceptanceNumber, 0);
  if (acceptanceNumber >= nonconforming)
    throw new RangeError(
      `acceptanceNumber is ${acceptanceNumber}; it must be less than nonconforming, ${nonconforming}`,
    );
  const sampleSize = smallestSatisfying(acceptanceNumber + 1, (size) => {
    if (size >= lotSize) return true;
    const lot = { lotSize, marked: nonconforming, sampleSize: size };
    return riskIsMet(hypergeometricCdf(acceptanceNumber, lot), confidence);
  });
  return { sampleSize, acceptanceNumber };
}

/**
 * The plan with the smallest sample that accepts the share `acceptableQuality` nonconforming with probability at
 * least 1 - `producerRisk` and the share `rejectableQuality` with probability at most `consumerRisk` (binomial).
 * Throws a RangeError on arguments out of range.
 *
 * Source: NIST/SEMATECH e-Handbook 6.2.3.2, the two equations of the operating characteristic, solved exactly instead
 * of by nomograph.
 */
export function twoPointPlan({
  acceptableQuality,
  rejectableQuality,
  producerRisk,
  consumerRisk,
}: {
  readonly acceptableQuality: number;
  readonly rejectableQuality: number;
  readonly producerRisk: number;
  readonly consumerRisk: number;
}): AcceptancePlan {
  requireOpenProbability('acceptableQuality', acceptableQuality);
  requireOpenProbability('rejectableQuality', rejectableQuality);
  requireOpenProbability('producerRisk', producerRisk);
  requireOpenProbability('consumerRisk', consumerRisk);
  if (acceptableQuality >= rejectableQuality)
    throw new RangeError(
      `acceptableQuality is ${acceptableQuality}; it must be less than rejectableQuality, ${rejectableQuality}`,
    );
  for (let acceptanceNumber = 0; ; acceptanceNumber++) {
    const plan = smallestAttributePlan({
      confidence: 1 - consumerRisk,
      reliability: 1 - rejectableQuality,
      acceptanceNumber,
    });
    const accepted = acceptanceProbability({ ...plan, shareNonconforming: acceptableQuality });
    if (riskIsMet(1 - accepted, 1 - producerRisk)) return plan;
    if (plan.sampleSize > largestSample)
      throw new RangeError(
        `acceptableQuality ${acceptableQuality} and rejectableQuality ${rejectableQuality} are so close that more than ${largestSample} units would be needed`,
      );
  }
}

/**
 * The plan with the smallest sample that accepts a lot with `acceptable` nonconforming units with probability at
 * least 1 - `producerRisk` and one with `rejectable` of them with probability at most `consumerRisk`, drawn without
 * replacement (hypergeometric). Inspecting the whole lot always does. Throws a RangeError on arguments out of range.
 *
 * Source: as `twoPointPlan`, with the hypergeometric distribution of a finite lot: Schilling and Neubauer, Acceptance
 * Sampling in Quality Control, chapter on single sampling (from memory).
 */
export function twoPointLotPlan({
  lotSize,
  acceptable,
  rejectable,
  producerRisk,
  consumerRisk,
}: {
  readonly lotSize: number;
  readonly acceptable: number;
  readonly rejectable: number;
  readonly producerRisk: number;
  readonly consumerRisk: number;
}): AcceptancePlan {
  checkLot(lotSize, rejectable);
  requireCount('acceptable', acceptable, 0);
  requireOpenProbability('producerRisk', producerRisk);
  requireOpenProbability('consumerRisk', consumerRisk);
  if (acceptable >= rejectable)
    throw new RangeError(`acceptable is ${acceptable}; it must be less than rejectable, ${rejectable}`);
  for (let acceptanceNumber = 0; ; acceptanceNumber++) {
    const plan = smallestLotPlan({
      lotSize,
      nonconforming: rejectable,
      confidence: 1 - consumerRisk,
      acceptanceNumber,
    });
    const accepted = lotAcceptanceProbability({ ...plan, lotSize, nonconforming: acceptable });
    if (riskIsMet(1 - accepted, 1 - producerRisk)) return plan;
  }
}

/**
 * One point of the operating characteristic: the probability that the plan accepts when the share
 * `shareNonconforming` (0 to 1) of a large lot or process does not conform (binomial). Throws a RangeError on
 * arguments out of range.
 *
 * Source: NIST/SEMATECH e-Handbook 6.2.3.2, P(d <= c) of the binomial distribution.
 */
export function acceptanceProbability({
  sampleSize,
  acceptanceNumber,
  shareNonconforming,
}: AcceptancePlan & { readonly shareNonconforming: number }): number {
  requireCount('sampleSize', sampleSize, 1);
  requireCount('acceptanceNumber', acceptanceNumber, 0);
  requireProbability('shareNonconforming', shareNonconforming);
  return binomialCdf(acceptanceNumber, sampleSize, shareNonconforming);
}

/**
 * One point of the operating characteristic for a finite lot, drawn without replacement (hypergeometric). Throws a
 * RangeError on arguments out of range.
 *
 * Source: the hypergeometric tail by definition; type A operating characteristic of Schilling and Neubauer,
 * Acceptance Sampling in Quality Control, chapter on single sampling (from memory).
 */
export function lotAcceptanceProbability({
  sampleSize,
  acceptanceNumber,
  lotSize,
  nonconforming,
}: AcceptancePlan & Lot): number {
  checkLot(lotSize, nonconforming);
  requireCount('sampleSize', sampleSize, 1);
  requireCount('acceptanceNumber', acceptanceNumber, 0);
  if (sampleSize > lotSize)
    throw new RangeError(`sampleSize is ${sampleSize}; it must not exceed lotSize, ${lotSize}`);
  return hypergeometricCdf(acceptanceNumber, { lotSize, marked: nonconforming, sampleSize });
}

/**
 * Average outgoing quality: the share nonconforming after rejected lots were sorted, Pa p (N - n) / N. Throws a
 * RangeError on arguments out of range.
 *
 * Source: NIST/SEMATECH e-Handbook 6.2.3.2.
 */
export function averageOutgoingQuality({
  lotSize,
  shareNonconforming,
  ...plan
}: AcceptancePlan & { readonly lotSize: number; readonly shareNonconforming: number }): number {
  requireCount('lotSize', lotSize, plan.sampleSize);
  const accepted = acceptanceProbability({ ...plan, shareNonconforming });
  return (accepted * shareNonconforming * (lotSize - plan.sampleSize)) / lotSize;
}

function checkLot(lotSize: number, nonconforming: number): void {
  requireCount('lotSize', lotSize, 1);
  requireCount('nonconforming', nonconforming, 0);
  if (nonconforming > lotSize)
    throw new RangeError(`nonconforming is ${nonconforming}; it must not exceed lotSize, ${lotSize}`);
}

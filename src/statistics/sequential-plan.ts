/**
 * The sequential probability ratio test for attributes (Wald, Sequential Analysis, 1947, chapter 5; NIST/SEMATECH
 * e-Handbook 6.2.6): after each unit accept, reject or go on.
 */
import { requireCount, requireOpenProbability, requireProbability } from './argument-checks.ts';
import { compensatedSum } from './descriptive.ts';

/** The two points that the plan is drawn for. */
export interface SequentialRequirement {
  readonly acceptableQuality: number;
  readonly rejectableQuality: number;
  readonly producerRisk: number;
  readonly consumerRisk: number;
}

/**
 * Accept once the number nonconforming is at most slope n - acceptanceIntercept, reject once it is at least slope n +
 * rejectionIntercept.
 */
export interface SequentialPlan {
  readonly acceptanceIntercept: number;
  readonly rejectionIntercept: number;
  readonly slope: number;
}

/**
 * Wald's lines: with k = ln(p2 (1 - p1) / (p1 (1 - p2))), h1 = ln((1 - a) / b) / k, h2 = ln((1 - b) / a) / k, s =
 * ln((1 - p1) / (1 - p2)) / k. The risks are kept approximately; `operateSequentialPlan` gives them exactly. Throws a
 * RangeError.
 *
 * Source: Wald, Sequential Analysis (1947), chapter 5; NIST/SEMATECH e-Handbook 6.2.6.
 */
export function sequentialPlan({
  acceptableQuality,
  rejectableQuality,
  producerRisk,
  consumerRisk,
}: SequentialRequirement): SequentialPlan {
  requireOpenProbability('acceptableQuality', acceptableQuality);
  requireOpenProbability('rejectableQuality', rejectableQuality);
  requireOpenProbability('producerRisk', producerRisk);
  requireOpenProbability('consumerRisk', consumerRisk);
  if (acceptableQuality >= rejectableQuality)
    throw new RangeError(
      `acceptableQuality is ${acceptableQuality}; it must be less than rejectableQuality, ${rejectableQuality}`,
    );
  if (producerRisk + consumerRisk >= 1)
    throw new RangeError(
      `producerRisk + consumerRisk is ${producerRisk + consumerRisk}; it must be less than 1`,
    );
  const ratio = Math.log1p(-acceptableQuality) - Math.log1p(-rejectableQuality);
  const scale = Math.log(rejectableQuality / acceptableQuality) + ratio;
  return {
    acceptanceIntercept: Math.log((1 - producerRisk) / consumerRisk) / scale,
    rejectionIntercept: Math.log((1 - consumerRisk) / producerRisk) / scale,
    slope: ratio / scale,
  };
}

/**
 * The numbers to act on after `units` units: accept with at most `acceptance` (undefined where it is too early to
 * accept), reject with at least `rejection` (undefined where there are not that many units yet). Throws a RangeError.
 *
 * Source: Wald, Sequential Analysis (1947), chapter 5; NIST/SEMATECH e-Handbook 6.2.6.
 */
export function sequentialNumbers(
  plan: SequentialPlan,
  units: number,
): { readonly acceptance: number | undefined; readonly rejection: number | undefined } {
  requireCount('units', units, 1);
  // The slack keeps a line that meets a whole number from missing it by rounding.
  const acceptance = Math.floor(plan.slope * units - plan.acceptanceIntercept + 1e-10);
  const rejection = Math.ceil(plan.slope * units + plan.rejectionIntercept - 1e-10);
  return {
    acceptance: acceptance < 0 ? undefined : acceptance,
    rejection: rejection > units ? undefined : rejection,
  };
}

/** What a sequential plan does at one quality. */
export interface SequentialOperation {
  readonly acceptance: number;
  readonly averageSampleNumber: number;
}

/**
 * Acceptance and average sample number of a sequential plan that stops after `truncation` units, computed exactly by
 * following the distribution of the number nonconforming from unit to unit, not by Wald's approximations. At
 * truncation the plan accepts with at most slope x truncation nonconforming, the middle of the lines. Throws a
 * RangeError.
 *
 * Source: exact recursion of Aroian, Technometrics 10 (1968) (from memory); the rule at truncation is common
 * practice, no source.
 */
export function operateSequentialPlan(
  plan: SequentialPlan,
  { truncation, shareNonconforming }: { readonly truncation: number; readonly shareNonconforming: number },
): SequentialOperation {
  requireCount('truncation', truncation, 1);
  requireProbability('shareNonconforming', shareNonconforming);
  // Probability of each count with which the plan is still going on.
  let going = [1];
  const accepted: number[] = [];
  const units: number[] = [];
  for (let unit = 1; unit <= truncation; unit++) {
    units.push(going.reduce((sum, mass) => sum + mass, 0));
    const next = Array.from(
      { length: going.length + 1 },
      (_, count) =>
        (going[count] ?? 0) * (1 - shareNonconforming) + (going[count - 1] ?? 0) * shareNonconforming,
    );
    const numbers = sequentialNumbers(plan, unit);
    const last = unit === truncation;
    const acceptance = last ? Math.floor(plan.slope * unit + 1e-10) : (numbers.acceptance ?? -1);
    const rejection = last ? acceptance + 1 : (numbers.rejection ?? Number.POSITIVE_INFINITY);
    for (let count = 0; count <= Math.min(acceptance, next.length - 1); count++) {
      accepted.push(next[count]!);
      next[count] = 0;
    }
    going = next.slice(0, Math.min(next.length, rejection));
    if (going.every((mass) => mass === 0)) break;
  }
  return {
    acceptance: Math.min(1, compensatedSum(accepted)),
    averageSampleNumber: compensatedSum(units),
  };
}

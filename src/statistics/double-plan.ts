/**
 * Double sampling by attributes (NIST/SEMATECH e-Handbook 6.2.4; Montgomery, Introduction to Statistical Quality
 * Control, chapter on acceptance sampling): a first sample decides where it is clearly good or bad, else a second one is
 * drawn and the two are counted together.
 */
import { twoPointPlan } from './acceptance-plan.ts';
import { requireCount, requirePositive, requireProbability } from './argument-checks.ts';
import { binomialCdf, hypergeometricCdf } from './distributions.ts';
import { riskIsMet, smallestSatisfying } from './plan-search.ts';
import { binomialMasses, hypergeometricMasses } from './probability-mass.ts';

/**
 * Accept with at most `firstAcceptance` nonconforming in the first sample, reject with `firstRejection` or more
 * (`secondAcceptance` + 1 unless given); between them draw the second sample and accept with at most `secondAcceptance`
 * in both.
 */
export interface DoublePlan {
  readonly firstSize: number;
  readonly firstAcceptance: number;
  readonly firstRejection?: number;
  readonly secondSize: number;
  readonly secondAcceptance: number;
}

/** What a double plan does at one quality. */
export interface DoublePlanOperation {
  readonly acceptance: number;
  /** Probabilities that the first sample accepts, rejects, or leaves it to the second one; their sum is 1. */
  readonly acceptedFirst: number;
  readonly rejectedFirst: number;
  readonly second: number;
  /** Units inspected on average, with every sample inspected to its end. */
  readonly averageSampleNumber: number;
}

/**
 * A double plan at a share nonconforming of a large lot or process (binomial). Throws a RangeError.
 *
 * Source: NIST/SEMATECH e-Handbook 6.2.4; Montgomery, Introduction to Statistical Quality Control, chapter on
 * acceptance sampling.
 */
export function operateDoublePlan(plan: DoublePlan, shareNonconforming: number): DoublePlanOperation {
  checkPlan(plan);
  requireProbability('shareNonconforming', shareNonconforming);
  const rejection = rejectionOf(plan);
  return combined(plan, {
    masses: binomialMasses(rejection - 1, plan.firstSize, shareNonconforming),
    accepted: (found) => binomialCdf(found, plan.firstSize, shareNonconforming),
    acceptedSecond: (found) =>
      binomialCdf(plan.secondAcceptance - found, plan.secondSize, shareNonconforming),
  });
}

/**
 * A double plan on a finite lot, drawn without replacement (hypergeometric). Throws a RangeError.
 *
 * Source: as `operateDoublePlan`, with the hypergeometric distribution of a finite lot.
 */
export function operateDoublePlanOnLot(
  plan: DoublePlan,
  { lotSize, nonconforming }: { readonly lotSize: number; readonly nonconforming: number },
): DoublePlanOperation {
  checkPlan(plan);
  requireCount('lotSize', lotSize, plan.firstSize + plan.secondSize);
  requireCount('nonconforming', nonconforming, 0);
  if (nonconforming > lotSize)
    throw new RangeError(`nonconforming is ${nonconforming}; it must not exceed lotSize, ${lotSize}`);
  const lot = { lotSize, marked: nonconforming, sampleSize: plan.firstSize };
  return combined(plan, {
    masses: hypergeometricMasses(rejectionOf(plan) - 1, lot),
    accepted: (found) => hypergeometricCdf(found, lot),
    acceptedSecond: (found) =>
      found > nonconforming
        ? 0
        : hypergeometricCdf(plan.secondAcceptance - found, {
            lotSize: lotSize - plan.firstSize,
            marked: nonconforming - found,
            sampleSize: plan.secondSize,
          }),
  });
}

/**
 * Units inspected on average when the second sample stops as soon as the lot must be rejected; the first is always
 * finished, so that it estimates the quality. Throws a RangeError.
 *
 * Source: Schilling and Neubauer, Acceptance Sampling in Quality Control, chapter on double sampling; Montgomery,
 * Introduction to Statistical Quality Control, average sample number with curtailment (both from memory).
 */
export function curtailedAverageSampleNumber(plan: DoublePlan, shareNonconforming: number): number {
  checkPlan(plan);
  requireProbability('shareNonconforming', shareNonconforming);
  const { firstSize, firstAcceptance, secondSize, secondAcceptance } = plan;
  if (shareNonconforming === 0) return firstSize;
  const rejection = rejectionOf(plan);
  const masses = binomialMasses(rejection - 1, firstSize, shareNonconforming);
  let units = firstSize;
  for (let found = firstAcceptance + 1; found < rejection; found++) {
    const left = secondAcceptance - found;
    if (left >= secondSize) {
      units += masses[found]! * secondSize;
      continue;
    }
    const toTheEnd = secondSize * binomialCdf(left, secondSize, shareNonconforming);
    // The units up to the nonconforming one that decides: (left + 1) / p, where it comes within the sample.
    // P(X >= left + 2) as a lower tail of the conforming units, so that it keeps its digits.
    const tail = binomialCdf(secondSize - left - 1, secondSize + 1, 1 - shareNonconforming);
    const early = tail === 0 ? 0 : ((left + 1) / shareNonconforming) * tail;
    units += masses[found]! * (toTheEnd + early);
  }
  return units;
}

/**
 * A double plan that accepts `acceptableQuality` with probability at least 1 - `producerRisk` and `rejectableQuality`
 * with at most `consumerRisk` (binomial), with a second sample of `sizeRatio` (1 unless given) times the first. Of
 * all plans with an acceptance number up to 4 above that of the single plan, the one with the smallest average sample
 * number at the acceptable quality; of equal ones the first found, by ascending acceptance numbers. Throws a
 * RangeError.
 *
 * Source: as `operateDoublePlan`; the search and its choice are a rule of this tool, no published source.
 */
export function twoPointDoublePlan({
  sizeRatio = 1,
  ...points
}: Parameters<typeof twoPointPlan>[0] & { readonly sizeRatio?: number }): DoublePlan {
  requirePositive('sizeRatio', sizeRatio);
  const single = twoPointPlan(points);
  let best: { readonly plan: DoublePlan; readonly units: number } | undefined;
  for (let secondAcceptance = 1; secondAcceptance <= single.acceptanceNumber + 4; secondAcceptance++)
    for (let firstAcceptance = 0; firstAcceptance < secondAcceptance; firstAcceptance++) {
      const ofSize = (firstSize: number): DoublePlan => ({
        firstSize,
        firstAcceptance,
        secondSize: Math.max(1, Math.round(firstSize * sizeRatio)),
        secondAcceptance,
      });
      const firstSize = smallestSatisfying(firstAcceptance + 1, (size) =>
        riskIsMet(
          operateDoublePlan(ofSize(size), points.rejectableQuality).acceptance,
          1 - points.consumerRisk,
        ),
      );
      const plan = ofSize(firstSize);
      const operation = operateDoublePlan(plan, points.acceptableQuality);
      if (!riskIsMet(1 - operation.acceptance, 1 - points.producerRisk)) continue;
      if (!best || operation.averageSampleNumber < best.units * (1 - 1e-12))
        best = { plan, units: operation.averageSampleNumber };
    }
  if (!best)
    throw new RangeError(
      `no double plan with an acceptance number up to ${single.acceptanceNumber + 4} keeps both risks`,
    );
  return best.plan;
}

function rejectionOf(plan: DoublePlan): number {
  return plan.firstRejection ?? plan.secondAcceptance + 1;
}

function combined(
  plan: DoublePlan,
  of: {
    readonly masses: readonly number[];
    readonly accepted: (found: number) => number;
    readonly acceptedSecond: (found: number) => number;
  },
): DoublePlanOperation {
  const acceptedFirst = of.accepted(plan.firstAcceptance);
  let second = 0;
  let acceptedSecond = 0;
  for (let found = plan.firstAcceptance + 1; found < rejectionOf(plan); found++) {
    const mass = of.masses[found]!;
    second += mass;
    if (found <= plan.secondAcceptance) acceptedSecond += mass * of.acceptedSecond(found);
  }
  return {
    acceptance: Math.min(1, acceptedFirst + acceptedSecond),
    acceptedFirst,
    rejectedFirst: Math.max(0, 1 - acceptedFirst - second),
    second,
    averageSampleNumber: plan.firstSize + plan.secondSize * second,
  };
}

function checkPlan(plan: DoublePlan): void {
  const { firstSize, firstAcceptance, secondSize, secondAcceptance } = plan;
  requireCount('firstSize', firstSize, 1);
  requireCount('secondSize', secondSize, 1);
  requireCount('firstAcceptance', firstAcceptance, 0);
  requireCount('secondAcceptance', secondAcceptance, 0);
  const rejection = rejectionOf(plan);
  requireCount('firstRejection', rejection, 1);
  if (firstAcceptance >= secondAcceptance)
    throw new RangeError(
      `firstAcceptance is ${firstAcceptance}; it must be less than secondAcceptance, ${secondAcceptance}`,
    );
  if (rejection <= firstAcceptance + 1)
    throw new RangeError(
      `firstRejection is ${rejection}; it must be above firstAcceptance + 1, ${firstAcceptance + 1}, or no second sample is ever drawn`,
    );
  if (rejection > secondAcceptance + 1)
    throw new RangeError(
      `firstRejection is ${rejection}; it must not exceed secondAcceptance + 1, ${secondAcceptance + 1}`,
    );
}

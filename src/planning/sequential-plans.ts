import { riskIsMet } from '../statistics/plan-search.ts';
import {
  operateSequentialPlan,
  type SequentialOperation,
  type SequentialPlan,
  sequentialNumbers,
  sequentialPlan,
} from '../statistics/sequential-plan.ts';
import type { SequentialCandidate, SequentialStep, Statement } from './compared-plan.ts';
import type { ExpectedQuality } from './expected-quality.ts';

/** A sequential plan ends at this many times the sample of the fixed plan with the same risks (common practice, no source). */
const longestRun = 3;

/** Steps of computing beyond which a plan is not followed from unit to unit. */
const mostSteps = 1_000_000;

/** Rows of the table of a plan. */
const mostRows = 8;

/**
 * A sequential plan that keeps the statement and passes the expected quality with at least `chance`, both exactly and
 * with its end after a limited number of units; or why there is none. Wald's lines keep the risks only nearly, so they
 * are drawn for smaller risks until the plan as it is used keeps those that were asked for.
 */
export const sequentialCandidate = (
  statement: Statement,
  expected: ExpectedQuality,
  chance: number,
  fixedSample: number,
): SequentialCandidate | { readonly reason: string } => {
  const limit = 1 - statement.reliability;
  const truncation = longestRun * fixedSample;
  let [producerRisk, consumerRisk] = [1 - chance, 1 - statement.confidence];
  for (let attempt = 0; attempt < 100; attempt += 1) {
    const plan = sequentialPlan({
      acceptableQuality: expected.fraction,
      rejectableQuality: limit,
      producerRisk,
      consumerRisk,
    });
    if (truncation * (plan.slope * truncation + plan.rejectionIntercept) > mostSteps)
      return { reason: `it could go on for ${truncation} units, too many to be followed one by one` };
    const at = (shareNonconforming: number): SequentialOperation =>
      operateSequentialPlan(plan, { truncation, shareNonconforming });
    const [good, bad] = [at(expected.fraction), at(limit)];
    const keepsStatement = riskIsMet(bad.acceptance, statement.confidence);
    if (keepsStatement && good.acceptance >= chance)
      return {
        kind: 'sequential',
        name: 'sequential',
        sign: 's',
        averageSampleNumber: good.averageSampleNumber,
        averageSampleNumberAtLimit: bad.averageSampleNumber,
        largestSample: truncation,
        acceptedAtEnd: Math.floor(plan.slope * truncation + 1e-10),
        acceptanceIntercept: plan.acceptanceIntercept,
        rejectionIntercept: plan.rejectionIntercept,
        slope: plan.slope,
        steps: stepsOf(plan, truncation),
        acceptance: (share) => at(share).acceptance,
        risk: bad.acceptance,
        chance: good.acceptance,
      };
    if (!keepsStatement) consumerRisk *= 0.95;
    if (good.acceptance < chance) producerRisk *= 0.95;
  }
  return { reason: 'no lines keep both the statement and the chance of passing' };
};

/** When so many failures decide, for the first few numbers of them. */
const stepsOf = (plan: SequentialPlan, truncation: number): readonly SequentialStep[] => {
  const acceptFrom = new Map<number, number>();
  const rejectUpTo = new Map<number, number>();
  for (let unit = 1; unit <= truncation; unit += 1) {
    const { acceptance, rejection } = sequentialNumbers(plan, unit);
    for (let failures = acceptance ?? -1; failures >= 0 && !acceptFrom.has(failures); failures -= 1)
      acceptFrom.set(failures, unit);
    if (rejection !== undefined) rejectUpTo.set(rejection, unit);
  }
  const last = Math.max(...acceptFrom.keys(), ...rejectUpTo.keys(), 0);
  return Array.from({ length: Math.min(mostRows, last + 1) }, (_, failures) => {
    const [from, upTo] = [acceptFrom.get(failures), rejectUpTo.get(failures)];
    return {
      failures,
      ...(from === undefined ? {} : { acceptFrom: from }),
      ...(upTo === undefined ? {} : { rejectUpTo: upTo }),
    };
  });
};

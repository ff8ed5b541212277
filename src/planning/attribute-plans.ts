import { acceptanceProbability, smallestAttributePlan, twoPointPlan } from '../statistics/acceptance-plan.ts';
import { type AttributeCandidate, claimedShare, type Statement } from './compared-plan.ts';
import type { ExpectedQuality } from './expected-quality.ts';
import { isTooClose } from './too-close.ts';

/** Acceptance numbers that are always compared. */
const acceptanceNumbers = [0, 1, 2, 3] as const;

/**
 * The attribute plans of a statement with 0 to 3 failures allowed and, where none of them passes the expected quality
 * with `chance`, the one with the fewest failures that does.
 */
export const attributePlans = (
  statement: Statement,
  expected: ExpectedQuality | undefined,
  chance: number,
): readonly AttributeCandidate[] => {
  const usual = acceptanceNumbers.map((acceptanceNumber) =>
    candidate(smallestAttributePlan({ ...statement, acceptanceNumber }), statement, expected),
  );
  if (!expected || usual.some((plan) => (plan.chance ?? 0) >= chance)) return usual;
  if (expected.fraction >= claimedShare(statement) || isTooClose(statement, expected, chance)) return usual;
  const reaching = twoPointPlan({
    acceptableQuality: expected.fraction,
    rejectableQuality: 1 - statement.reliability,
    producerRisk: 1 - chance,
    consumerRisk: 1 - statement.confidence,
  });
  return [...usual, candidate(reaching, statement, expected)];
};

const candidate = (
  plan: { readonly sampleSize: number; readonly acceptanceNumber: number },
  statement: Statement,
  expected: ExpectedQuality | undefined,
): AttributeCandidate => {
  const acceptance = (share: number): number => acceptanceProbability({ ...plan, shareNonconforming: share });
  const { acceptanceNumber } = plan;
  return {
    kind: 'attribute',
    name: `c = ${acceptanceNumber}`,
    sign: acceptanceNumber < 10 ? String(acceptanceNumber) : 'c',
    ...plan,
    acceptance,
    risk: acceptance(1 - statement.reliability),
    ...(expected ? { chance: acceptance(expected.fraction) } : {}),
  };
};

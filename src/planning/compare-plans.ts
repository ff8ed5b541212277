import { attributePlans } from './attribute-plans.ts';
import {
  type AttributeCandidate,
  type ComparedPlan,
  claimedShare,
  type Statement,
  type UnavailablePlan,
  unitsOf,
} from './compared-plan.ts';
import type { ExpectedQuality } from './expected-quality.ts';
import { sequentialCandidate } from './sequential-plans.ts';
import { nearnessReason } from './too-close.ts';
import { variablesPlan } from './variables-plans.ts';

export interface PlanWish {
  readonly statement: Statement;
  readonly expected?: ExpectedQuality;
  /** Probability with which a plan shall pass the expected quality. */
  readonly chance: number;
}

/** One quality of the operating characteristic, with the probability of passing of each plan in order. */
export interface OperatingPoint {
  readonly share: number;
  readonly acceptance: readonly number[];
}

/** Plans that support one statement, side by side. */
export interface PlanComparison extends PlanWish {
  /** Share of units that the statement lets fail. */
  readonly limit: number;
  readonly plans: readonly ComparedPlan[];
  readonly unavailable: readonly UnavailablePlan[];
  /** The plan of fixed size with the fewest units among those that reach the chance; without an expected quality, of all. */
  readonly cheapest?: ComparedPlan;
  readonly points: readonly OperatingPoint[];
}

/** Whether a plan passes the expected quality as often as was asked for; undefined where no quality is expected. */
export const reachesChance = (plan: ComparedPlan, chance: number): boolean | undefined =>
  plan.chance === undefined ? undefined : plan.chance >= chance;

/**
 * The cheapest plans of each kind for a statement. Throws a RangeError where confidence, reliability or chance do not lie
 * between 0 and 1, both excluded, or confidence and chance together are not above 1: a plan would then have to pass the
 * expected quality less often than one that is to be kept out.
 */
export const comparePlans = (wish: PlanWish): PlanComparison => {
  const { statement, expected, chance } = wish;
  if (!(statement.confidence + chance > 1))
    throw new RangeError(
      `chance is ${chance}; it must be above 1 - confidence, ${Number((1 - statement.confidence).toPrecision(12))}`,
    );
  const limit = claimedShare(statement);
  const attribute = attributePlans(statement, expected, chance);
  const others = expected ? measuredAndSequential(statement, expected, chance, attribute) : [];
  const plans: ComparedPlan[] = [...attribute];
  const unavailable: UnavailablePlan[] = [];
  for (const each of others) {
    if ('reason' in each) unavailable.push(each);
    else plans.push(each);
  }
  const [cheapest] = plans
    .filter((plan) => plan.kind !== 'sequential' && reachesChance(plan, chance) !== false)
    .toSorted((a, b) => unitsOf(a) - unitsOf(b));
  return {
    ...wish,
    limit,
    plans,
    unavailable,
    ...(cheapest ? { cheapest } : {}),
    points: sharesOf(limit, expected).map((share) => ({
      share,
      acceptance: plans.map((plan) => plan.acceptance(share)),
    })),
  };
};

const measuredAndSequential = (
  statement: Statement,
  expected: ExpectedQuality,
  chance: number,
  attribute: readonly AttributeCandidate[],
): readonly (ComparedPlan | UnavailablePlan)[] => {
  const variables = variablesPlan(statement, expected, chance);
  const reason = nearnessReason(statement, expected, chance);
  const fixed = attribute.find((plan) => (plan.chance ?? 0) >= chance);
  const sequential =
    reason !== undefined || !fixed
      ? { reason: reason ?? 'no attribute plan reaches the chance' }
      : sequentialCandidate(statement, expected, chance, fixed.sampleSize);
  return [
    'reason' in variables ? { kind: 'variables', ...variables } : variables,
    'reason' in sequential ? { kind: 'sequential', ...sequential } : sequential,
  ];
};

/** Multiples of the share that the statement lets fail, at which the operating characteristic is printed. */
const multiples = [0, 0.1, 0.2, 0.5, 1, 1.5, 2, 3] as const;

const sharesOf = (limit: number, expected: ExpectedQuality | undefined): readonly number[] => {
  const shares = multiples.map((multiple) => Number((multiple * limit).toPrecision(12)));
  return [...new Set([...shares, ...(expected ? [expected.fraction] : [])])]
    .filter((share) => share < 1)
    .toSorted((a, b) => a - b);
};

import { fewestValuesForNormality } from '../statistics/anderson-darling.ts';
import { normalQuantile } from '../statistics/distributions.ts';
import { smallestSatisfying } from '../statistics/plan-search.ts';
import { oneSidedToleranceFactor, twoSidedToleranceFactor } from '../statistics/tolerance-factor.ts';
import {
  betweenLimitsAcceptanceProbability,
  twoPointVariablesPlan,
  variablesAcceptanceProbability,
} from '../statistics/variables-plan.ts';
import { claimedShare, type Statement, type VariablesCandidate } from './compared-plan.ts';
import { distancesAtShare, type ExpectedQuality } from './expected-quality.ts';

/** Beyond this sample the mean is too near to a limit for a plan by measurement. */
const largestSample = 10_000;

/**
 * The smallest plan by measurement that passes the expected quality with at least `chance`, its factor being the exact
 * tolerance factor of the statement, so that its verdict is that of the normal tolerance interval; or why there is none.
 * Never fewer units than normality can be tested with: the verdict would be undecided.
 */
export const variablesPlan = (
  statement: Statement,
  expected: ExpectedQuality,
  chance: number,
): VariablesCandidate | { readonly reason: string } => {
  if (expected.distances) return betweenLimits(statement, expected.distances, chance);
  const limit = claimedShare(statement);
  const gap = normalQuantile(limit) - normalQuantile(expected.fraction);
  if (gap <= 0)
    return { reason: 'the expected quality is no better than the reliability that is to be shown' };
  if (isTooLarge(gap, -normalQuantile(limit), statement, chance)) return { reason: tooNear };
  const plan = twoPointVariablesPlan({
    acceptableQuality: expected.fraction,
    rejectableQuality: 1 - statement.reliability,
    producerRisk: 1 - chance,
    consumerRisk: 1 - statement.confidence,
  });
  const isTooSmall = plan.sampleSize < fewestValuesForNormality;
  const sampleSize = isTooSmall ? fewestValuesForNormality : plan.sampleSize;
  const factor = isTooSmall
    ? oneSidedToleranceFactor({
        sampleSize,
        coverage: statement.reliability,
        confidence: statement.confidence,
      })
    : plan.factor;
  const acceptance = (share: number): number =>
    atEnds(share) ?? variablesAcceptanceProbability({ sampleSize, factor, shareNonconforming: share });
  return {
    kind: 'variables',
    name: 'variables',
    sign: 'v',
    sides: 'one',
    sampleSize,
    factor,
    ...(isTooSmall ? { sizeOfStatement: plan.sampleSize } : {}),
    acceptance,
    risk: acceptance(1 - statement.reliability),
    chance: acceptance(expected.fraction),
  };
};

const tooNear = `the mean is so near to the limit that more than ${largestSample} units would be needed`;

/** Every plan passes where nothing fails, and none where all do. */
const atEnds = (share: number): number | undefined => (share <= 0 ? 1 : share >= 1 ? 0 : undefined);

/** By the normal approximation n = ((za + zb) / gap)² (1 + k² / 2), which is close where samples are large. */
const isTooLarge = (gap: number, factor: number, { confidence }: Statement, chance: number): boolean =>
  ((normalQuantile(confidence) + normalQuantile(chance)) / gap) ** 2 * (1 + factor ** 2 / 2) > largestSample;

const betweenLimits = (
  statement: Statement,
  distances: NonNullable<ExpectedQuality['distances']>,
  chance: number,
): VariablesCandidate | { readonly reason: string } => {
  const { confidence, reliability } = statement;
  // However many units: the interval never becomes narrower than this many standard deviations on each side.
  const narrowest = normalQuantile(0.5 + reliability / 2);
  const nearer = Math.min(distances.toLower, distances.toUpper);
  if (nearer <= narrowest)
    return {
      reason: `the mean is ${nearer.toFixed(2)} standard deviations from the nearer limit; an interval that holds the reliability reaches at least ${narrowest.toFixed(2)}`,
    };
  const passes = (size: number): number =>
    betweenLimitsAcceptanceProbability({
      sampleSize: size,
      factor: twoSidedToleranceFactor({ sampleSize: size, coverage: reliability, confidence }),
      ...distances,
    });
  if (passes(largestSample) < chance) return { reason: tooNear };
  const sizeOfStatement = smallestSatisfying(2, (size) => passes(size) >= chance);
  const sampleSize = Math.max(sizeOfStatement, fewestValuesForNormality);
  const factor = twoSidedToleranceFactor({ sampleSize, coverage: reliability, confidence });
  const acceptance = (share: number): number =>
    atEnds(share) ??
    betweenLimitsAcceptanceProbability({ sampleSize, factor, ...distancesAtShare(distances, share) });
  return {
    kind: 'variables',
    name: 'variables',
    sign: 'v',
    sides: 'two',
    sampleSize,
    factor,
    ...(sizeOfStatement < sampleSize ? { sizeOfStatement } : {}),
    acceptance,
    risk: acceptance(1 - reliability),
    chance: passes(sampleSize),
  };
};

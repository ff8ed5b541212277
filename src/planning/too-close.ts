import { normalQuantile } from '../statistics/distributions.ts';
import { claimedShare, type Statement } from './compared-plan.ts';
import type { ExpectedQuality } from './expected-quality.ts';

/** Nobody plans samples beyond this; the search for one is not begun. */
export const largestPlannedSample = 50_000;

/**
 * Whether an attribute plan that passes the expected quality with `chance` and keeps the statement takes more than
 * `largestPlannedSample` units, by the normal approximation ((za √(p q) + zb √(P Q)) / (P - p))², which is close where
 * samples are that large (Montgomery, Introduction to Statistical Quality Control, from memory).
 */
export const isTooClose = (statement: Statement, { fraction }: ExpectedQuality, chance: number): boolean => {
  const limit = claimedShare(statement);
  const above =
    Math.abs(normalQuantile(chance)) * Math.sqrt(fraction * (1 - fraction)) +
    Math.abs(normalQuantile(statement.confidence)) * Math.sqrt(limit * (1 - limit));
  return (above / (limit - fraction)) ** 2 > largestPlannedSample;
};

/** Why no plan of a kind is offered, where the expected quality is too near to the limit of the statement, or beyond it. */
export const nearnessReason = (
  statement: Statement,
  expected: ExpectedQuality,
  chance: number,
): string | undefined => {
  if (expected.fraction >= claimedShare(statement))
    return 'the expected quality is no better than the reliability that is to be shown';
  if (isTooClose(statement, expected, chance))
    return `the expected quality is so near to the reliability that is to be shown that telling them apart would take more than ${largestPlannedSample} units`;
  return undefined;
};

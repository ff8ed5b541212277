/** How likely a usability test is to meet a problem at least once, by the binomial model with independent users. */
import { requireCount, requireOpenProbability, requireProbability } from './argument-checks.ts';

/**
 * 1 - (1 - p)^n: the probability that at least one of `participants` meets a problem that each meets with
 * `probability`. Throws a RangeError on arguments out of range.
 *
 * Source: Virzi, Human Factors 34 (1992); Nielsen and Landauer, A mathematical model of the finding of usability
 * problems, INTERCHI (1993) (both from memory).
 */
export function discoveryProbability({
  probability,
  participants,
}: {
  readonly probability: number;
  readonly participants: number;
}): number {
  requireProbability('probability', probability);
  requireCount('participants', participants, 0);
  if (participants === 0) return 0;
  return -Math.expm1(participants * Math.log1p(-probability));
}

/**
 * The smallest number of participants for which `discoveryProbability` reaches `goal`. Throws a RangeError on
 * arguments out of range.
 *
 * Source: as `discoveryProbability`, solved for n.
 */
export function participantsToDiscover({
  probability,
  goal,
}: {
  readonly probability: number;
  readonly goal: number;
}): number {
  requireOpenProbability('probability', probability);
  requireOpenProbability('goal', goal);
  // The slack keeps a whole number that came out a rounding error too large from being raised by one.
  return Math.max(1, Math.ceil((Math.log1p(-goal) / Math.log1p(-probability)) * (1 - 1e-12)));
}

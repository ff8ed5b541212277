/** Whether events become more frequent from period to period, where the periods differ in exposure. */
import { requireCount, requirePositive } from './argument-checks.ts';
import { normalCdf } from './distributions.ts';
import type { CountedEvents } from './poisson-rate.ts';

export interface PoissonTrend {
  readonly events: number;
  /** Sum over the events of the number of the period, counted from 1, in which each fell. */
  readonly score: number;
  /** What the score would be on average if the rate never changed. */
  readonly expected: number;
  /** Probability of a score at least as high, given the number of events, if the rate never changed. */
  readonly pValue: number;
  /** Whether `pValue` is exact; else it is the normal approximation with a correction for continuity. */
  readonly isExact: boolean;
}

/** Work beyond which the normal approximation takes over; it is then good to many digits. */
const mostSteps = 20_000_000;

/**
 * Test against a rising rate. Given the total, the events fall into the periods as a multinomial with shares in
 * proportion to the exposure, if the rate is constant; the score is the sufficient statistic for a log-linear trend.
 * Its distribution is found exactly, one event after the other. Throws a RangeError for fewer than two periods and
 * for arguments out of range.
 *
 * Source: Cox and Lewis, The Statistical Analysis of Series of Events (1966), chapter 3, there for time itself;
 * conditional test for Poisson counts from memory.
 */
export function poissonTrend(periods: readonly CountedEvents[]): PoissonTrend {
  if (periods.length < 2) throw new RangeError(`${periods.length} periods, at least 2 needed for a trend`);
  for (const { events, exposure } of periods) {
    requireCount('events', events, 0);
    requirePositive('exposure', exposure);
  }
  const total = periods.reduce((sum, each) => sum + each.events, 0);
  const exposure = periods.reduce((sum, each) => sum + each.exposure, 0);
  const shares = periods.map((each) => each.exposure / exposure);
  const score = periods.reduce((sum, each, index) => sum + each.events * (index + 1), 0);
  const mean = shares.reduce((sum, share, index) => sum + share * (index + 1), 0);
  const expected = total * mean;
  if (total === 0) return { events: 0, score: 0, expected: 0, pValue: 1, isExact: true };
  // One event at a time: total steps of the length of the distribution, times the periods.
  const isExact = (total * total * periods.length * periods.length) / 2 <= mostSteps;
  if (isExact) return { events: total, score, expected, pValue: exactTail(shares, total, score), isExact };
  const variance = total * shares.reduce((sum, share, index) => sum + share * (index + 1 - mean) ** 2, 0);
  const pValue = normalCdf(-(score - 0.5 - expected) / Math.sqrt(variance));
  return { events: total, score, expected, pValue, isExact };
}

/** Probability that the sum of `total` independent period numbers is at least `score`. */
function exactTail(shares: readonly number[], total: number, score: number): number {
  // Index 0 stands for the lowest sum, one period number 1 for each event.
  let distribution = new Float64Array([1]);
  for (let event = 0; event < total; event += 1) {
    const next = new Float64Array(distribution.length + shares.length - 1);
    for (const [step, share] of shares.entries())
      for (let at = 0; at < distribution.length; at += 1)
        next[at + step] = (next[at + step] ?? 0) + share * (distribution[at] ?? 0);
    distribution = next;
  }
  let tail = 0;
  for (let at = distribution.length - 1; at >= score - total; at -= 1) tail += distribution[at] ?? 0;
  return Math.min(1, tail);
}

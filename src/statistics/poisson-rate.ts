/** Exact confidence bounds on a rate of rare events, from their number and the exposure in which they were counted. */
import { requireCount, requireOpenProbability, requirePositive } from './argument-checks.ts';
import { chiSquareQuantile } from './distributions.ts';

export interface CountedEvents {
  /** Whole number from 0. */
  readonly events: number;
  /** Uses, units or time, above 0. */
  readonly exposure: number;
}

export interface PoissonRate {
  readonly rate: number;
  /** With the confidence given, the true rate is at least this; 0 where no event was seen. */
  readonly lower: number;
  /** With the confidence given, the true rate is at most this. */
  readonly upper: number;
}

/** The mean at which so many events or fewer have the probability 1 - C. */
const largestMean = (events: number, confidence: number): number =>
  chiSquareQuantile(confidence, 2 * events + 2) / 2;

/** The mean at which so many events or more have the probability 1 - C. */
const smallestMean = (events: number, confidence: number): number =>
  events === 0 ? 0 : chiSquareQuantile(1 - confidence, 2 * events) / 2;

/**
 * Rate with exact one-sided bounds, each with the confidence given; together they are the interval of Garwood with
 * the confidence 2 C - 1. They are chi-square quantiles, halved: at 1 - C with 2 x degrees of freedom, and at C with
 * 2 x + 2. Throws a RangeError on arguments out of range.
 *
 * Source: Garwood, Biometrika 28 (1936), 437-442.
 */
export function poissonRate({
  events,
  exposure,
  confidence,
}: CountedEvents & { readonly confidence: number }): PoissonRate {
  requireCount('events', events, 0);
  requirePositive('exposure', exposure);
  requireOpenProbability('confidence', confidence);
  return {
    rate: events / exposure,
    lower: smallestMean(events, confidence) / exposure,
    upper: largestMean(events, confidence) / exposure,
  };
}

/**
 * The exposure in which, with so many events, the upper bound falls to `rate`: how much must be seen before a claim
 * is supported. Throws a RangeError on arguments out of range.
 *
 * Source: as `poissonRate`, solved for the exposure.
 */
export function exposureNeeded({
  events,
  rate,
  confidence,
}: {
  readonly events: number;
  readonly rate: number;
  readonly confidence: number;
}): number {
  requireCount('events', events, 0);
  requirePositive('rate', rate);
  requireOpenProbability('confidence', confidence);
  return largestMean(events, confidence) / rate;
}

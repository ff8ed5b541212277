import { discoveryProbability } from '../statistics/usability.ts';

/** Chance of meeting a problem at least once in a study. */
export interface Discovery {
  /** Share of users who meet the problem. */
  readonly share: number;
  /** 1 - (1 - share)^n. */
  readonly probability: number;
}

/**
 * How likely a group of independent participants meets a problem at least once, for several shares of users who have
 * it. It says what a study of that size can miss, and nothing about whether the device passes.
 */
export const problemDiscovery = (participants: number, shares: readonly number[]): readonly Discovery[] =>
  shares.map((share) => ({
    share,
    probability: discoveryProbability({ probability: share, participants }),
  }));

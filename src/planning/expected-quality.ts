import { normalCdf } from '../statistics/distributions.ts';

/** What somebody expects of the characteristic before the test: mean and spread against the limits, in one unit. */
export interface ExpectedSpread {
  readonly mean: number;
  readonly standardDeviation: number;
  readonly lower?: number;
  readonly upper?: number;
}

/** The quality for which plans are compared. */
export interface ExpectedQuality {
  /** Share of units expected not to conform, between 0 and 1, both excluded. */
  readonly fraction: number;
  /** Distances from the mean to two limits in standard deviations; absent where one limit is at stake. */
  readonly distances?: { readonly toLower: number; readonly toUpper: number };
  /** Where the share comes from, unless it was given as such. */
  readonly spread?: ExpectedSpread;
}

/** Shares smaller than this are told apart by no plan; they are taken as this, so that each has a normal quantile. */
const smallestFraction = 1e-300;

/** Share beyond two limits that lie so many standard deviations from the mean of a normal distribution. */
const shareBeyond = (toLower: number, toUpper: number): number => normalCdf(-toLower) + normalCdf(-toUpper);

/**
 * The quality that a mean and a standard deviation against limits stand for, if the readings are normal. The limits are
 * not crossed, at least one is given, and the standard deviation is above 0.
 */
export const qualityOfSpread = (spread: ExpectedSpread): ExpectedQuality => {
  const { mean, standardDeviation, lower, upper } = spread;
  const toLower = lower === undefined ? undefined : (mean - lower) / standardDeviation;
  const toUpper = upper === undefined ? undefined : (upper - mean) / standardDeviation;
  const fraction = shareBeyond(toLower ?? Number.POSITIVE_INFINITY, toUpper ?? Number.POSITIVE_INFINITY);
  return {
    fraction: Math.max(smallestFraction, fraction),
    spread,
    ...(toLower === undefined || toUpper === undefined ? {} : { distances: { toLower, toUpper } }),
  };
};

/**
 * The distances at which a share lies beyond two limits, where the mean stays and the spread is another one: both
 * distances divided by one factor, found by bisection. The mean lies between the limits; the share is between 0 and 1.
 */
export const distancesAtShare = (
  { toLower, toUpper }: { readonly toLower: number; readonly toUpper: number },
  share: number,
): { readonly toLower: number; readonly toUpper: number } => {
  let [narrow, wide] = [-30, 30];
  for (let step = 0; step < 100; step += 1) {
    const middle = (narrow + wide) / 2;
    const factor = Math.exp(middle);
    if (shareBeyond(toLower / factor, toUpper / factor) > share) wide = middle;
    else narrow = middle;
  }
  const factor = Math.exp(narrow);
  return { toLower: toLower / factor, toUpper: toUpper / factor };
};

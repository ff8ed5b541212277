import { boxCox } from '../statistics/box-cox.ts';
import { fixed } from './number-text.ts';
import type { CharacteristicEvidence, EvidenceResult } from './result.ts';

/** The scale on which a method takes its readings for normal, with mean and standard deviation there. */
export interface Transform {
  /** Completes "... of the squeeze force". */
  readonly name: string;
  /** For values above 0. */
  readonly of: (value: number) => number;
  readonly mean: number;
  readonly standardDeviation: number;
}

/** The transform of a result's method; undefined for methods that take readings as they are, or where it could not be found. */
export const transformOf = (
  { method }: EvidenceResult,
  { values }: CharacteristicEvidence,
): Transform | undefined => {
  const value = (key: string): number | undefined => values.find((each) => each.key === key)?.value;
  const suffix = method === 'lognormal-tolerance-bound' ? 'of_logarithms' : 'transformed';
  const [mean, standardDeviation] = [value(`mean_${suffix}`), value(`standard_deviation_${suffix}`)];
  if (mean === undefined || standardDeviation === undefined) return undefined;
  if (method === 'lognormal-tolerance-bound')
    return { name: 'natural logarithm of', of: Math.log, mean, standardDeviation };
  const power = value('power');
  if (method !== 'transformed-normal-tolerance-interval' || power === undefined) return undefined;
  return {
    name: `Box-Cox transform (power ${fixed(power, 3)}) of`,
    of: (each) => boxCox(each, power),
    mean,
    standardDeviation,
  };
};

import type { AcceptanceLimits } from '../result.ts';

/** Why nothing measured can be held against limits, and what to do about it. */
export interface Fault {
  readonly reason: string;
  readonly remedy: string;
}

/** Limits without a number, or crossed; undefined where they can be used. */
export const limitFault = ({ lower, upper }: AcceptanceLimits): Fault | undefined => {
  if (lower === undefined && upper === undefined)
    return {
      reason: 'the acceptance has no limit in numbers',
      remedy: 'Give the characteristic a lower or an upper limit.',
    };
  if (lower !== undefined && upper !== undefined && lower >= upper)
    return {
      reason: `the lower limit, ${lower}, is not below the upper one, ${upper}`,
      remedy: 'Correct the limits of the acceptance.',
    };
  return undefined;
};

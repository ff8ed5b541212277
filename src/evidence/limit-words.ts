import { withUnit } from '../records/units.ts';
import { printedNumber } from '../statistics/number-notation.ts';

export interface WrittenLimit {
  readonly lower?: string | number;
  readonly upper?: string | number;
  /** The written forms, where they are known apart from the numbers. */
  readonly lowerText?: string;
  readonly upperText?: string;
  readonly unit?: string;
  readonly criterion?: string;
}

/** A limit as readers write it: `≥ 30 N`, `≤ 25 N`, `17.0 to 23.0 mm³`, or the criterion. */
export const limitWords = (limit: WrittenLimit): string => {
  const { unit = '1', criterion } = limit;
  const printed = (value: string | number | undefined): string | undefined =>
    value === undefined ? undefined : printedNumber(String(value));
  const lower = printed(limit.lowerText ?? limit.lower);
  const upper = printed(limit.upperText ?? limit.upper);
  if (lower !== undefined && upper !== undefined)
    return lower === upper ? withUnit(lower, unit) : `${lower} to ${withUnit(upper, unit)}`;
  if (lower !== undefined) return `≥ ${withUnit(lower, unit)}`;
  if (upper !== undefined) return `≤ ${withUnit(upper, unit)}`;
  return criterion ?? 'no limit';
};

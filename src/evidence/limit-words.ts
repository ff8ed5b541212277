import type { TechnicalRecord } from '../records/record.ts';
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

/** The bounds of a limit with the digits that its record gives them: 5.10 tells more than 5.1. */
export const writtenBounds = (
  { yaml }: TechnicalRecord,
  path: readonly (string | number)[],
): Pick<WrittenLimit, 'lowerText' | 'upperText'> => {
  const lowerText = yaml.written([...path, 'lower']);
  const upperText = yaml.written([...path, 'upper']);
  return {
    ...(lowerText === undefined ? {} : { lowerText }),
    ...(upperText === undefined ? {} : { upperText }),
  };
};

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

import { withUnit } from '../records/units.ts';

export interface WrittenLimit {
  readonly lower?: string | number;
  readonly upper?: string | number;
  readonly unit?: string;
  readonly criterion?: string;
}

/** A limit as readers write it: `≥ 30 N`, `≤ 25 N`, `17.0 to 23.0 mm³`, or the criterion. */
export const limitWords = ({ lower, upper, unit = '1', criterion }: WrittenLimit): string => {
  if (lower !== undefined && upper !== undefined)
    return String(lower) === String(upper) ? withUnit(lower, unit) : `${lower} to ${withUnit(upper, unit)}`;
  if (lower !== undefined) return `≥ ${withUnit(lower, unit)}`;
  if (upper !== undefined) return `≤ ${withUnit(upper, unit)}`;
  return criterion ?? 'no limit';
};

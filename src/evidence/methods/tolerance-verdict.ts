import { withUnit } from '../../records/units.ts';
import type { Sides } from '../../statistics/tolerance-factor.ts';
import { decimalsThatTell, fixed } from '../number-text.ts';
import type { AcceptanceLimits, NamedValue } from '../result.ts';
import { limitText } from './conformity.ts';
import { namedValues } from './named-values.ts';

/** Bounds that a sample gives, on the sides where the acceptance has limits. */
export interface ToleranceBounds {
  readonly lower?: number;
  readonly upper?: number;
}

/** The sides on which an acceptance has limits. */
export const sidesOf = ({ lower, upper }: AcceptanceLimits): Sides =>
  lower !== undefined && upper !== undefined ? 'both' : lower !== undefined ? 'lower' : 'upper';

/** Bounds as values of a report; `plan` is the short form of confidence and reliability. */
export const boundValues = (
  { lower, upper }: ToleranceBounds,
  plan: string,
  unit: string,
  decimals: number,
): readonly NamedValue[] => {
  const named = namedValues(unit, decimals);
  return [
    ...(lower === undefined ? [] : [named('lower_bound', `${plan} lower tolerance bound`, lower)]),
    ...(upper === undefined ? [] : [named('upper_bound', `${plan} upper tolerance bound`, upper)]),
  ];
};

/** Whether bounds keep the limits, and the sentence that says so. A limit without a bound on its side is not kept. */
export const toleranceVerdict = (
  { lower, upper }: ToleranceBounds,
  limits: AcceptanceLimits,
  plan: string,
  decimals: number,
): { readonly verdict: 'pass' | 'fail'; readonly reason: string } => {
  const digits = Math.max(
    decimalsThatTell(lower ?? 0, lower === undefined ? undefined : limits.lower, decimals),
    decimalsThatTell(upper ?? 0, upper === undefined ? undefined : limits.upper, decimals),
  );
  const show = (value: number): string => withUnit(fixed(value, digits), limits.unit);
  const bound =
    lower !== undefined && upper !== undefined
      ? `${plan} tolerance interval ${fixed(lower, digits)} to ${show(upper)}`
      : `${plan} ${lower === undefined ? 'upper' : 'lower'} tolerance bound ${show(lower ?? upper ?? Number.NaN)}`;
  const holds =
    (limits.lower === undefined || (lower ?? Number.NaN) >= limits.lower) &&
    (limits.upper === undefined || (upper ?? Number.NaN) <= limits.upper);
  return { verdict: holds ? 'pass' : 'fail', reason: `${bound}, required ${limitText(limits)}` };
};

/** What every method says that rests on a distribution chosen before the data. */
export const plannedBeforeTheData =
  'The distribution belongs in the protocol before the data are taken, from earlier data on the same characteristic or from what is known of how it fails. Of several methods tried on the same readings one always looks best, and its confidence is then no longer the stated one.';

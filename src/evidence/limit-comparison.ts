import type { DesignInputFields } from '../records/fields.ts';
import { unitConverter } from '../records/units.ts';

export type Limit = DesignInputFields['limits'][number];

export interface Bounds {
  readonly characteristic: string;
  readonly unit?: string;
  readonly lower?: number;
  readonly upper?: number;
}

export type Comparison =
  | { readonly kind: 'same or stricter' }
  | { readonly kind: 'not convertible'; readonly from: string; readonly to: string }
  /** Words say which bound and how far, in the unit of the input. */
  | {
      readonly kind: 'looser';
      readonly bound: 'lower' | 'upper';
      readonly required: number;
      readonly accepted: number | undefined;
    };

/** Characteristics are the same where their names agree but for case and blanks. */
export const sameCharacteristic = (a: string, b: string): boolean => {
  const plain = (text: string): string => text.trim().toLowerCase().replace(/\s+/g, ' ');
  return plain(a) === plain(b);
};

/** Whether an acceptance is as strict as a limit of the design input. Units are converted; a rounding error of the conversion is no difference. */
export const compareWithLimit = (acceptance: Bounds, limit: Bounds): Comparison => {
  const from = acceptance.unit ?? '1';
  const to = limit.unit ?? '1';
  const convert = unitConverter(from, to);
  if (!convert) return { kind: 'not convertible', from, to };
  const slack = (value: number): number => Math.abs(value) * 1e-12;
  const lower = acceptance.lower === undefined ? undefined : convert(acceptance.lower);
  const upper = acceptance.upper === undefined ? undefined : convert(acceptance.upper);
  if (limit.lower !== undefined && (lower === undefined || lower < limit.lower - slack(limit.lower)))
    return { kind: 'looser', bound: 'lower', required: limit.lower, accepted: lower };
  if (limit.upper !== undefined && (upper === undefined || upper > limit.upper + slack(limit.upper)))
    return { kind: 'looser', bound: 'upper', required: limit.upper, accepted: upper };
  return { kind: 'same or stricter' };
};

import { daysInMonth } from './calendar.ts';

/** GS1 identification keys and dates: check digits of GTINs, six-digit dates. */

/**
 * Check digit of a GS1 key, from all its digits but the last: weights 3 and 1 in turn from the right, then what is
 * missing to the next ten (GS1 General Specifications, section 7.9, standard check digit calculations).
 */
export const gs1CheckDigit = (digits: string): number => {
  let sum = 0;
  for (let index = 0; index < digits.length; index += 1)
    sum += Number(digits[digits.length - 1 - index]) * (index % 2 === 0 ? 3 : 1);
  return (10 - (sum % 10)) % 10;
};

export type GtinProblem =
  | { readonly kind: 'form'; readonly expected: string }
  /** Digits as written and as computed. */
  | {
      readonly kind: 'check digit';
      readonly written: number;
      readonly computed: number;
    };

/** What is wrong with a GTIN of one of the given lengths; undefined where nothing is. */
export const gtinProblem = (
  gtin: string,
  lengths: readonly number[] = [8, 12, 13, 14],
): GtinProblem | undefined => {
  if (!/^\d{1,32}$/.test(gtin) || !lengths.includes(gtin.length))
    return {
      kind: 'form',
      expected: `${lengths.join(', ')} digits`.replace(/, (\d+ digits)$/, ' or $1'),
    };
  const written = Number(gtin.at(-1));
  const computed = gs1CheckDigit(gtin.slice(0, -1));
  return written === computed ? undefined : { kind: 'check digit', written, computed };
};

/** Application identifiers whose value is a date, with what the date means. */
export const dateIdentifiers: Readonly<Record<string, string>> = {
  '11': 'date of manufacture',
  '17': 'use-by date',
};

/**
 * Whether six digits YYMMDD are a date. Day 00 stands for a month without a day, as the
 * form of the date allows; gs1-day-missing tells where medical devices may no longer have it. YY is read as 20YY; in the last
 * century the same years had a 29 February, but for 1900, which 00 never means.
 */
export const isRealShortDate = (digits: string): boolean => {
  if (!/^\d{6}$/.test(digits)) return false;
  const [year = 0, month = 0, day = 0] = [0, 2, 4].map((at) => Number(digits.slice(at, at + 2)));
  return month >= 1 && month <= 12 && day <= daysInMonth(2000 + year, month);
};

/** Six digits YYMMDD as a day: a month without a day (day 00) stands for its last day. */
export interface ShortDate {
  /** ISO date. */
  readonly day: string;
  readonly isWholeMonth: boolean;
}

/**
 * Reads YYMMDD. The century is the one that brings the year within 49 years before and 50 years after the given year
 * (GS1 General Specifications, determination of century in dates, from memory). Undefined where there is no such day.
 */
export const readShortDate = (digits: string, near: number): ShortDate | undefined => {
  if (!isRealShortDate(digits)) return undefined;
  const [short = 0, month = 0, day = 0] = [0, 2, 4].map((at) => Number(digits.slice(at, at + 2)));
  const inCentury = near - (near % 100) + short;
  const year = inCentury - near > 50 ? inCentury - 100 : near - inCentury > 49 ? inCentury + 100 : inCentury;
  const last = daysInMonth(year, month);
  if (day > last) return undefined;
  const two = (value: number): string => String(value).padStart(2, '0');
  return { day: `${year}-${two(month)}-${two(day === 0 ? last : day)}`, isWholeMonth: day === 0 };
};

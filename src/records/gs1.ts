import { daysInMonth } from './calendar.ts';

/** GS1 identification keys: check digits, and the parts of a unique device identifier in readable form. */

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

/** One element of a readable identifier: `(17)290531`. */
export interface IdentifierElement {
  readonly application: string;
  readonly value: string;
  /** Of the value, in the text. */
  readonly offset: number;
}

/** Elements of an identifier with application identifiers in parentheses, in the order of the text. */
export const identifierElements = (text: string): readonly IdentifierElement[] =>
  [...text.matchAll(/\((\d{2,4})\)([^(]{0,90})/g)].map((match) => ({
    application: match[1] ?? '',
    value: (match[2] ?? '').trim(),
    offset: match.index + (match[1] ?? '').length + 2,
  }));

/** Application identifiers whose value is a date, with what the date means. */
export const dateIdentifiers: Readonly<Record<string, string>> = {
  '11': 'date of manufacture',
  '17': 'use-by date',
};

/**
 * Whether six digits YYMMDD are a date. Day 00 stands for a month without a day. YY is read as 20YY; in the last
 * century the same years had a 29 February, but for 1900, which 00 never means.
 */
export const isRealShortDate = (digits: string): boolean => {
  if (!/^\d{6}$/.test(digits)) return false;
  const [year = 0, month = 0, day = 0] = [0, 2, 4].map((at) => Number(digits.slice(at, at + 2)));
  return month >= 1 && month <= 12 && day <= daysInMonth(2000 + year, month);
};

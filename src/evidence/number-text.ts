import { withUnit } from '../records/units.ts';
import { printedNumber } from '../statistics/number-notation.ts';

// Views do not reach into the statistics.
export { printedNumber, raisedDigits } from '../statistics/number-notation.ts';

/** Numbers as reports print them: a point, no sign between thousands, a true minus sign, powers of ten in raised digits. */
export const fixed = (value: number, decimals: number): string => {
  if (!Number.isFinite(value)) return 'not a number';
  if (value !== 0 && (Math.abs(value) >= 1e8 || Math.abs(value) < 10 ** -Math.max(decimals, 6)))
    return printedNumber(value.toExponential(2));
  const text = value.toFixed(decimals);
  // The decimals that were asked for stay: 0.00005 beside 0.00120.
  return Number(text) === 0 ? text.replace('-', '') : text.replace('-', '−');
};

/** A computed value with its unit. One above 0 that its decimals cannot show is told to be below the smallest they can: `< 0.0001`. */
export const valueText = ({
  value,
  unit,
  decimals,
}: {
  readonly value: number;
  readonly unit: string;
  readonly decimals: number;
}): string =>
  withUnit(
    value > 0 && Number(value.toFixed(decimals)) === 0
      ? `< ${(10 ** -decimals).toFixed(decimals)}`
      : fixed(value, decimals),
    unit,
  );

/** Decimals in a number as written: 2 for `19.60`, 0 for `5`. */
export const decimalsOf = (text: string): number => /[.,](\d+)/.exec(text)?.[1]?.length ?? 0;

/** A share as a percentage, for example `95 %`. */
export const percent = (share: number, decimals = 0): string => `${fixed(share * 100, decimals)} %`;

/** A confidence with all its digits, for example `97.5 %`. */
export const confidenceText = (confidence: number): string =>
  `${Number((confidence * 100).toPrecision(12))} %`;

/** A short form of confidence and reliability, for example `95/99`. */
export const confidenceReliability = (confidence: number, reliability: number): string =>
  `${Number((confidence * 100).toPrecision(12))}/${Number((reliability * 100).toPrecision(12))}`;

/** Decimals with which a value that misses a limit by little no longer looks like the limit: 29.98 is not printed as 30.0. */
export const decimalsThatTell = (value: number, limit: number | undefined, decimals: number): number => {
  let enough = decimals;
  while (
    limit !== undefined &&
    value !== limit &&
    enough < decimals + 6 &&
    fixed(value, enough) === fixed(limit, enough)
  )
    enough += 1;
  return enough;
};

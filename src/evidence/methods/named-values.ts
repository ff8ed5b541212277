import type { NamedValue } from '../result.ts';

/** Makes named values in the unit and with the decimals of the readings, unless told otherwise. */
export const namedValues =
  (unit: string, decimals: number) =>
  (
    key: string,
    label: string,
    value: number,
    own: { decimals?: number; unit?: string } = {},
  ): NamedValue => ({
    key,
    label,
    value,
    unit: own.unit ?? unit,
    decimals: own.decimals ?? decimals,
  });

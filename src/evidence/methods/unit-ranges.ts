import { byUnit, type UnitGroup, type UnitReading } from '../readings.ts';
import type { Beyond } from '../result.ts';
import { extremesOf } from './extremes.ts';
import type { PerUnit } from './method.ts';

/** What is known of the value of one unit: it lies from `low` to `high`, which are equal where it was measured. */
export interface UnitRange {
  readonly low: number;
  /** Infinity where the unit was beyond the range of the instrument. */
  readonly high: number;
}

/** One range for each unit, in the order of the file; or why there is none. */
export type UnitRanges =
  | { readonly ok: true; readonly groups: readonly UnitGroup[]; readonly ranges: readonly UnitRange[] }
  | {
      readonly ok: false;
      readonly groups: readonly UnitGroup[];
      readonly reason: string;
      readonly remedy: string;
    };

/**
 * The values of units for methods that can use readings beyond the range: `>60` is at least 60, `<1.0` at most 1.0. Words are
 * no values, and several readings of a unit become one only as the protocol says.
 */
export const unitRanges = (list: readonly UnitReading[], perUnit: PerUnit | undefined): UnitRanges => {
  const groups = byUnit(list);
  if (list.some((reading) => reading.word))
    return {
      ok: false,
      groups,
      reason: 'the readings are words, not numbers',
      remedy: 'Use an attribute method for pass and fail readings.',
    };
  if (!perUnit && groups.some((group) => group.readings.length > 1))
    return {
      ok: false,
      groups,
      reason: 'some units have several readings',
      remedy:
        'Say under acceptance, with per_unit, whether the maximum, minimum or mean of a unit counts: readings of one unit are not independent.',
    };
  return {
    ok: true,
    groups,
    ranges: groups.map(({ readings }) => ({
      low: oneOf(readings.map(lowest), perUnit),
      high: oneOf(readings.map(highest), perUnit),
    })),
  };
};

/** For figures and counts: the value of each unit, or the end of the range that it reached. */
export const shownValues = (ranges: readonly UnitRange[]): readonly number[] =>
  ranges.map(({ low, high }) => (Number.isFinite(low) ? low : high));

/** For each unit, on which side of the shown value it lies where it was not measured; nothing where all were. */
export const beyondRange = (
  ranges: readonly UnitRange[],
): { readonly beyond?: readonly (Beyond | undefined)[] } =>
  ranges.every(({ low, high }) => low === high)
    ? {}
    : {
        beyond: ranges.map(({ low, high }) =>
          low === high ? undefined : Number.isFinite(low) ? 'above' : 'below',
        ),
      };

const lowest = ({ value = Number.NaN, bound }: UnitReading): number =>
  bound === 'below' ? Number.NEGATIVE_INFINITY : value;

const highest = ({ value = Number.NaN, bound }: UnitReading): number =>
  bound === 'above' ? Number.POSITIVE_INFINITY : value;

const oneOf = (values: readonly number[], perUnit: PerUnit | undefined): number => {
  if (values.length === 1) return values[0] ?? Number.NaN;
  const extremes = extremesOf(values);
  if (perUnit === 'maximum') return extremes?.largest ?? Number.NaN;
  if (perUnit === 'minimum') return extremes?.smallest ?? Number.NaN;
  return values.reduce((sum, value) => sum + value, 0) / values.length;
};

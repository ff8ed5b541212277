import { byUnit, type UnitGroup, type UnitReading } from '../readings.ts';
import type { CharacteristicEvidence } from '../result.ts';
import { extremesOf } from './extremes.ts';
import type { PerUnit } from './method.ts';

/** One number for each unit, in the order of the file; or why there is none. */
export type UnitValues =
  | {
      readonly ok: true;
      readonly groups: readonly UnitGroup[];
      readonly values: readonly number[];
    }
  | {
      readonly ok: false;
      readonly groups: readonly UnitGroup[];
      readonly reason: string;
      readonly remedy: string;
    };

/**
 * The numbers that a method for measured values can use. Words and readings beyond the range are none, and several
 * readings of a unit become one only as the protocol says.
 */
export const valuesByUnit = (list: readonly UnitReading[], perUnit: PerUnit | undefined): UnitValues => {
  const groups = byUnit(list);
  const none = (reason: string, remedy: string): UnitValues => ({ ok: false, groups, reason, remedy });
  if (list.some((reading) => reading.word))
    return none('the readings are words, not numbers', 'Use an attribute method for pass and fail readings.');
  if (list.some((reading) => reading.bound))
    return none(
      'some readings are beyond the range of the instrument',
      'Plan a method that can use them: nonparametric-tolerance-interval, weibull-lower-bound for strengths, or an attribute plan.',
    );
  if (!perUnit && groups.some((group) => group.readings.length > 1))
    return none(
      'some units have several readings',
      'Say under acceptance, with per_unit, whether the maximum, minimum or mean of a unit counts: readings of one unit are not independent.',
    );
  return { ok: true, groups, values: groups.map((group) => oneValue(group, perUnit)) };
};

const oneValue = (group: UnitGroup, perUnit: PerUnit | undefined): number => {
  const values = group.readings.map((reading) => reading.value ?? Number.NaN);
  if (values.length === 1) return values[0] ?? Number.NaN;
  if (perUnit === 'maximum') return extremesOf(values)?.largest ?? Number.NaN;
  if (perUnit === 'minimum') return extremesOf(values)?.smallest ?? Number.NaN;
  if (perUnit === 'mean') return values.reduce((sum, value) => sum + value, 0) / values.length;
  return Number.NaN;
};

/** An undecided result: nothing computed so far, unless `more` says so. */
export const undecidedOn = (
  base: Pick<CharacteristicEvidence, 'limits' | 'sampleSize' | 'readings'>,
  reason: string,
  remedy: string,
  more: Partial<CharacteristicEvidence> = {},
): CharacteristicEvidence => ({
  ...base,
  verdict: 'undecided',
  reason,
  remedy,
  values: [],
  assumptions: [],
  ...more,
});

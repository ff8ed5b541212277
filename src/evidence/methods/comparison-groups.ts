import type { UnitReading } from '../readings.ts';
import type { Fault } from './limit-fault.ts';
import type { PerUnit, Sampling } from './method.ts';
import { type UnitValues, valuesByUnit } from './values-by-unit.ts';

/** One group of a comparison: one value for each unit. */
export type ComparedGroup = Extract<UnitValues, { readonly ok: true }>;

/** The two groups of a comparison; or what keeps them from being compared. */
export const comparisonGroups = (
  list: readonly UnitReading[],
  { from, to, paired = false }: NonNullable<Sampling['compare']>,
  perUnit: PerUnit | undefined,
): Fault | { readonly first: ComparedGroup; readonly second: ComparedGroup } => {
  const misplaced = groupFault(list, from, to);
  if (misplaced) return misplaced;
  const taken = (name: string): UnitValues =>
    valuesByUnit(
      list.filter((reading) => reading.group === name),
      perUnit,
    );
  const first = taken(from);
  if (!first.ok) return first;
  const second = taken(to);
  if (!second.ok) return second;
  return (paired ? pairFault : overlapFault)(first, second, from, to) ?? { first, second };
};

/** Values of the units of two groups that hold the same units, in the order of the first. */
export const pairsOf = (first: ComparedGroup, second: ComparedGroup) => {
  const later = new Map(second.groups.map(({ unit }, i) => [unit, second.values[i] ?? Number.NaN]));
  return first.groups.map(({ unit }, i) => ({
    first: first.values[i] ?? Number.NaN,
    second: later.get(unit) ?? Number.NaN,
  }));
};

const groupFault = (list: readonly UnitReading[], from: string, to: string): Fault | undefined => {
  if (from === to)
    return {
      reason: `the plan compares "${from}" with itself`,
      remedy: 'Name two groups under sampling.compare.',
    };
  if (list.some((reading) => reading.group === undefined))
    return { reason: 'the record names no column for the groups', remedy: 'Name it under data.group.' };
  const unplaced = list.find((reading) => reading.group === '');
  if (unplaced) return { reason: `${unplaced.unit} is in no group`, remedy: 'Enter the group of every row.' };
  const stranger = list.find((reading) => reading.group !== from && reading.group !== to);
  return stranger
    ? {
        reason: `${stranger.unit} is in the group "${stranger.group}", and the plan compares only "${from}" and "${to}"`,
        remedy: 'Correct the group, or exclude the unit with a reason and a deviation.',
      }
    : undefined;
};

type GroupFault = (
  first: ComparedGroup,
  second: ComparedGroup,
  from: string,
  to: string,
) => Fault | undefined;

const unitsOf = ({ groups }: ComparedGroup): ReadonlySet<string> => new Set(groups.map(({ unit }) => unit));

const pairFault: GroupFault = (first, second, from, to) => {
  const [inFirst, inSecond] = [unitsOf(first), unitsOf(second)];
  const single =
    [...inFirst].find((unit) => !inSecond.has(unit)) ?? [...inSecond].find((unit) => !inFirst.has(unit));
  return single === undefined
    ? undefined
    : {
        reason: `${single} is only in the group "${inFirst.has(single) ? from : to}", so it makes no pair`,
        remedy: 'Enter both readings, or exclude the unit with a reason and a deviation.',
      };
};

const overlapFault: GroupFault = (first, second) => {
  const inSecond = unitsOf(second);
  const twice = [...unitsOf(first)].find((unit) => inSecond.has(unit));
  return twice === undefined
    ? undefined
    : {
        reason: `${twice} is in both groups, and the plan says that they are different units`,
        remedy: 'Plan "paired: true" where units are measured twice; else give each unit a name of its own.',
      };
};

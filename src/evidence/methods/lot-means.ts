import { fixed } from '../number-text.ts';
import type { UnitGroup } from '../readings.ts';
import type { Assumption } from '../result.ts';

/** The means of the lots side by side, where there are two lots or more; an observation that decides nothing. */
export const lotMeans = (
  groups: readonly UnitGroup[],
  values: readonly number[],
  decimals: number,
): readonly Assumption[] => {
  const lots = valuesByLot(groups, values);
  if (lots.size < 2) return [];
  const means = [...lots].map(
    ([lot, own]) =>
      `${lot} ${fixed(own.reduce((sum, value) => sum + value, 0) / own.length, decimals)} (n ${own.length})`,
  );
  return [{ name: 'lots alike', outcome: 'not tested', detail: `means by lot: ${means.join(', ')}` }];
};

/** Values by named lot, in the order of the file. Units without a lot are left out. */
export const valuesByLot = (
  groups: readonly UnitGroup[],
  values: readonly number[],
): ReadonlyMap<string, readonly number[]> => {
  const lots = new Map<string, number[]>();
  for (const [index, { lot }] of groups.entries()) {
    const value = values[index];
    if (!lot || value === undefined) continue;
    const own = lots.get(lot);
    if (own) own.push(value);
    else lots.set(lot, [value]);
  }
  return lots;
};

import { oneWayAnalysisOfVariance } from '../../statistics/one-way-analysis-of-variance.ts';
import { fixed } from '../number-text.ts';
import type { UnitGroup } from '../readings.ts';
import type { Assumption } from '../result.ts';

/** Below this p the means of the lots are told to differ. */
const level = 0.05;

/** What an analysis of variance between the lots says; undefined where a lot has one value or none varies. */
const difference = (lots: ReadonlyMap<string, readonly number[]>): number | undefined => {
  const all = [...lots.values()];
  if (all.some((lot) => lot.length < 2)) return undefined;
  const found = oneWayAnalysisOfVariance(all);
  return found.ok ? found.value.pValue : undefined;
};

/**
 * The means of the lots side by side, where there are two lots or more. Where they differ by more than chance explains
 * the bounds say less than their confidence: lots vary as well as units, and few lots tell little of that. It is put
 * before people and decides nothing.
 */
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
  const pValue = difference(lots);
  const words =
    pValue === undefined
      ? ''
      : `; analysis of variance p ${pValue < 0.001 ? 'below 0.001' : fixed(pValue, 3)}`;
  return [
    {
      name: 'lots alike',
      outcome: pValue === undefined ? 'not tested' : pValue < level ? 'to explain' : 'met',
      detail: `means by lot: ${means.join(', ')}${words}`,
    },
  ];
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

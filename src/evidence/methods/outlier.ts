import { grubbsTest } from '../../statistics/grubbs.ts';
import { fixed } from '../number-text.ts';
import type { UnitGroup } from '../readings.ts';
import type { Assumption } from '../result.ts';

/** Level of the test; one of twenty samples without an outlier is told to have one. */
const level = 0.05;

/**
 * Whether one value lies farther from the others than chance explains (Grubbs). It is put before people and decides
 * nothing: no reading is ever left out because of it.
 */
export const outlier = (
  groups: readonly UnitGroup[],
  values: readonly number[],
  decimals: number,
  of = '',
): readonly Assumption[] => {
  const test = grubbsTest(values, { significance: level });
  if (!test.ok) return [];
  const { statistic, criticalValue, suspectIndex, suspectValue, significant } = test.value;
  return [
    {
      name: 'no outlier',
      outcome: significant ? 'to explain' : 'met',
      detail: `farthest from the mean ${groups[suspectIndex]?.unit ?? 'one unit'}${of} ${fixed(suspectValue, decimals)}: Grubbs G ${fixed(statistic, 3)}, ${significant ? 'above' : 'not above'} ${fixed(criticalValue, 3)}; no reading is removed by itself`,
    },
  ];
};

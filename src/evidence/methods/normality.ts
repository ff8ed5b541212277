import { andersonDarlingTest } from '../../statistics/anderson-darling.ts';
import { shapiroWilkTest } from '../../statistics/shapiro-wilk.ts';
import { fixed } from '../number-text.ts';
import type { Assumption } from '../result.ts';

/** Below this p the readings are taken not to be normal (common practice, no source). */
export const normalityLevel = 0.05;

/** Whether values can come from a normal distribution: Anderson-Darling from 8 values on, Shapiro-Wilk below. */
export const testNormality = (
  values: readonly number[],
  name: string = 'normal distribution',
): Assumption => {
  const enough = values.length >= 8;
  const test = enough ? andersonDarlingTest(values) : shapiroWilkTest(values);
  if (!test.ok) return { name, outcome: 'not tested', detail: test.reason };
  const label = enough ? 'Anderson-Darling' : 'Shapiro-Wilk';
  const symbol = enough ? 'A²' : 'W';
  const { pValue, statistic } = test.value;
  return {
    name,
    outcome: pValue >= normalityLevel ? 'met' : 'not met',
    detail: `${label} ${symbol} ${fixed(statistic, 3)}, p ${pValue < 0.001 ? 'below 0.001' : fixed(pValue, 3)}`,
  };
};

import { andersonDarlingTest, fewestValuesForNormality } from '../../statistics/anderson-darling.ts';
import { shapiroWilkTest } from '../../statistics/shapiro-wilk.ts';
import { fixed } from '../number-text.ts';
import type { Assumption } from '../result.ts';

/** Below this p the readings are taken not to be normal (common practice, no source). */
export const normalityLevel = 0.05;

/**
 * Whether values can come from a normal distribution: Anderson-Darling from 8 values on. Below, Shapiro-Wilk can still
 * say that they do not; that it finds nothing says nothing, so the assumption then stays untested.
 */
export const testNormality = (
  values: readonly number[],
  name: string = 'normal distribution',
): Assumption => {
  const enough = values.length >= fewestValuesForNormality;
  const test = enough ? andersonDarlingTest(values) : shapiroWilkTest(values);
  if (!test.ok) return { name, outcome: 'not tested', detail: test.reason };
  const label = enough ? 'Anderson-Darling' : 'Shapiro-Wilk';
  const symbol = enough ? 'A²' : 'W';
  const { pValue, statistic } = test.value;
  const detail = `${label} ${symbol} ${fixed(statistic, 3)}, p ${pValue < 0.001 ? 'below 0.001' : fixed(pValue, 3)}`;
  if (pValue < normalityLevel) return { name, outcome: 'not met', detail };
  return enough
    ? { name, outcome: 'met', detail }
    : {
        name,
        outcome: 'not tested',
        detail: `${values.length} readings are too few, it takes ${fewestValuesForNormality}; ${detail}`,
      };
};

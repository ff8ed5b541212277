import type { GaugeReading } from '../../statistics/gauge-components.ts';
import { helmertContrasts } from '../../statistics/helmert-contrasts.ts';
import { testNormality } from '../methods/normality.ts';
import type { Assumption } from '../result.ts';

/**
 * Whether repeated readings of one part by one operator spread as a normal distribution. It is told and decides nothing:
 * the estimates of a gauge study need no distribution, their limits do.
 */
export const repeatNormality = (readings: readonly GaugeReading[]): Assumption => {
  const cells = new Map<string, number[]>();
  for (const { part, operator, value } of readings) {
    const key = JSON.stringify([part, operator]);
    const cell = cells.get(key);
    if (cell) cell.push(value);
    else cells.set(key, [value]);
  }
  const tested = testNormality(
    helmertContrasts([...cells.values()]),
    'normal distribution of repeated readings',
  );
  return tested.outcome === 'not met'
    ? {
        ...tested,
        outcome: 'to explain',
        detail: `${tested.detail}: look for rounding, a slip or two kinds of reading; the limits of the components rest on it`,
      }
    : tested;
};

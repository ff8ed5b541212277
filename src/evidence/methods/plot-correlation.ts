import { normalPlotCorrelation } from '../../statistics/probability-plot-correlation.ts';
import type { NamedValue } from '../result.ts';

/** The correlation of the normal probability plot of values, for a report; nothing where there is none. */
export const plotCorrelationValue = (values: readonly number[], what: string): readonly NamedValue[] => {
  const correlation = normalPlotCorrelation(values);
  if (!correlation.ok) return [];
  return [
    {
      key: 'plot_correlation',
      label: `correlation of the normal probability plot of ${what}`,
      value: correlation.value,
      unit: '1',
      decimals: 4,
    },
  ];
};

import {
  type ControlChartSignal,
  individualsChart,
  nelsonRules,
} from '../../statistics/control-chart-rules.ts';
import type { UnitGroup } from '../readings.ts';
import type { Assumption } from '../result.ts';

/** The tests that Nelson advises for routine use: beyond the limits, runs, trends, alternation. */
const rules = nelsonRules.slice(0, 4);

/** With fewer values a chart says next to nothing (common practice, no source). */
const fewest = 8;

/** More stretches of one rule than this are counted, not listed. */
const listed = 3;

/**
 * What run rules say of the values, one for each unit, in the order of the raw data: a reported observation that never decides. Chance alone
 * gives a signal in about one of six sequences of 30 values. Nothing for fewer than 8 values or where all are equal.
 */
export const runOrder = (values: readonly number[], groups: readonly UnitGroup[]): readonly Assumption[] => {
  const name = 'order of the run';
  if (values.length < fewest) return [];
  const chart = individualsChart(values, rules);
  if (!chart.ok) return [];
  const { signals } = chart.value;
  if (signals.length === 0)
    return [{ name, outcome: 'met', detail: 'no signal in the order of the raw data (Nelson 1 to 4)' }];
  const nameOf = (place: number): string => groups[place]?.unit ?? '';
  const stretch = ({ from, to }: ControlChartSignal): string =>
    from === to ? nameOf(from) : `${nameOf(from)} to ${nameOf(to)}`;
  const found = rules.flatMap((rule) => {
    const own = signals.filter((signal) => signal.rule === rule);
    const more = own.length > listed ? ` and ${own.length - listed} more` : '';
    return own.length === 0 ? [] : [`${rule.title}: ${own.slice(0, listed).map(stretch).join(', ')}${more}`];
  });
  return [
    {
      name,
      outcome: 'to explain',
      detail: `${found.join('; ')} (Nelson 1 to 4, in the order of the raw data; it decides nothing)`,
    },
  ];
};

/** What explanation pages say of it. */
export const runOrderExplanation =
  'Run rules look at the values in the order of the raw data (Nelson, Journal of Quality Technology 16, 1984, tests 1 to 4: a value beyond three standard deviations, nine in a row on one side of the mean, six rising or falling, fourteen up and down; limits from the moving range). A signal is reported among the assumptions and decides nothing: chance alone gives one in about a sixth of all sequences of 30 units. It means something only where the rows stand in the order of manufacture or measurement.';

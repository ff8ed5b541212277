/**
 * Crossed gauge study by averages and ranges (AIAG, Measurement Systems Analysis, 4th edition, average and range
 * method; from memory): the older method by hand. It cannot see an interaction of operator and part; the analysis of
 * variance (gauge-study.ts) can.
 */
import { requirePositive } from './argument-checks.ts';
import { d2, d3 } from './control-chart-constants.ts';
import { crossedReadings } from './crossed-readings.ts';
import { type Computed, computed, dataProblem, findDataProblem } from './data-problem.ts';
import { arithmeticMean } from './descriptive.ts';
import {
  type ComponentScale,
  distinctCategories,
  type GaugeComponent,
  type GaugeReading,
  gaugeComponent,
} from './gauge-components.ts';

export interface AverageAndRangeGaugeStudy {
  readonly parts: number;
  readonly operators: number;
  readonly repeats: number;
  /** Mean of the ranges of the repeats over all operators and parts. */
  readonly averageRange: number;
  /** Largest minus smallest mean of an operator. */
  readonly rangeOfOperatorMeans: number;
  /** Largest minus smallest mean of a part. */
  readonly rangeOfPartMeans: number;
  /** Factors from range to standard deviation. */
  readonly factors: { readonly repeats: number; readonly operators: number; readonly parts: number };
  readonly components: {
    readonly repeatability: GaugeComponent;
    readonly reproducibility: GaugeComponent;
    readonly gauge: GaugeComponent;
    readonly part: GaugeComponent;
    readonly total: GaugeComponent;
  };
  readonly distinctCategories: number;
}

/**
 * Evaluates a balanced crossed study; needs what `gaugeStudy` needs. The factors are computed: 1 / d2 for the many
 * ranges of repeats, 1 / d2* with d2* squared = d2 squared + d3 squared for the single range of operator means and of
 * part means. They are then rounded to the four decimals of the table that the method prescribes, so that a report
 * worked out by hand agrees. Throws a RangeError on options out of range.
 *
 * Source: AIAG, Measurement Systems Analysis, 4th edition, average and range method (from memory); d2* of Duncan,
 * Quality Control and Industrial Statistics, table D3 (from memory).
 */
export function averageAndRangeGaugeStudy(
  readings: readonly GaugeReading[],
  { tolerance, studyWidth = 6 }: { readonly tolerance?: number; readonly studyWidth?: number } = {},
): Computed<AverageAndRangeGaugeStudy> {
  requirePositive('studyWidth', studyWidth);
  if (tolerance !== undefined) requirePositive('tolerance', tolerance);
  const problem = findDataProblem(
    readings.map((reading) => reading.value),
    { minimum: 8, spread: true },
  );
  if (problem) return problem;
  const crossing = crossedReadings(readings);
  if ('problem' in crossing) return crossing;
  const { cells, parts, operators, repeats } = crossing;

  const averageRange = arithmeticMean(cells.flatMap((row) => row.map(rangeOf)));
  if (averageRange === 0)
    return dataProblem('no-spread', 'all repeats of each part are the same, so the gauge shows no spread');
  const operatorMeans = cells[0]!.map((_, o) => arithmeticMean(cells.flatMap((row) => row[o]!)));
  const rangeOfOperatorMeans = rangeOf(operatorMeans);
  const rangeOfPartMeans = rangeOf(cells.map((row) => arithmeticMean(row.flat())));
  const factors = {
    repeats: asTabled(1 / d2(repeats)),
    operators: asTabled(1 / Math.hypot(d2(operators), d3(operators))),
    parts: asTabled(1 / Math.hypot(d2(parts), d3(parts))),
  };

  const repeatability = (averageRange * factors.repeats) ** 2;
  // The means of operators scatter by repeatability too, which is taken off.
  const reproducibility = Math.max(
    0,
    (rangeOfOperatorMeans * factors.operators) ** 2 - repeatability / (parts * repeats),
  );
  const gauge = repeatability + reproducibility;
  const part = (rangeOfPartMeans * factors.parts) ** 2;
  const total = gauge + part;
  const scale: ComponentScale = { total, studyWidth, ...(tolerance !== undefined && { tolerance }) };
  return computed({
    parts,
    operators,
    repeats,
    averageRange,
    rangeOfOperatorMeans,
    rangeOfPartMeans,
    factors,
    components: {
      repeatability: gaugeComponent(repeatability, scale),
      reproducibility: gaugeComponent(reproducibility, scale),
      gauge: gaugeComponent(gauge, scale),
      part: gaugeComponent(part, scale),
      total: gaugeComponent(total, scale),
    },
    distinctCategories: distinctCategories(part, gauge),
  });
}

const asTabled = (factor: number): number => Math.round(factor * 1e4) / 1e4;

const rangeOf = (values: readonly number[]): number =>
  values.reduce((largest, value) => Math.max(largest, value)) -
  values.reduce((smallest, value) => Math.min(smallest, value));

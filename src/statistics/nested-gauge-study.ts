/**
 * Nested gauge study by analysis of variance, for tests that use up the unit: each operator gets parts (batches) of
 * their own, and each repeat is another piece of the same part. Model with random operators, parts within operators and
 * error (Montgomery, Design and Analysis of Experiments, two-stage nested design; Burdick, Borror and Montgomery, Design
 * and Analysis of Gauge R&R Studies (2005), chapter 7; the chapter from memory).
 */
import { requireOpenProbability, requirePositive } from './argument-checks.ts';
import { mostUsual, times } from './crossed-readings.ts';
import { type Computed, computed, type DataProblem, dataProblem, findDataProblem } from './data-problem.ts';
import { arithmeticMean, compensatedSum } from './descriptive.ts';
import { fUpperTail } from './distributions.ts';
import {
  type ComponentScale,
  distinctCategories,
  type GaugeComponent,
  type GaugeReading,
  gaugeComponent,
} from './gauge-components.ts';
import { type VarianceLine, varianceLine } from './one-way-analysis-of-variance.ts';
import { varianceInterval } from './variance-interval.ts';

export interface NestedGaugeStudyOptions {
  /** Upper minus lower limit of the characteristic, in the unit of the values; needed for per cent of tolerance. */
  readonly tolerance?: number;
  /** Standard deviations that count as the whole width: 6 unless given (5.15 in older practice). */
  readonly studyWidth?: number;
  /** Of the limits around each component; 0.95 unless given. */
  readonly confidence?: number;
}

export interface NestedGaugeStudy {
  readonly operators: number;
  readonly partsPerOperator: number;
  readonly repeats: number;
  readonly analysis: {
    readonly operator: VarianceLine;
    readonly part: VarianceLine;
    readonly repeatability: VarianceLine;
  };
  /** Operator tested against parts, part against repeatability. */
  readonly fRatios: { readonly operator: number; readonly part: number };
  readonly pValues: { readonly operator: number; readonly part: number };
  readonly components: {
    /** Repeats of the measurement together with the pieces of a part, which cannot be told apart. */
    readonly repeatability: GaugeComponent;
    readonly reproducibility: GaugeComponent;
    readonly gauge: GaugeComponent;
    readonly part: GaugeComponent;
    readonly total: GaugeComponent;
  };
  /** Components whose estimate came out negative and was set to 0. */
  readonly setToZero: readonly ('operator' | 'part')[];
  /** Absent when the gauge shows no variation. */
  readonly distinctCategories?: number;
}

/**
 * Evaluates a nested study. Needs two operators, each with the same number of parts (at least two) of their own, two
 * repeats of every part, finite values and spread within the parts. Throws a RangeError on options out of range.
 *
 * Source: Montgomery, Design and Analysis of Experiments, two-stage nested design; Burdick, Borror and Montgomery,
 * Design and Analysis of Gauge R&R Studies (2005), chapter 7 (the chapter from memory).
 */
export function nestedGaugeStudy(
  readings: readonly GaugeReading[],
  { tolerance, studyWidth = 6, confidence = 0.95 }: NestedGaugeStudyOptions = {},
): Computed<NestedGaugeStudy> {
  requirePositive('studyWidth', studyWidth);
  requireOpenProbability('confidence', confidence);
  if (tolerance !== undefined) requirePositive('tolerance', tolerance);
  const problem = findDataProblem(
    readings.map((reading) => reading.value),
    { minimum: 8, spread: true },
  );
  if (problem) return problem;
  const nesting = nestedReadings(readings);
  if ('problem' in nesting) return nesting;
  const { cells } = nesting;
  const operators = cells.length;
  const parts = cells[0]!.length;
  const repeats = cells[0]![0]!.length;

  const analysis = analyse(cells);
  if (analysis.repeatability.sumOfSquares === 0)
    return dataProblem('no-spread', 'all repeats of each part are the same, so the gauge shows no spread');
  const { operator: so, part: sp, repeatability: se } = analysis;
  const estimates = {
    operator: (so.meanSquare - sp.meanSquare) / (parts * repeats),
    part: (sp.meanSquare - se.meanSquare) / repeats,
  };
  const operator = Math.max(estimates.operator, 0);
  const part = Math.max(estimates.part, 0);
  const gauge = operator + se.meanSquare;
  const total = gauge + part;
  const scale: ComponentScale = { total, studyWidth, ...(tolerance !== undefined && { tolerance }) };
  const component = (variance: number, forOperator: number, forPart: number, forError: number) =>
    gaugeComponent(
      variance,
      scale,
      varianceInterval(
        [
          { weight: forOperator, line: so },
          { weight: forPart, line: sp },
          { weight: forError, line: se },
        ],
        confidence,
      ),
    );
  const perOperator = 1 / (parts * repeats);
  return computed({
    operators,
    partsPerOperator: parts,
    repeats,
    analysis,
    fRatios: {
      operator: so.meanSquare / sp.meanSquare,
      part: sp.meanSquare / se.meanSquare,
    },
    pValues: { operator: pValue(so, sp), part: pValue(sp, se) },
    components: {
      repeatability: component(se.meanSquare, 0, 0, 1),
      reproducibility: component(operator, perOperator, -perOperator, 0),
      gauge: component(gauge, perOperator, -perOperator, 1),
      part: component(part, 0, 1 / repeats, -1 / repeats),
      total: component(total, perOperator, 1 / repeats - perOperator, 1 - 1 / repeats),
    },
    setToZero: (['operator', 'part'] as const).filter((name) => estimates[name] < 0),
    distinctCategories: distinctCategories(part, gauge),
  });
}

/** By operator, then part: the repeats. */
type Cells = readonly (readonly (readonly number[])[])[];

function nestedReadings(readings: readonly GaugeReading[]): { readonly cells: Cells } | DataProblem {
  const byOperator = new Map<string, Map<string, number[]>>();
  const operatorOf = new Map<string, string>();
  for (const { part, operator, value } of readings) {
    const owner = operatorOf.get(part);
    if (owner !== undefined && owner !== operator)
      return dataProblem(
        'unbalanced',
        `operators ${owner} and ${operator} both measured part ${part}; in a nested study each operator has parts of their own`,
      );
    operatorOf.set(part, operator);
    const own = byOperator.get(operator) ?? new Map<string, number[]>();
    byOperator.set(operator, own);
    own.set(part, [...(own.get(part) ?? []), value]);
  }
  if (byOperator.size < 2) return dataProblem('too-few-values', '1 operator, at least 2 needed');
  const repeats = mostUsual(
    [...byOperator.values()].flatMap((parts) => [...parts.values()].map((each) => each.length)),
  );
  const partsEach = mostUsual([...byOperator.values()].map((parts) => parts.size));
  for (const [operator, parts] of byOperator) {
    if (parts.size !== partsEach)
      return dataProblem(
        'unbalanced',
        `operator ${operator} has ${parts.size} part${parts.size === 1 ? '' : 's'}, not ${partsEach} as most`,
      );
    for (const [part, values] of parts)
      if (values.length !== repeats)
        return dataProblem(
          'unbalanced',
          `part ${part} of operator ${operator} was measured ${times(values.length)}, not ${times(repeats)} as most`,
        );
  }
  if (partsEach < 2) return dataProblem('too-few-values', '1 part for each operator, at least 2 needed');
  if (repeats < 2) return dataProblem('too-few-values', '1 repeat per part, at least 2 needed');
  return { cells: [...byOperator.values()].map((parts) => [...parts.values()]) };
}

/** Sums of squares as sums of squared effects, never as differences of sums: nothing cancels. */
function analyse(cells: Cells): NestedGaugeStudy['analysis'] {
  const grand = arithmeticMean(cells.flat(2));
  const centred = cells.map((row) => row.map((cell) => cell.map((value) => value - grand)));
  const partMeans = centred.map((row) => row.map((cell) => arithmeticMean(cell)));
  const operatorMeans = partMeans.map((row) => arithmeticMean(row));
  const operators = cells.length;
  const parts = cells[0]!.length;
  const repeats = cells[0]![0]!.length;
  const squares = (terms: readonly number[]) => compensatedSum(terms.map((term) => term * term));
  return {
    operator: varianceLine(parts * repeats * squares(operatorMeans), operators - 1),
    part: varianceLine(
      repeats * squares(partMeans.flatMap((row, o) => row.map((mean) => mean - operatorMeans[o]!))),
      operators * (parts - 1),
    ),
    repeatability: varianceLine(
      squares(
        centred.flatMap((row, o) => row.flatMap((cell, p) => cell.map((value) => value - partMeans[o]![p]!))),
      ),
      operators * parts * (repeats - 1),
    ),
  };
}

/** Against an error of exactly 0, any effect is certain and no effect is none. */
function pValue(effect: VarianceLine, error: VarianceLine): number {
  if (effect.meanSquare === 0) return 1;
  if (error.meanSquare === 0) return 0;
  return fUpperTail(effect.meanSquare / error.meanSquare, effect.degreesOfFreedom, error.degreesOfFreedom);
}

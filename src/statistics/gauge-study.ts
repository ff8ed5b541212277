/**
 * Crossed gauge repeatability and reproducibility study by analysis of variance: every operator measures every part
 * the same number of times (AIAG, Measurement Systems Analysis, 4th edition, ANOVA method).
 */
import { requirePositive, requireProbability } from './argument-checks.ts';
import { type Computed, computed, type DataProblem, dataProblem, findDataProblem } from './data-problem.ts';
import { arithmeticMean, compensatedSum } from './descriptive.ts';
import { fUpperTail } from './distributions.ts';
import { type VarianceLine, varianceLine } from './one-way-analysis-of-variance.ts';

export interface GaugeReading {
  readonly part: string;
  readonly operator: string;
  readonly value: number;
}

export interface GaugeStudyOptions {
  /** Upper minus lower limit of the characteristic, in the unit of the values; needed for per cent of tolerance. */
  readonly tolerance?: number;
  /** Pool the interaction into repeatability when its p value is above this; 0.25 unless given, 1 never pools. */
  readonly poolInteractionAbove?: number;
  /** Standard deviations that count as the whole width: 6 unless given (5.15 in older practice). */
  readonly studyWidth?: number;
}

interface GaugeComponent {
  readonly variance: number;
  readonly standardDeviation: number;
  /** Variance in per cent of the total variance. */
  readonly percentContribution: number;
  /** Standard deviation in per cent of the total standard deviation. */
  readonly percentStudyVariation: number;
  /** Study width times standard deviation in per cent of the tolerance; only where a tolerance was given. */
  readonly percentTolerance?: number;
}

export interface GaugeStudy {
  readonly parts: number;
  readonly operators: number;
  readonly repeats: number;
  readonly analysis: {
    readonly part: VarianceLine;
    readonly operator: VarianceLine;
    readonly interaction: VarianceLine;
    readonly repeatability: VarianceLine;
    /** Interaction and repeatability together. */
    readonly pooled: VarianceLine;
  };
  /** p values; part and operator are tested against what the pooling decision says. */
  readonly pValues: { readonly part: number; readonly operator: number; readonly interaction: number };
  readonly fRatios: { readonly part: number; readonly operator: number; readonly interaction: number };
  readonly interactionPooled: boolean;
  readonly components: {
    readonly repeatability: GaugeComponent;
    readonly operator: GaugeComponent;
    readonly interaction: GaugeComponent;
    /** Operator and interaction. */
    readonly reproducibility: GaugeComponent;
    /** Repeatability and reproducibility: the measurement system. */
    readonly gauge: GaugeComponent;
    readonly part: GaugeComponent;
    readonly total: GaugeComponent;
  };
  /** Components whose estimate came out negative and was set to 0. */
  readonly setToZero: readonly ('operator' | 'interaction' | 'part')[];
  /** floor(sqrt 2 x part / gauge standard deviation); absent when the gauge shows no variation. */
  readonly distinctCategories?: number;
}

/**
 * Evaluates a crossed study. Needs two parts, two operators, two repeats in every cell, finite values and some
 * variation. Throws a RangeError on options out of range.
 */
export function gaugeStudy(
  readings: readonly GaugeReading[],
  { tolerance, poolInteractionAbove = 0.25, studyWidth = 6 }: GaugeStudyOptions = {},
): Computed<GaugeStudy> {
  requireProbability('poolInteractionAbove', poolInteractionAbove);
  requirePositive('studyWidth', studyWidth);
  if (tolerance !== undefined) requirePositive('tolerance', tolerance);
  const values = readings.map((reading) => reading.value);
  const problem = findDataProblem(values, { minimum: 8, spread: true });
  if (problem) return problem;
  const crossing = crossed(readings);
  if ('problem' in crossing) return crossing;
  const { cells, parts, operators, repeats } = crossing;

  const analysis = analyse(cells, repeats);
  const interactionRatio = ratio(analysis.interaction, analysis.repeatability);
  const interactionPooled = interactionRatio.pValue > poolInteractionAbove;
  const error = interactionPooled ? analysis.pooled : analysis.repeatability;
  const yardstick = interactionPooled ? analysis.pooled : analysis.interaction;
  const partRatio = ratio(analysis.part, yardstick);
  const operatorRatio = ratio(analysis.operator, yardstick);

  const estimates = {
    operator: (analysis.operator.meanSquare - yardstick.meanSquare) / (parts * repeats),
    interaction: interactionPooled ? 0 : (analysis.interaction.meanSquare - error.meanSquare) / repeats,
    part: (analysis.part.meanSquare - yardstick.meanSquare) / (operators * repeats),
  };
  const operator = Math.max(estimates.operator, 0);
  const interaction = Math.max(estimates.interaction, 0);
  const part = Math.max(estimates.part, 0);
  const gauge = error.meanSquare + operator + interaction;
  const total = gauge + part;
  const component = (variance: number): GaugeComponent => {
    const standardDeviation = Math.sqrt(variance);
    return {
      variance,
      standardDeviation,
      percentContribution: (100 * variance) / total,
      percentStudyVariation: 100 * Math.sqrt(variance / total),
      ...(tolerance !== undefined && {
        percentTolerance: (100 * studyWidth * standardDeviation) / tolerance,
      }),
    };
  };
  return computed({
    parts,
    operators,
    repeats,
    analysis,
    pValues: { part: partRatio.pValue, operator: operatorRatio.pValue, interaction: interactionRatio.pValue },
    fRatios: { part: partRatio.fRatio, operator: operatorRatio.fRatio, interaction: interactionRatio.fRatio },
    interactionPooled,
    components: {
      repeatability: component(error.meanSquare),
      operator: component(operator),
      interaction: component(interaction),
      reproducibility: component(operator + interaction),
      gauge: component(gauge),
      part: component(part),
      total: component(total),
    },
    setToZero: (['operator', 'interaction', 'part'] as const).filter((name) => estimates[name] < 0),
    ...(gauge > 0 && { distinctCategories: Math.floor(Math.SQRT2 * Math.sqrt(part / gauge)) }),
  });
}

interface Crossing {
  /** By part, then operator: the repeats. */
  readonly cells: readonly (readonly (readonly number[])[])[];
  readonly parts: number;
  readonly operators: number;
  readonly repeats: number;
}

function crossed(readings: readonly GaugeReading[]): Crossing | DataProblem {
  const partNames = [...new Set(readings.map((reading) => reading.part))];
  const operatorNames = [...new Set(readings.map((reading) => reading.operator))];
  const byCell = new Map<string, number[]>();
  const key = (part: string, operator: string) => JSON.stringify([part, operator]);
  for (const { part, operator, value } of readings) {
    const cell = byCell.get(key(part, operator));
    if (cell) cell.push(value);
    else byCell.set(key(part, operator), [value]);
  }
  if (partNames.length < 2) return dataProblem('too-few-values', '1 part, at least 2 needed');
  if (operatorNames.length < 2) return dataProblem('too-few-values', '1 operator, at least 2 needed');
  const cells = partNames.map((part) =>
    operatorNames.map((operator) => byCell.get(key(part, operator)) ?? []),
  );
  const repeats = cells[0]![0]!.length;
  for (const [p, row] of cells.entries())
    for (const [o, cell] of row.entries())
      if (cell.length !== repeats)
        return dataProblem(
          'unbalanced',
          `operator ${operatorNames[o]} measured part ${partNames[p]} ${cell.length} times, not ${repeats} times`,
        );
  if (repeats < 2) return dataProblem('too-few-values', '1 repeat per part and operator, at least 2 needed');
  return { cells, parts: partNames.length, operators: operatorNames.length, repeats };
}

/** Sums of squares as sums of squared effects, never as differences of sums: nothing cancels. */
function analyse(cells: Crossing['cells'], repeats: number): GaugeStudy['analysis'] {
  const grand = arithmeticMean(cells.flat(2));
  const centred = cells.map((row) => row.map((cell) => cell.map((value) => value - grand)));
  const cellMeans = centred.map((row) => row.map((cell) => arithmeticMean(cell)));
  const partMeans = cellMeans.map((row) => arithmeticMean(row));
  const operatorMeans = cellMeans[0]!.map((_, o) => arithmeticMean(cellMeans.map((row) => row[o]!)));
  const parts = partMeans.length;
  const operators = operatorMeans.length;
  const squares = (terms: readonly number[]) => compensatedSum(terms.map((term) => term * term));

  const interactionEffects = cellMeans.flatMap((row, p) =>
    row.map((cell, o) => cell - partMeans[p]! - operatorMeans[o]!),
  );
  const residuals = centred.flatMap((row, p) =>
    row.flatMap((cell, o) => cell.map((value) => value - cellMeans[p]![o]!)),
  );
  const interaction = varianceLine(repeats * squares(interactionEffects), (parts - 1) * (operators - 1));
  const repeatability = varianceLine(squares(residuals), parts * operators * (repeats - 1));
  return {
    part: varianceLine(operators * repeats * squares(partMeans), parts - 1),
    operator: varianceLine(parts * repeats * squares(operatorMeans), operators - 1),
    interaction,
    repeatability,
    pooled: varianceLine(
      interaction.sumOfSquares + repeatability.sumOfSquares,
      interaction.degreesOfFreedom + repeatability.degreesOfFreedom,
    ),
  };
}

/** F ratio and p value. Against an error of exactly 0, any effect is certain and no effect is none. */
function ratio(effect: VarianceLine, error: VarianceLine): { fRatio: number; pValue: number } {
  if (effect.meanSquare === 0) return { fRatio: 0, pValue: 1 };
  const fRatio = effect.meanSquare / error.meanSquare;
  return { fRatio, pValue: fUpperTail(fRatio, effect.degreesOfFreedom, error.degreesOfFreedom) };
}

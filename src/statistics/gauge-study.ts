/**
 * Crossed gauge repeatability and reproducibility study by analysis of variance: every operator measures every part
 * the same number of times (AIAG, Measurement Systems Analysis, 4th edition, ANOVA method).
 */
import { requireOpenProbability, requirePositive, requireProbability } from './argument-checks.ts';
import { type Crossing, crossedReadings } from './crossed-readings.ts';
import { type Computed, computed, dataProblem, findDataProblem } from './data-problem.ts';
import { arithmeticMean, compensatedSum } from './descriptive.ts';
import { fUpperTail } from './distributions.ts';
import {
  type ComponentScale,
  distinctCategories,
  type GaugeComponent,
  type GaugeReading,
  gaugeComponent,
} from './gauge-components.ts';
import {
  type CrossedAnalysis,
  interactionWeights,
  partToGaugeLimits,
  pooledWeights,
} from './gauge-limits.ts';
import { type VarianceLine, varianceLine } from './one-way-analysis-of-variance.ts';
import { type Interval, varianceInterval } from './variance-interval.ts';

export interface GaugeStudyOptions {
  /** Upper minus lower limit of the characteristic, in the unit of the values; needed for per cent of tolerance. */
  readonly tolerance?: number;
  /** Pool the interaction into repeatability when its p value is above this; 0.25 unless given, 1 never pools. */
  readonly poolInteractionAbove?: number;
  /** Standard deviations that count as the whole width: 6 unless given (5.15 in older practice). */
  readonly studyWidth?: number;
  /** Of the limits around each component; 0.95 unless given. */
  readonly confidence?: number;
}

export interface GaugeStudy {
  readonly parts: number;
  readonly operators: number;
  readonly repeats: number;
  readonly analysis: CrossedAnalysis;
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
  /** Confidence limits of the gauge's per cent of study variation; absent when gauge or parts show no variation. */
  readonly studyVariationLimits?: Interval;
  /** Confidence limits of the number of distinct categories; absent like those of the study variation. */
  readonly distinctCategoryLimits?: Interval;
  /** Components whose estimate came out negative and was set to 0. */
  readonly setToZero: readonly ('operator' | 'interaction' | 'part')[];
  /** floor(sqrt 2 x part / gauge standard deviation); absent when the gauge shows no variation. */
  readonly distinctCategories?: number;
}

/**
 * Evaluates a crossed study. Needs two parts, two operators, two repeats in every cell, finite values and some
 * variation. Throws a RangeError on options out of range.
 *
 * Source: AIAG, Measurement Systems Analysis, 4th edition, ANOVA method; limits of the components as
 * `varianceInterval`.
 */
export function gaugeStudy(
  readings: readonly GaugeReading[],
  { tolerance, poolInteractionAbove = 0.25, studyWidth = 6, confidence = 0.95 }: GaugeStudyOptions = {},
): Computed<GaugeStudy> {
  requireProbability('poolInteractionAbove', poolInteractionAbove);
  requirePositive('studyWidth', studyWidth);
  requireOpenProbability('confidence', confidence);
  if (tolerance !== undefined) requirePositive('tolerance', tolerance);
  const values = readings.map((reading) => reading.value);
  const problem = findDataProblem(values, { minimum: 8, spread: true });
  if (problem) return problem;
  const crossing = crossedReadings(readings);
  if ('problem' in crossing) return crossing;
  if (crossing.cells.every((row) => row.every((cell) => cell.every((value) => value === cell[0]))))
    return dataProblem(
      'no-spread',
      'all repeats of each part by each operator are the same, so the gauge shows no spread',
    );
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
  const scale: ComponentScale = { total, studyWidth, ...(tolerance !== undefined && { tolerance }) };
  const weights = interactionPooled
    ? pooledWeights(analysis, { parts, operators, repeats })
    : interactionWeights(analysis, { parts, operators, repeats });
  const component = (name: keyof typeof weights, variance: number): GaugeComponent =>
    gaugeComponent(variance, scale, varianceInterval(weights[name], confidence));
  const ratioLimits =
    gauge > 0 && part > 0
      ? partToGaugeLimits(analysis, interactionPooled, { parts, operators, repeats, confidence })
      : undefined;
  return computed({
    parts,
    operators,
    repeats,
    analysis,
    pValues: { part: partRatio.pValue, operator: operatorRatio.pValue, interaction: interactionRatio.pValue },
    fRatios: { part: partRatio.fRatio, operator: operatorRatio.fRatio, interaction: interactionRatio.fRatio },
    interactionPooled,
    components: {
      repeatability: component('repeatability', error.meanSquare),
      operator: component('operator', operator),
      interaction: interactionPooled ? gaugeComponent(0, scale) : component('interaction', interaction),
      reproducibility: component('reproducibility', operator + interaction),
      gauge: component('gauge', gauge),
      part: component('part', part),
      total: component('total', total),
    },
    setToZero: (['operator', 'interaction', 'part'] as const).filter((name) => estimates[name] < 0),
    ...(gauge > 0 && { distinctCategories: distinctCategories(part, gauge) }),
    ...(ratioLimits && {
      studyVariationLimits: {
        lower: 100 / Math.sqrt(1 + ratioLimits.upper),
        upper: 100 / Math.sqrt(1 + ratioLimits.lower),
      },
      distinctCategoryLimits: {
        lower: distinctCategories(ratioLimits.lower, 1),
        upper: distinctCategories(ratioLimits.upper, 1),
      },
    }),
  });
}

/** Sums of squares as sums of squared effects, never as differences of sums: nothing cancels. */
function analyse(cells: Crossing['cells'], repeats: number): CrossedAnalysis {
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

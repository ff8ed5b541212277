import { withUnit } from '../../records/units.ts';
import type { DataProblem } from '../../statistics/data-problem.ts';
import type { GaugeComponent } from '../../statistics/gauge-components.ts';
import { printedNumber } from '../../statistics/number-notation.ts';
import type { VarianceLine } from '../../statistics/one-way-analysis-of-variance.ts';
import type { Interval } from '../../statistics/variance-interval.ts';
import { fixed, percent } from '../number-text.ts';
import type { CharacteristicEvidence, EvidenceTable, NamedValue } from '../result.ts';
import type { StudyInput, StudyOutcome } from './study.ts';

/** What all gauge studies have in common once they are computed. */
export interface GaugeResult {
  readonly components: readonly { readonly name: string; readonly component: GaugeComponent }[];
  readonly gauge: GaugeComponent;
  readonly part: GaugeComponent;
  readonly repeatability: GaugeComponent;
  readonly reproducibility: GaugeComponent;
  readonly distinctCategories?: number;
  readonly distinctCategoryLimits?: Interval;
  readonly studyVariationLimits?: Interval;
  readonly design: string;
  readonly tables: readonly EvidenceTable[];
  readonly assumptions?: CharacteristicEvidence['assumptions'];
  readonly count: number;
  readonly unit: string;
}

/** Why a study cannot be judged by what its record states; undefined where it can. */
export const missingTolerance = ({ testMethod }: StudyInput): string | undefined => {
  const tolerance = testMethod.fields.study?.tolerance;
  if (tolerance === undefined) return 'study.tolerance is missing: the spread is compared with it';
  return tolerance <= 0 || !Number.isFinite(tolerance) ? 'study.tolerance must be above 0' : undefined;
};

export const confidenceOf = ({ testMethod }: StudyInput): number =>
  testMethod.fields.study?.confidence ?? 0.95;

const gaugeLimits = ({ testMethod }: StudyInput) => ({
  characteristic: 'repeatability and reproducibility, share of the tolerance',
  unit: '%',
  upper: testMethod.fields.study?.accept_percent ?? 30,
});

/** The outcome where the data don't allow the study: undecided, with what to do. */
export const undecidedStudy = (
  input: StudyInput,
  { problem, reason }: DataProblem,
  count: number,
): StudyOutcome => ({
  ok: true,
  characteristic: {
    limits: gaugeLimits(input),
    verdict: 'undecided',
    reason,
    remedy:
      problem === 'no-spread'
        ? 'Read with a finer resolution, and see that the gauge moves at all: readings that never differ say nothing of its spread.'
        : 'Complete the study by its design, or plan it anew: every missing reading changes what is estimated.',
    sampleSize: count,
    values: [],
    assumptions: [],
    readings: [],
  },
});

/**
 * Judges a gauge study by the share of the tolerance that the measurement takes.
 *
 * Source: AIAG, Measurement Systems Analysis, 4th edition: acceptable below 10 %, perhaps up to 30 % (from memory).
 */
export const judgeGauge = (input: StudyInput, result: GaugeResult): StudyOutcome => {
  const study = input.testMethod.fields.study;
  const limits = gaugeLimits(input);
  const { gauge, part, unit } = result;
  const confidence = confidenceOf(input);
  const onBound = study?.decide_on === 'confidence bound';
  const bounds = gauge.limits?.percentTolerance;
  if (onBound && !bounds)
    return {
      ok: false,
      message: 'study.decide_on asks for a confidence bound, which this method does not give',
    };
  const estimate = gauge.percentTolerance ?? Number.NaN;
  const share = onBound && bounds ? bounds.upper : estimate;
  const value = (
    key: string,
    label: string,
    number: number | undefined,
    valueUnit: string,
    decimals: number,
  ): readonly NamedValue[] =>
    number === undefined ? [] : [{ key, label, value: number, unit: valueUnit, decimals }];
  // The limits hold both ends with the confidence together, so each alone holds with more.
  const end = (side: 'lower' | 'upper'): string =>
    `${side} end of the two-sided ${percent(confidence)} interval`;
  const deviation = decimalsFor(gauge.standardDeviation);
  const tolerance = withUnit(String(study?.tolerance), input.testMethod.fields.unit ?? '1');
  return {
    ok: true,
    characteristic: {
      limits,
      verdict: share <= limits.upper ? 'pass' : 'fail',
      reason: onBound
        ? `repeatability and reproducibility take at most ${fixed(share, 1)} % of the tolerance of ${tolerance} (${end('upper')}), accepted up to ${limits.upper} %`
        : `repeatability and reproducibility take ${fixed(share, 1)} % of the tolerance of ${tolerance}, accepted up to ${limits.upper} %`,
      sampleSize: result.count,
      readings: [],
      values: [
        ...value('percent_tolerance', 'share of the tolerance', estimate, '%', 1),
        ...value('percent_tolerance_lower', `share of the tolerance, ${end('lower')}`, bounds?.lower, '%', 1),
        ...value('percent_tolerance_upper', `share of the tolerance, ${end('upper')}`, bounds?.upper, '%', 1),
        ...value(
          'percent_study_variation',
          'share of the study variation',
          gauge.percentStudyVariation,
          '%',
          1,
        ),
        ...value(
          'percent_study_variation_lower',
          `share of the study variation, ${end('lower')}`,
          result.studyVariationLimits?.lower,
          '%',
          1,
        ),
        ...value(
          'percent_study_variation_upper',
          `share of the study variation, ${end('upper')}`,
          result.studyVariationLimits?.upper,
          '%',
          1,
        ),
        ...value('distinct_categories', 'distinct categories', result.distinctCategories, '1', 0),
        ...value(
          'distinct_categories_lower',
          `distinct categories, ${end('lower')}`,
          result.distinctCategoryLimits?.lower,
          '1',
          0,
        ),
        ...value('gauge', 'standard deviation of the gauge', gauge.standardDeviation, unit, deviation),
        ...value(
          'repeatability',
          'standard deviation of repeatability',
          result.repeatability.standardDeviation,
          unit,
          deviation,
        ),
        ...value(
          'reproducibility',
          'standard deviation of reproducibility',
          result.reproducibility.standardDeviation,
          unit,
          deviation,
        ),
        ...value('part', 'standard deviation of the parts', part.standardDeviation, unit, deviation),
      ],
      assumptions: [
        { name: 'design of the study', outcome: 'met', detail: result.design },
        ...(result.assumptions ?? []),
      ],
      tables: [...result.tables, componentTable(result, confidence)],
      chart: {
        kind: 'gauge-components',
        accepted: limits.upper,
        // The total is 100 % of itself, and its share of the tolerance says nothing of the gauge.
        components: result.components
          .filter(({ name }) => name !== 'total')
          .map(({ name, component }) => ({
            name: name.replace(/ \(.*\)$/, ''),
            percentContribution: component.percentContribution,
            percentStudyVariation: component.percentStudyVariation,
            ...(component.percentTolerance === undefined
              ? {}
              : { percentTolerance: component.percentTolerance }),
          })),
      },
    },
  };
};

/** Decimals that show four digits of a number. */
export const decimalsFor = (value: number): number =>
  value === 0 || !Number.isFinite(value)
    ? 4
    : Math.min(12, Math.max(0, 3 - Math.floor(Math.log10(Math.abs(value)))));

/** A number with five digits that count, for intermediate results. */
export const digits = (value: number): string => {
  if (value === 0) return '0';
  const size = Math.abs(value);
  return size >= 1e6 || size < 1e-4
    ? printedNumber(value.toExponential(4))
    : fixed(value, Math.max(0, 4 - Math.floor(Math.log10(size))));
};

const componentTable = (result: GaugeResult, confidence: number): EvidenceTable => {
  const withLimits = result.components.some(({ component }) => component.limits);
  const withTolerance = result.gauge.percentTolerance !== undefined;
  return {
    title: `Components of variation, in ${result.unit === '1' ? 'the unit of the readings' : result.unit}`,
    columns: [
      'Source',
      'Variance',
      ...(withLimits ? [`${percent(confidence)} limits of the variance`] : []),
      'Standard deviation',
      '% of total variance',
      '% of study variation',
      ...(withTolerance ? ['% of tolerance'] : []),
    ],
    rows: result.components.map(({ name, component }) => [
      name,
      digits(component.variance),
      ...(withLimits
        ? [
            component.limits
              ? `${digits(component.limits.variance.lower)} to ${digits(component.limits.variance.upper)}`
              : 'not given',
          ]
        : []),
      digits(component.standardDeviation),
      fixed(component.percentContribution, 2),
      fixed(component.percentStudyVariation, 2),
      ...(withTolerance ? [fixed(component.percentTolerance ?? 0, 2)] : []),
    ]),
  };
};

/** The table of an analysis of variance. */
export const varianceTable = (
  lines: readonly {
    readonly name: string;
    readonly line: VarianceLine;
    readonly fRatio?: number;
    readonly pValue?: number;
  }[],
): EvidenceTable => ({
  title: 'Analysis of variance',
  columns: ['Source', 'Degrees of freedom', 'Sum of squares', 'Mean square', 'F', 'p'],
  rows: lines.map(({ name, line, fRatio, pValue }) => [
    name,
    String(line.degreesOfFreedom),
    digits(line.sumOfSquares),
    digits(line.meanSquare),
    fRatio === undefined ? '–' : Number.isFinite(fRatio) ? fixed(fRatio, 3) : 'beyond all bounds',
    pValue === undefined ? '–' : pText(pValue),
  ]),
});

/** A p value as printed: never 0. */
export const pText = (pValue: number): string => (pValue < 0.0001 ? 'below 0.0001' : fixed(pValue, 4));

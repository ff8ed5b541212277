import { withUnit } from '../../records/units.ts';
import {
  type BiasAtReference,
  type MeasurementLinearity,
  measurementBias,
  measurementLinearity,
  type ReferenceReading,
} from '../../statistics/measurement-bias.ts';
import { shapiroWilkTest } from '../../statistics/shapiro-wilk.ts';
import { decimalsThatTell, fixed, percent } from '../number-text.ts';
import type { Assumption, EvidenceTable, NamedValue } from '../result.ts';
import { numbersIn } from './gauge-table.ts';
import { confidenceOf, decimalsFor, digits, pText } from './gauge-verdict.ts';
import { blankCells, columnsOf, type Study, type StudyInput, type StudyOutcome } from './study.ts';

const columns = ['reference', 'reading'];

/** The level at which a test of an assumption counts as failed. */
const level = 0.05;

const evaluate = (input: StudyInput): StudyOutcome => {
  const { testMethod, table } = input;
  const accepted = testMethod.fields.study?.accept_bias;
  if (accepted === undefined)
    return { ok: false, message: 'study.accept_bias is missing: the bias is compared with it' };
  if (accepted <= 0 || !Number.isFinite(accepted))
    return { ok: false, message: 'study.accept_bias must be above 0' };
  const rows = columnsOf(table, columns);
  if (!rows) return { ok: false, message: `${table.file} needs the columns reference and reading` };
  const reference = numbersIn(input, 'reference');
  const reading = numbersIn(input, 'reading');
  if (!reference.ok) return reference;
  if (!reading.ok) return reading;
  const cells = [...blankCells(rows, columns), ...reference.cells, ...reading.cells];
  if (cells.length > 0) return { ok: false, message: 'some cells of the study cannot be used', cells };
  const readings: readonly ReferenceReading[] = reading.values.map((value, index) => ({
    value,
    reference: reference.values[index] ?? Number.NaN,
  }));
  const unit = reading.unit;
  const limits = {
    characteristic: 'bias over the range of the references',
    unit,
    lower: -accepted,
    upper: accepted,
  };
  const confidence = confidenceOf(input);
  const bias = measurementBias(readings, confidence);
  if (!bias.ok)
    return {
      ok: true,
      characteristic: {
        limits,
        verdict: 'undecided',
        reason: bias.reason,
        remedy: 'Measure each reference at least three times, with a resolution that shows the spread.',
        sampleSize: readings.length,
        values: [],
        assumptions: [],
        readings: [],
      },
    };
  const { references } = bias.value;
  const linearity = measurementLinearity(readings, confidence);
  const line = linearity.ok ? linearity.value : undefined;
  const worst = references.reduce((one, other) => (reach(other) > reach(one) ? other : one));
  const normality = testNormality(readings, references);
  const decimals = decimalsThatTell(reach(worst), accepted, decimalsFor(reach(worst)) - 1);
  const show = (value: number): string => withUnit(fixed(value, decimals), unit);
  const bound = `the farther end of the two-sided ${percent(confidence)} interval of the bias is ${show(reach(worst))} at the reference ${withUnit(String(worst.reference), unit)}, accepted up to ${withUnit(String(accepted), unit)}`;
  return {
    ok: true,
    characteristic: {
      limits,
      verdict: normality.outcome !== 'met' ? 'undecided' : reach(worst) <= accepted ? 'pass' : 'fail',
      reason:
        normality.outcome === 'met'
          ? bound
          : `whether the bias keeps within ${withUnit(String(accepted), unit)} is not known: ${normality.detail}`,
      ...(normality.outcome === 'met'
        ? {}
        : {
            remedy:
              'Look for a slip or a change during the study at that reference, and measure it again, at least three times.',
          }),
      sampleSize: readings.length,
      readings: [],
      values: valuesOf(worst, references, line, { unit, confidence, decimals }),
      assumptions: [
        {
          name: 'design of the study',
          outcome: 'met',
          detail: `${references.length} reference${references.length === 1 ? '' : 's'}, ${readings.length} readings`,
        },
        normality,
        ...(line?.lackOfFit
          ? [
              {
                name: 'bias on a line',
                outcome: line.lackOfFit.pValue < level ? ('not met' as const) : ('met' as const),
                detail: `lack of fit F ${fixed(line.lackOfFit.fRatio, 2)}, p ${pText(line.lackOfFit.pValue)}; the verdict rests on the references, not on the line`,
              },
            ]
          : []),
      ],
      tables: [biasTable(references, unit, confidence), ...(line ? [lineTable(line, unit, confidence)] : [])],
      chart: {
        kind: 'bias',
        readings: readings.map((each) => ({ reference: each.reference, bias: each.value - each.reference })),
        references: references.map((each) => ({
          reference: each.reference,
          bias: each.bias,
          ...each.limits,
        })),
        ...(line
          ? {
              line: alongThe(references).map((at) => ({
                reference: at,
                bias: line.at(at).bias,
                ...line.at(at).limits,
              })),
            }
          : {}),
      },
    },
  };
};

/** How far from 0 the bias may be at a reference. */
const reach = ({ limits }: BiasAtReference): number =>
  Math.max(Math.abs(limits.lower), Math.abs(limits.upper));

/** Points from the lowest reference to the highest at which the band is drawn. */
const alongThe = (references: readonly BiasAtReference[]): readonly number[] => {
  const low = references[0]?.reference ?? 0;
  const high = references.at(-1)?.reference ?? 0;
  return Array.from({ length: 21 }, (_, index) => low + ((high - low) * index) / 20);
};

/** Shapiro-Wilk at each reference; the smallest p value, times the number of references, is held against the level. */
const testNormality = (
  readings: readonly ReferenceReading[],
  references: readonly BiasAtReference[],
): Assumption => {
  const name = 'normal distribution at each reference';
  const tests = references.map((each) => ({
    reference: each.reference,
    test: shapiroWilkTest(readings.flatMap((one) => (one.reference === each.reference ? [one.value] : []))),
  }));
  const untested = tests.find(({ test }) => !test.ok);
  if (untested && !untested.test.ok)
    return {
      name,
      outcome: 'not tested',
      detail: `reference ${untested.reference}: ${untested.test.reason}`,
    };
  const smallest = tests
    .flatMap(({ reference, test }) => (test.ok ? [{ reference, ...test.value }] : []))
    .reduce((one, other) => (other.pValue < one.pValue ? other : one));
  const adjusted = Math.min(1, smallest.pValue * references.length);
  return {
    name,
    outcome: adjusted < level ? 'not met' : 'met',
    detail:
      adjusted < level
        ? `the readings at the reference ${smallest.reference} do not look normal (Shapiro-Wilk W ${fixed(smallest.statistic, 3)}, p ${pText(adjusted)} for ${references.length} references)`
        : `Shapiro-Wilk, smallest p ${pText(adjusted)} for ${references.length} references`,
  };
};

const valuesOf = (
  worst: BiasAtReference,
  references: readonly BiasAtReference[],
  line: MeasurementLinearity | undefined,
  {
    unit,
    confidence,
    decimals,
  }: { readonly unit: string; readonly confidence: number; readonly decimals: number },
): readonly NamedValue[] => {
  const largest = references.reduce((one, other) =>
    Math.abs(other.bias) > Math.abs(one.bias) ? other : one,
  );
  const value = (
    key: string,
    label: string,
    number: number,
    valueUnit: string,
    places: number,
  ): NamedValue => ({
    key,
    label,
    value: number,
    unit: valueUnit,
    decimals: places,
  });
  const share = percent(confidence);
  return [
    value(
      'largest_bias',
      `largest bias, at the reference ${largest.reference}`,
      largest.bias,
      unit,
      decimals,
    ),
    value(
      'bias_bound',
      `${share} bound of the bias at all references together`,
      reach(worst),
      unit,
      decimals,
    ),
    ...(line
      ? [
          value('slope', 'slope of the bias', line.slope.estimate, '1', 5),
          value('slope_lower', `slope of the bias, lower ${share} limit`, line.slope.limits.lower, '1', 5),
          value('slope_upper', `slope of the bias, upper ${share} limit`, line.slope.limits.upper, '1', 5),
          value('intercept', 'bias at 0', line.intercept.estimate, unit, decimals + 1),
          value(
            'residual_standard_deviation',
            'standard deviation around the line',
            line.residualStandardDeviation,
            unit,
            decimals + 1,
          ),
        ]
      : []),
  ];
};

const biasTable = (
  references: readonly BiasAtReference[],
  unit: string,
  confidence: number,
): EvidenceTable => ({
  title: `Bias at each reference, in ${unit === '1' ? 'the unit of the readings' : unit}`,
  columns: [
    'Reference',
    'Readings',
    'Bias',
    'Standard deviation',
    `${percent(confidence)} limits for all references together`,
    't',
    'p of no bias',
  ],
  rows: references.map((each) => [
    String(each.reference),
    String(each.count),
    digits(each.bias),
    digits(each.standardDeviation),
    `${digits(each.limits.lower)} to ${digits(each.limits.upper)}`,
    fixed(each.t, 2),
    pText(each.pValue),
  ]),
});

const lineTable = (line: MeasurementLinearity, unit: string, confidence: number): EvidenceTable => ({
  title: `Line of the bias over the reference, in ${unit === '1' ? 'the unit of the readings' : unit}`,
  columns: ['Coefficient', 'Estimate', 'Standard error', `${percent(confidence)} limits`, 't', 'p'],
  rows: (
    [
      ['bias at 0', line.intercept],
      ['slope', line.slope],
    ] as const
  ).map(([name, each]) => [
    name,
    digits(each.estimate),
    digits(each.standardError),
    `${digits(each.limits.lower)} to ${digits(each.limits.upper)}`,
    fixed(each.t, 2),
    pText(each.pValue),
  ]),
});

export const biasAndLinearityStudy: Study = {
  name: 'bias-and-linearity-study',
  title: 'Bias and linearity study',
  basis:
    't intervals of the bias, shared risk (Bonferroni); least-squares line of the bias: AIAG Measurement Systems Analysis, 4th ed. (from memory), NIST/SEMATECH e-Handbook 2.4.5.2',
  explain: `References of known value are measured several times each. It shows that the bias of the measurement keeps within what is accepted, with the stated confidence at all references together, and whether the bias changes over the range.

At each reference: mean reading minus reference, with limits of Student's t from the spread there; the risk is shared out among the references, so that all limits hold together. The verdict is \`pass\` where all limits keep within \`accept_bias\` in either direction. The least-squares line of the bias over the reference, with the limits of its slope, tells whether a correction by one figure would do; it does not decide.

Take five or more references over the range in use, ten or more readings each, in random order, by one operator (common practice, no source). The references must be known clearly better than the bias that is accepted. Normality is tested at each reference (Shapiro-Wilk, level 0.05 for all together), which needs three readings; where it fails, the verdict is \`undecided\`: look for a slip at that reference and measure it again.

Caution: a small bias says nothing about spread or operators: see crossed-gauge-study.

Columns: \`reference\`, \`reading\`. Fields: \`accept_bias\`, \`confidence\`.`,
  columns,
  evaluate,
};

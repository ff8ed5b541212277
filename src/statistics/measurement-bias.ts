/**
 * Bias of a measurement against references of known value, and how it changes over the range (AIAG, Measurement
 * Systems Analysis, 4th edition, bias and linearity; NIST/SEMATECH e-Handbook 2.4.5.2 for linearity).
 */
import { requireOpenProbability } from './argument-checks.ts';
import { type Computed, computed, type DataProblem, dataProblem } from './data-problem.ts';
import { arithmeticMean, compensatedSum, sampleStandardDeviation } from './descriptive.ts';
import { fUpperTail, tCdf, tQuantile } from './distributions.ts';
import type { Interval } from './variance-interval.ts';

export interface ReferenceReading {
  /** Known value of what was measured. */
  readonly reference: number;
  readonly value: number;
}

export interface BiasAtReference {
  readonly reference: number;
  readonly count: number;
  /** Mean reading minus reference. */
  readonly bias: number;
  readonly standardDeviation: number;
  readonly t: number;
  /** Two-sided p value of no bias at this reference alone. */
  readonly pValue: number;
  /** Limits that hold for all references together: each at 1 - (1 - confidence) / number of references (Bonferroni). */
  readonly limits: Interval;
}

export interface MeasurementBias {
  readonly count: number;
  readonly confidence: number;
  /** In order of reference. */
  readonly references: readonly BiasAtReference[];
}

/**
 * Bias at every reference, from the spread of the readings there: no equal spread is assumed. Needs two readings with
 * some spread at each reference. Throws a RangeError when the confidence is out of range.
 *
 * Source: AIAG, Measurement Systems Analysis, 4th edition, bias (from memory); the t limits of
 * `meanConfidenceLimits`, with the inequality of Bonferroni over the references.
 */
export function measurementBias(
  readings: readonly ReferenceReading[],
  confidence = 0.95,
): Computed<MeasurementBias> {
  requireOpenProbability('confidence', confidence);
  const problem = unusable(readings, 2);
  if (problem) return problem;
  const byReference = new Map<number, number[]>();
  for (const { reference, value } of readings)
    byReference.set(reference, [...(byReference.get(reference) ?? []), value - reference]);
  const ordered = [...byReference].sort(([one], [other]) => one - other);
  const few = ordered.find(([, biases]) => biases.length < 2);
  if (few) return dataProblem('too-few-values', `1 reading at reference ${few[0]}, at least 2 needed`);
  const still = ordered.find(([, biases]) => biases.every((bias) => bias === biases[0]));
  if (still)
    return dataProblem(
      'no-spread',
      `all ${still[1].length} readings at reference ${still[0]} are the same: the resolution hides the spread`,
    );
  const risk = (1 - confidence) / ordered.length;
  const references = ordered.map(([reference, biases]): BiasAtReference => {
    const count = biases.length;
    const mean = arithmeticMean(biases);
    // Differences of decimal fractions leave a few units in the last place behind where the readings cancel.
    const largest = biases.reduce(
      (size, each) => Math.max(size, Math.abs(each + reference)),
      Math.abs(reference),
    );
    const bias = Math.abs(mean) <= 4 * Number.EPSILON * largest ? 0 : mean;
    const standardDeviation = sampleStandardDeviation(biases);
    const standardError = standardDeviation / Math.sqrt(count);
    const t = bias / standardError;
    const width = tQuantile(1 - risk / 2, count - 1) * standardError;
    return {
      reference,
      count,
      bias,
      standardDeviation,
      t,
      pValue: twoSided(t, count - 1),
      limits: { lower: bias - width, upper: bias + width },
    };
  });
  return computed({ count: readings.length, confidence, references });
}

export interface Coefficient {
  readonly estimate: number;
  readonly standardError: number;
  readonly t: number;
  /** Two-sided p value of the coefficient being 0. */
  readonly pValue: number;
  readonly limits: Interval;
}

export interface MeasurementLinearity {
  readonly count: number;
  readonly slope: Coefficient;
  readonly intercept: Coefficient;
  readonly residualStandardDeviation: number;
  /** Share of the variation of the bias that the line explains, 0 to 1. */
  readonly determination: number;
  /**
   * F test of lack of fit: does the mean bias leave the line by more than the repeats explain? Absent with two
   * references, which a line always meets.
   */
  readonly lackOfFit?: { readonly fRatio: number; readonly pValue: number };
  /** The fitted bias at a reference and its confidence limits there. */
  readonly at: (reference: number) => { readonly bias: number; readonly limits: Interval };
}

/**
 * Least-squares line of the bias over the reference, through all single readings. Needs two different references,
 * three readings and some spread around the line. Throws a RangeError when the confidence is out of range.
 *
 * Source: Draper and Smith, Applied Regression Analysis, chapter 1; NIST/SEMATECH e-Handbook 2.4.5.2.
 */
export function measurementLinearity(
  readings: readonly ReferenceReading[],
  confidence = 0.95,
): Computed<MeasurementLinearity> {
  requireOpenProbability('confidence', confidence);
  const problem = unusable(readings, 3);
  if (problem) return problem;
  const levels = new Set(readings.map((reading) => reading.reference));
  if (levels.size < 2)
    return dataProblem('no-spread', 'all references are the same; linearity needs at least 2');
  const n = readings.length;
  const centre = arithmeticMean(readings.map((reading) => reading.reference));
  const x = readings.map((reading) => reading.reference - centre);
  const y = readings.map((reading) => reading.value - reading.reference);
  const mean = arithmeticMean(y);
  const sxx = compensatedSum(x.map((value) => value * value));
  const slope = compensatedSum(x.map((value, i) => value * (y[i]! - mean))) / sxx;
  const residuals = x.map((value, i) => y[i]! - mean - slope * value);
  const squares = (terms: readonly number[]) => compensatedSum(terms.map((term) => term * term));
  const left = squares(residuals);
  const total = squares(y.map((value) => value - mean));
  // What rounding alone leaves on a perfect line: a few units in the last place of the readings, squared.
  const largest = readings.reduce(
    (size, each) => Math.max(size, Math.abs(each.value), Math.abs(each.reference)),
    0,
  );
  if (left <= n * (8 * Number.EPSILON * largest) ** 2)
    return dataProblem('no-spread', 'all readings lie on one line: there is no spread around it');
  const degreesOfFreedom = n - 2;
  const spread = Math.sqrt(left / degreesOfFreedom);
  const factor = tQuantile(0.5 + confidence / 2, degreesOfFreedom);
  const coefficient = (estimate: number, standardError: number): Coefficient => ({
    estimate,
    standardError,
    t: estimate / standardError,
    pValue: twoSided(estimate / standardError, degreesOfFreedom),
    limits: { lower: estimate - factor * standardError, upper: estimate + factor * standardError },
  });
  const errorAt = (reference: number): number => spread * Math.sqrt(1 / n + (reference - centre) ** 2 / sxx);
  const lackOfFit = testLackOfFit(readings, left, levels.size);
  return computed({
    count: n,
    slope: coefficient(slope, spread / Math.sqrt(sxx)),
    intercept: coefficient(mean - slope * centre, errorAt(0)),
    residualStandardDeviation: spread,
    determination: total === 0 ? 0 : Math.max(0, 1 - left / total),
    ...(lackOfFit && { lackOfFit }),
    at: (reference: number) => {
      const bias = mean + slope * (reference - centre);
      const width = factor * errorAt(reference);
      return { bias, limits: { lower: bias - width, upper: bias + width } };
    },
  });
}

function testLackOfFit(
  readings: readonly ReferenceReading[],
  left: number,
  levels: number,
): { readonly fRatio: number; readonly pValue: number } | undefined {
  const degreesPure = readings.length - levels;
  if (levels < 3 || degreesPure < 1) return undefined;
  const groups = new Map<number, number[]>();
  for (const { reference, value } of readings)
    groups.set(reference, [...(groups.get(reference) ?? []), value - reference]);
  const pure = compensatedSum(
    [...groups.values()].flatMap((biases) => {
      const mean = arithmeticMean(biases);
      return biases.map((bias) => (bias - mean) ** 2);
    }),
  );
  if (pure === 0) return undefined;
  const fRatio = Math.max(0, left - pure) / (levels - 2) / (pure / degreesPure);
  return { fRatio, pValue: fRatio === 0 ? 1 : fUpperTail(fRatio, levels - 2, degreesPure) };
}

function unusable(readings: readonly ReferenceReading[], fewest: number): DataProblem | undefined {
  const bad = readings.findIndex(({ reference, value }) => !Number.isFinite(reference + value));
  if (bad >= 0)
    return dataProblem(
      'non-finite-value',
      `reading ${bad + 1} of ${readings.length} or its reference is not a finite number`,
    );
  return readings.length < fewest
    ? dataProblem(
        'too-few-values',
        `${readings.length} reading${readings.length === 1 ? '' : 's'}, at least ${fewest} needed`,
      )
    : undefined;
}

/** Both tails of Student's t beyond the value. */
const twoSided = (t: number, degreesOfFreedom: number): number => 2 * tCdf(-Math.abs(t), degreesOfFreedom);

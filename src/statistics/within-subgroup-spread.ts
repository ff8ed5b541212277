/**
 * The spread within subgroups, or from one value to the next: what is left when slow changes and steps between lots are
 * taken out. With it, capability indices are Cp and Cpk; with the overall standard deviation they are Pp and Ppk.
 */
import { c4, d2, d3, equivalentDegreesOfFreedom } from './control-chart-constants.ts';
import { type Computed, computed, type DataProblem, dataProblem, findDataProblem } from './data-problem.ts';
import { arithmeticMean, compensatedSum, sumOfSquaredDeviations } from './descriptive.ts';

export interface WithinSpread {
  /** Estimate of the standard deviation, in the unit of the values. */
  readonly standardDeviation: number;
  /** Exact for the pooled standard deviation; for ranges by matching the first two moments, not whole. */
  readonly degreesOfFreedom: number;
}

/**
 * Root of the variance within subgroups, weighted by n - 1; the degrees of freedom are those of all subgroups
 * together, exact for normal values. Subgroups may differ in size; those with one value tell nothing. Needs one
 * subgroup of two, and some spread within. No divisor c4 is applied.
 *
 * Source: NIST/SEMATECH e-Handbook 1.3.5.3, the pooled standard deviation, there of two groups.
 */
export function pooledSpread(subgroups: readonly (readonly number[])[]): Computed<WithinSpread> {
  const problem = findDataProblem(subgroups.flat(), { minimum: 2 });
  if (problem) return problem;
  const usable = subgroups.filter((values) => values.length > 1);
  if (usable.length === 0)
    return dataProblem('too-few-values', 'no subgroup has two values, so none shows the spread within');
  if (usable.every(isConstant)) return noSpreadWithin();
  const degreesOfFreedom = compensatedSum(usable.map((values) => values.length - 1));
  const squares = compensatedSum(usable.map(sumOfSquaredDeviations));
  return computed({ standardDeviation: Math.sqrt(squares / degreesOfFreedom), degreesOfFreedom });
}

/**
 * Mean range over d2. Needs subgroups of one size, two values or more each, and some spread within. Degrees of
 * freedom as in `equivalentDegreesOfFreedom`.
 *
 * Source: ASTM MNL 7; NIST/SEMATECH e-Handbook 6.3.2.1.
 */
export function averageRangeSpread(subgroups: readonly (readonly number[])[]): Computed<WithinSpread> {
  return meanOverConstant(subgroups, rangeOf, (size) => ({
    constant: d2(size),
    relativeVariance: (d3(size) / d2(size)) ** 2,
  }));
}

/**
 * Mean of the subgroups' standard deviations over c4. Needs subgroups of one size, two values or more each, and some
 * spread within. Degrees of freedom as in `equivalentDegreesOfFreedom`.
 *
 * Source: ASTM MNL 7; NIST/SEMATECH e-Handbook 6.3.2.1.
 */
export function averageStandardDeviationSpread(
  subgroups: readonly (readonly number[])[],
): Computed<WithinSpread> {
  const deviation = (values: readonly number[]): number =>
    isConstant(values) ? 0 : Math.sqrt(sumOfSquaredDeviations(values) / (values.length - 1));
  return meanOverConstant(subgroups, deviation, (size) => ({
    constant: c4(size),
    relativeVariance: ((1 - c4(size)) * (1 + c4(size))) / c4(size) ** 2,
  }));
}

/** Variance of |X1 - X2| and covariance of |X1 - X2| with |X2 - X3| for independent standard normal values. */
const rangeVariance = 2 - 4 / Math.PI;
const rangeCovariance = (4 / Math.PI) * (Math.sqrt(0.75) + 0.5 * Math.asin(0.5) - 1);

/**
 * Mean of the ranges between neighbours, in the order of the run, over d2(2) = 2 / sqrt(pi). Neighbouring ranges
 * share a value; the degrees of freedom allow for that by the exact variance of the mean. Needs two values and some
 * spread.
 *
 * Source: NIST/SEMATECH e-Handbook 6.3.2.2; degrees of freedom: Cryer and Ryan, Journal of Quality Technology 22
 * (1990).
 */
export function movingRangeSpread(values: readonly number[]): Computed<WithinSpread> {
  const problem = findDataProblem(values, { minimum: 2, spread: true });
  if (problem) return problem;
  const ranges = values.slice(1).map((value, i) => Math.abs(value - values[i]!));
  const count = ranges.length;
  const variance = (count * rangeVariance + 2 * (count - 1) * rangeCovariance) / (count * count);
  return computed({
    standardDeviation: arithmeticMean(ranges) / d2(2),
    degreesOfFreedom: equivalentDegreesOfFreedom(variance / d2(2) ** 2),
  });
}

function meanOverConstant(
  subgroups: readonly (readonly number[])[],
  measure: (values: readonly number[]) => number,
  constantsOf: (size: number) => { readonly constant: number; readonly relativeVariance: number },
): Computed<WithinSpread> {
  const problem = findDataProblem(subgroups.flat(), { minimum: 2 });
  if (problem) return problem;
  const size = subgroups[0]!.length;
  const odd = subgroups.findIndex((values) => values.length !== size);
  if (odd >= 0)
    return dataProblem(
      'unbalanced',
      `subgroup ${odd + 1} has ${subgroups[odd]!.length} values, the first has ${size}; their ranges do not compare`,
    );
  if (size < 2) return dataProblem('too-few-values', '1 value in each subgroup, at least 2 needed');
  if (subgroups.every(isConstant)) return noSpreadWithin();
  const { constant, relativeVariance } = constantsOf(size);
  return computed({
    standardDeviation: arithmeticMean(subgroups.map(measure)) / constant,
    degreesOfFreedom: equivalentDegreesOfFreedom(relativeVariance / subgroups.length),
  });
}

function noSpreadWithin(): DataProblem {
  return dataProblem('no-spread', 'the values of each subgroup are all the same');
}

function isConstant(values: readonly number[]): boolean {
  return values.every((value) => value === values[0]);
}

function rangeOf(values: readonly number[]): number {
  let smallest = Number.POSITIVE_INFINITY;
  let largest = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (value < smallest) smallest = value;
    if (value > largest) largest = value;
  }
  return largest - smallest;
}

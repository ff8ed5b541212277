import { type Computed, computed, dataProblem, findDataProblem } from './data-problem.ts';
import { arithmeticMean, compensatedSum, sumOfSquaredDeviations } from './descriptive.ts';
import { fUpperTail } from './distributions.ts';

/** One line of an analysis of variance. */
export interface VarianceLine {
  readonly sumOfSquares: number;
  readonly degreesOfFreedom: number;
  readonly meanSquare: number;
}

export interface OneWayAnalysisOfVariance {
  readonly between: VarianceLine;
  readonly within: VarianceLine;
  readonly fRatio: number;
  /** Probability of an F ratio at least this large if all groups had the same mean. */
  readonly pValue: number;
}

/**
 * Puts the mean square to a sum of squares.
 *
 * Source: NIST/SEMATECH e-Handbook 7.4.3, mean square = sum of squares over degrees of freedom.
 */
export function varianceLine(sumOfSquares: number, degreesOfFreedom: number): VarianceLine {
  return { sumOfSquares, degreesOfFreedom, meanSquare: sumOfSquares / degreesOfFreedom };
}

/**
 * Do groups, for example lots, differ in their mean? Needs two groups with at least one finite value each, more
 * values than groups, and spread within the groups. Values are centred first and sums compensated, so that large
 * common offsets do no harm (NIST StRD analysis-of-variance sets).
 *
 * Source: Fisher, Statistical Methods for Research Workers (1925); NIST/SEMATECH e-Handbook 7.4.3.
 */
export function oneWayAnalysisOfVariance(
  groups: readonly (readonly number[])[],
): Computed<OneWayAnalysisOfVariance> {
  const all = groups.flat();
  const problem = findDataProblem(all, { minimum: groups.length + 1 });
  if (problem) return problem;
  if (groups.length < 2) return dataProblem('too-few-values', `${groups.length} group, at least 2 needed`);
  const empty = groups.findIndex((group) => group.length === 0);
  if (empty >= 0) return dataProblem('too-few-values', `group ${empty + 1} of ${groups.length} has no value`);

  const centre = arithmeticMean(all);
  const centred = groups.map((group) => group.map((value) => value - centre));
  const rest = arithmeticMean(centred.flat());
  const within = varianceLine(
    compensatedSum(centred.map(sumOfSquaredDeviations)),
    all.length - groups.length,
  );
  if (within.sumOfSquares === 0) return dataProblem('no-spread', 'no spread within any group');
  const between = varianceLine(
    compensatedSum(centred.map((group) => group.length * (arithmeticMean(group) - rest) ** 2)),
    groups.length - 1,
  );
  const fRatio = between.meanSquare / within.meanSquare;
  const pValue = fUpperTail(fRatio, between.degreesOfFreedom, within.degreesOfFreedom);
  return computed({ between, within, fRatio, pValue });
}

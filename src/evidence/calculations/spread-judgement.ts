import { withUnit } from '../../records/units.ts';
import type { Interval } from '../../statistics/interval.ts';
import { type Distribution, type SpreadQuantity, simulate } from '../../statistics/monte-carlo.ts';
import { simulationSeed } from '../../statistics/seeded-generator.ts';
import { successRunSampleSize } from '../../statistics/success-run.ts';
import { limitText } from '../methods/conformity.ts';
import { confidenceText, decimalsThatTell, fixed, percent } from '../number-text.ts';
import type { AcceptanceLimits, Assumption, CharacteristicEvidence, NamedValue } from '../result.ts';
import {
  choiceAt,
  type InputProblem,
  namedValue,
  numberAt,
  optionalNumberAt,
  requireThat,
} from './calculation.ts';

/** How a spread is judged, read from the fields of the calculation. */
export interface SpreadOptions {
  readonly judgeBy: 'worst-case' | 'root-sum-square' | 'simulation';
  readonly distribution: Distribution;
  readonly sigmaLevel: number;
  /** Absent where no simulation is asked for. */
  readonly simulation?: {
    readonly trials: number;
    readonly seed: number;
    readonly confidence: number;
    /** Share of the results that must lie within the limits. */
    readonly shareWithin?: number;
  };
}

export const distributions = ['normal', 'uniform', 'triangular'] as const;

/** Reads `judge_by`, `distribution`, `sigma_level`, `trials`, `seed`, `share_within` and `confidence`. */
export const readSpreadOptions = (
  fields: Readonly<Record<string, unknown>>,
  problems: InputProblem[],
): SpreadOptions => {
  const judgeBy = choiceAt(fields, 'judge_by', ['worst-case', 'root-sum-square', 'simulation'], problems);
  const distribution = choiceAt(fields, 'distribution', [...distributions], problems);
  const sigmaLevel = optionalNumberAt(fields, 'sigma_level', problems) ?? 3;
  requireThat(sigmaLevel > 0, 'sigma_level', 'above 0', problems);
  const trials = optionalNumberAt(fields, 'trials', problems);
  const seed = optionalNumberAt(fields, 'seed', problems);
  if (judgeBy !== 'simulation' && trials === undefined && seed === undefined)
    return { judgeBy, distribution, sigmaLevel };
  const counted = trials ?? 100_000;
  requireThat(
    Number.isSafeInteger(counted) && counted >= 1000 && counted <= 1_000_000,
    'trials',
    'a whole number from 1000 to 1000000',
    problems,
  );
  const start = seed ?? simulationSeed;
  requireThat(
    Number.isSafeInteger(start) && start >= 0 && start < 2 ** 32,
    'seed',
    'a whole number from 0 to 4294967295',
    problems,
  );
  const confidence = optionalNumberAt(fields, 'confidence', problems) ?? 0.95;
  requireThat(confidence > 0 && confidence < 1, 'confidence', 'between 0 and 1', problems);
  const shareWithin =
    judgeBy === 'simulation'
      ? numberAt(fields, 'share_within', problems)
      : optionalNumberAt(fields, 'share_within', problems);
  if (shareWithin !== undefined)
    requireThat(shareWithin > 0 && shareWithin < 1, 'share_within', 'between 0 and 1', problems);
  return {
    judgeBy,
    distribution,
    sigmaLevel,
    simulation: {
      trials: counted,
      seed: start,
      confidence,
      ...(shareWithin === undefined ? {} : { shareWithin }),
    },
  };
};

/** A result that varies with its inputs: what it can become, in the unit of the limit. */
export interface Spread {
  readonly nominal: number;
  readonly worstCase: Interval;
  /** Whether both ends of the worst case are reached; otherwise they are safe bounds. */
  readonly exact: boolean;
  /** First-order propagation; absent where the result has no slope in the middle of the tolerances. */
  readonly rootSumSquare?: { readonly centre: number; readonly halfWidth: number };
  /** Names of the inputs with their share of the squared half width; empty without first-order propagation. */
  readonly contributions: readonly { readonly name: string; readonly share: number }[];
  /** What rounding may do to an end. */
  readonly slack: number;
  /** Inputs without a tolerance, which are counted as exact. */
  readonly exactInputs: readonly string[];
  /** For a simulation: the inputs, and the result for one draw of them. */
  readonly quantities: readonly SpreadQuantity[];
  readonly model: (values: readonly number[]) => number;
}

/** Decimals that show a width with two digits that count; two at least. */
const decimalsFor = (width: number): number =>
  width > 0 ? Math.min(12, Math.max(2, Math.ceil(-Math.log10(width)) + 1)) : 2;

interface Judged {
  readonly verdict: CharacteristicEvidence['verdict'];
  readonly reason: string;
  readonly remedy?: string;
}

/**
 * Holds a spread against its limit by the way that the record asks for.
 *
 * Source: worst case by definition; root of the sum of squares JCGM 100:2008, 5.1.2; simulation JCGM 101:2008, with the
 * bound of Clopper and Pearson, Biometrika 26 (1934), for the share outside.
 */
export const judgeSpread = (
  spread: Spread,
  limit: AcceptanceLimits,
  options: SpreadOptions,
): Omit<CharacteristicEvidence, 'limits'> => {
  const { worstCase, rootSumSquare } = spread;
  const decimals = decimalsFor(worstCase.high - worstCase.low);
  const low = limit.lower ?? Number.NEGATIVE_INFINITY;
  const high = limit.upper ?? Number.POSITIVE_INFINITY;
  const within = (from: number, to: number): boolean =>
    from >= low - spread.slack && to <= high + spread.slack;
  const range = (from: number, to: number): string => {
    // An end that misses the limit by little must not look like it; one that meets it but for rounding must.
    const telling = (end: number, bound: number | undefined): number =>
      bound === undefined || Math.abs(end - bound) <= spread.slack
        ? decimals
        : decimalsThatTell(end, bound, decimals);
    const shown = Math.max(telling(from, limit.lower), telling(to, limit.upper));
    return `${fixed(from, shown)} to ${withUnit(fixed(to, shown), limit.unit)}, required ${limitText(limit)}`;
  };
  const simulated = simulation(spread, limit, { ...options, decimals });

  const judged = (): Judged => {
    if (options.judgeBy === 'simulation') return simulated.judged;
    if (options.judgeBy === 'root-sum-square') {
      if (!rootSumSquare)
        return {
          verdict: 'undecided',
          reason: 'root-sum-square has no ground: the formula has a kink in the middle of the tolerances',
          remedy: 'Judge by the worst case or by a simulation, with a new approval of the analysis.',
        };
      const from = rootSumSquare.centre - rootSumSquare.halfWidth;
      const to = rootSumSquare.centre + rootSumSquare.halfWidth;
      return {
        verdict: within(from, to) ? 'pass' : 'fail',
        reason: `root-sum-square ${range(from, to)}`,
      };
    }
    const passes = within(worstCase.low, worstCase.high);
    if (passes || spread.exact)
      return {
        verdict: passes ? 'pass' : 'fail',
        reason: `worst case ${range(worstCase.low, worstCase.high)}`,
      };
    return {
      verdict: 'undecided',
      reason: `the worst case lies within ${range(worstCase.low, worstCase.high)}, and these bounds are too wide to tell`,
      remedy:
        'Write the formula so that each variable occurs once where that is possible, or judge by simulation.',
    };
  };
  return {
    ...judged(),
    sampleSize: 1,
    readings: [],
    values: [
      namedValue('nominal', 'nominal', spread.nominal, limit.unit, decimals),
      namedValue('worst_case_lower', 'worst case, lower', worstCase.low, limit.unit, decimals),
      namedValue('worst_case_upper', 'worst case, upper', worstCase.high, limit.unit, decimals),
      ...(rootSumSquare
        ? [
            namedValue(
              'centre',
              'result in the middle of the tolerances',
              rootSumSquare.centre,
              limit.unit,
              decimals,
            ),
            namedValue(
              'root_sum_square',
              'root-sum-square half width',
              rootSumSquare.halfWidth,
              limit.unit,
              decimals + 1,
            ),
          ]
        : []),
      ...spread.contributions.map(({ name, share }, index) =>
        namedValue(`share_${index + 1}`, `share of ${name}`, share * 100, '%', 0),
      ),
      ...simulated.values,
    ],
    assumptions: [
      rootSumSquare
        ? {
            name: 'largest contributor',
            outcome: 'not tested',
            detail: spread.contributions.map(({ name, share }) => `${name} ${percent(share)}`).join(', '),
          }
        : {
            name: 'shares of the inputs',
            outcome: 'not tested',
            detail:
              'the formula has a kink in the middle of the tolerances (abs, min or max), where shares of first order have no ground',
          },
      ...(spread.exactInputs.length > 0
        ? [
            {
              name: 'inputs without a tolerance',
              outcome: 'not tested' as const,
              detail: `counted as exact: ${spread.exactInputs.join(', ')}`,
            },
          ]
        : []),
      ...(options.judgeBy === 'root-sum-square'
        ? [
            {
              name: 'independent and centred inputs',
              outcome: 'not tested' as const,
              detail:
                'the root of squares holds as often as each tolerance holds, if the inputs vary independently about the middle of their tolerances',
            },
          ]
        : []),
      ...simulated.assumptions,
    ],
  };
};

/** The simulation, where one is asked for, with its values and what it says against the limit. */
const simulation = (
  spread: Spread,
  limit: AcceptanceLimits,
  { decimals, ...options }: SpreadOptions & { readonly decimals: number },
): {
  readonly judged: Judged;
  readonly values: readonly NamedValue[];
  readonly assumptions: readonly Assumption[];
} => {
  const none: Judged = { verdict: 'undecided', reason: 'no simulation was asked for' };
  if (!options.simulation) return { judged: none, values: [], assumptions: [] };
  const { trials, seed, confidence, shareWithin } = options.simulation;
  const outcome = simulate(spread.quantities, spread.model, {
    trials,
    seed,
    coverage: 0.9973,
    confidence,
    limits: {
      ...(limit.lower === undefined ? {} : { lower: limit.lower - spread.slack }),
      ...(limit.upper === undefined ? {} : { upper: limit.upper + spread.slack }),
    },
  });
  if (!outcome.ok)
    return {
      judged: {
        verdict: 'undecided',
        reason: `the simulation has no result: ${outcome.reason}`,
        remedy: 'Choose distributions that keep the inputs where the formula has a value.',
      },
      values: [],
      assumptions: [],
    };
  const found = outcome.value;
  const outside = found.outside / found.trials;
  const words = `${found.outside} of ${found.trials} simulated results lie outside ${limitText(limit)}, at most ${percent(found.shareOutsideLimit, 4)} with ${confidenceText(confidence)} confidence`;
  return {
    judged: judgeShare(words, { outside, bound: found.shareOutsideLimit, confidence, trials }, shareWithin),
    values: [
      namedValue('simulated_mean', 'simulated mean', found.mean, limit.unit, decimals + 1),
      namedValue(
        'simulated_standard_deviation',
        'simulated standard deviation',
        found.standardDeviation,
        limit.unit,
        decimals + 2,
      ),
      namedValue('simulated_lower', '99.73 % of the results from', found.lower, limit.unit, decimals),
      namedValue('simulated_upper', '99.73 % of the results to', found.upper, limit.unit, decimals),
      namedValue('share_outside', 'share outside the limits', 100 * outside, '%', 4),
      namedValue(
        'share_outside_bound',
        `share outside, ${confidenceText(confidence)} bound`,
        100 * found.shareOutsideLimit,
        '%',
        4,
      ),
    ],
    assumptions: [
      {
        name: 'distributions of the inputs',
        outcome: 'not tested',
        detail: `${trials} trials with seed ${seed}; independent inputs about the middle of their tolerances, ${[...new Set(spread.quantities.map((each) => each.distribution))].join(' and ')}${spread.quantities.some((each) => each.distribution === 'normal') ? `, normal ones with ${options.sigmaLevel} standard deviations in half of the tolerance` : ''}`,
      },
    ],
  };
};

const judgeShare = (
  words: string,
  found: {
    readonly outside: number;
    readonly bound: number;
    readonly confidence: number;
    readonly trials: number;
  },
  shareWithin: number | undefined,
): Judged => {
  if (shareWithin === undefined) return { verdict: 'undecided', reason: `${words}; no share is required` };
  const allowed = 1 - shareWithin;
  const required = `${words}; allowed ${percent(allowed, 4)}`;
  if (found.bound <= allowed) return { verdict: 'pass', reason: required };
  if (found.outside > allowed) return { verdict: 'fail', reason: required };
  const needed = successRunSampleSize({ confidence: found.confidence, reliability: shareWithin });
  return {
    verdict: 'undecided',
    reason: `${required}: too few trials to tell`,
    remedy: `Run more trials; without a single one outside it takes ${needed}.`,
  };
};

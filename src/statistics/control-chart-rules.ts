/**
 * Run rules on individual values in the order in which they were made or measured. They tell whether the spread looks
 * like chance alone, or whether something moved meanwhile. A signal is a reason to look; it decides nothing by itself.
 *
 * Both rule sets are written down from memory of their published form.
 */
import { requireFinite, requirePositive } from './argument-checks.ts';
import { type Computed, computed } from './data-problem.ts';
import { arithmeticMean } from './descriptive.ts';
import { normalCdf } from './distributions.ts';
import { movingRangeSpread, type WithinSpread } from './within-subgroup-spread.ts';

export interface ControlChartRule {
  /** For a reader: `9 in a row on one side of the mean`. */
  readonly title: string;
  /** How many values in a row the rule looks at. */
  readonly window: number;
  /** Whether the window shows the pattern, in standard deviations from the centre, first value first. */
  readonly shows: (scores: readonly number[]) => boolean;
  /** Probability of the pattern at one place when only chance is at work, for normal values and known limits. Exact. */
  readonly falseAlarmRate: number;
}

/** P(Z > z): the share of normal values beyond z on one side. */
const beyond = (z: number): number => normalCdf(-z);

const oneBeyond: ControlChartRule = {
  title: 'a value beyond 3 standard deviations',
  window: 1,
  shows: ([score]) => Math.abs(score!) > 3,
  falseAlarmRate: 2 * beyond(3),
};

/** `least` of `window` values beyond z standard deviations on the same side. */
function severalBeyond(least: number, window: number, z: number): ControlChartRule {
  let oneSide = 0;
  let ways = 1;
  for (let hits = window; hits >= least; hits--) {
    oneSide += ways * beyond(z) ** hits * (1 - beyond(z)) ** (window - hits);
    ways = (ways * hits) / (window - hits + 1);
  }
  const many = (scores: readonly number[], side: number): boolean =>
    scores.filter((score) => side * score > z).length >= least;
  return {
    title: `${least} of ${window} beyond ${z} standard deviation${z === 1 ? '' : 's'} on one side`,
    window,
    shows: (scores) => many(scores, 1) || many(scores, -1),
    // Both sides at once would take more values than the window has.
    falseAlarmRate: 2 * oneSide,
  };
}

/** A value on the centre line itself ends the run. */
function runOnOneSide(window: number): ControlChartRule {
  return {
    title: `${window} in a row on one side of the mean`,
    window,
    shows: (scores) => scores.every((score) => score > 0) || scores.every((score) => score < 0),
    falseAlarmRate: 2 * 0.5 ** window,
  };
}

/** Two equal neighbours end the trend. Of all orders of the values, one rises and one falls. */
function trend(window: number): ControlChartRule {
  const steps = (scores: readonly number[], sign: number): boolean =>
    scores.every((score, i) => i === 0 || sign * (score - scores[i - 1]!) > 0);
  let orders = 1;
  for (let n = 2; n <= window; n++) orders *= n;
  return {
    title: `${window} in a row rising or falling`,
    window,
    shows: (scores) => steps(scores, 1) || steps(scores, -1),
    falseAlarmRate: 2 / orders,
  };
}

/** Up and down in turn; two equal neighbours end it. Orders of this kind are counted by the zigzag numbers (Andre, 1879). */
function alternation(window: number): ControlChartRule {
  const turns = (scores: readonly number[], first: number): boolean =>
    scores.every((score, i) => i === 0 || (i % 2 ? first : -first) * (score - scores[i - 1]!) > 0);
  // Seidel's triangle: each row is the running sum of the reversed row before; divided by n! on the way.
  let row = [1];
  let orders = 1;
  for (let n = 1; n <= window; n++) {
    let sum = 0;
    row = [0, ...row.toReversed().map((entry) => (sum += entry))];
    orders *= n;
  }
  return {
    title: `${window} in a row up and down in turn`,
    window,
    shows: (scores) => turns(scores, 1) || turns(scores, -1),
    falseAlarmRate: (2 * row.at(-1)!) / orders,
  };
}

const fifteenNear: ControlChartRule = {
  title: '15 in a row within 1 standard deviation',
  window: 15,
  shows: (scores) => scores.every((score) => Math.abs(score) < 1),
  falseAlarmRate: (1 - 2 * beyond(1)) ** 15,
};

const eightFar: ControlChartRule = {
  title: '8 in a row beyond 1 standard deviation, on both sides',
  window: 8,
  shows: (scores) =>
    scores.every((score) => Math.abs(score) > 1) &&
    scores.some((score) => score > 0) &&
    scores.some((score) => score < 0),
  falseAlarmRate: (2 * beyond(1)) ** 8 - 2 * beyond(1) ** 8,
};

/** The four tests of the Western Electric Statistical Quality Control Handbook (1956), from memory. */
export const westernElectricRules: readonly ControlChartRule[] = [
  oneBeyond,
  severalBeyond(2, 3, 2),
  severalBeyond(4, 5, 1),
  runOnOneSide(8),
];

/**
 * The eight tests of Nelson (Journal of Quality Technology 16, 1984), from memory, in his order. He advises the first
 * four for routine use, the fifth and sixth where an earlier warning is wanted.
 */
export const nelsonRules: readonly ControlChartRule[] = [
  oneBeyond,
  runOnOneSide(9),
  trend(6),
  alternation(14),
  severalBeyond(2, 3, 2),
  severalBeyond(4, 5, 1),
  fifteenNear,
  eightFar,
];

/** A stretch of values that shows a pattern; overlapping windows of one rule are one stretch. Counted from 0. */
export interface ControlChartSignal {
  readonly rule: ControlChartRule;
  readonly from: number;
  readonly to: number;
}

/**
 * Signals by rule, then by place, of values against a centre and a standard deviation that are known or estimated.
 * Throws a RangeError on arguments out of range.
 *
 * Source: Western Electric, Statistical Quality Control Handbook (1956), and Nelson, Journal of Quality Technology 16
 * (1984) (both from memory).
 */
export function controlChartSignals(
  values: readonly number[],
  { centre, standardDeviation }: { readonly centre: number; readonly standardDeviation: number },
  rules: readonly ControlChartRule[],
): readonly ControlChartSignal[] {
  requireFinite('centre', centre);
  requirePositive('standardDeviation', standardDeviation);
  for (const [i, value] of values.entries()) requireFinite(`value ${i + 1}`, value);
  const scores = values.map((value) => (value - centre) / standardDeviation);
  return rules.flatMap((rule) => {
    const stretches: { rule: ControlChartRule; from: number; to: number }[] = [];
    for (let from = 0; from + rule.window <= scores.length; from++) {
      if (!rule.shows(scores.slice(from, from + rule.window))) continue;
      const to = from + rule.window - 1;
      const last = stretches.at(-1);
      if (last && from <= last.to) last.to = to;
      else stretches.push({ rule, from, to });
    }
    return stretches;
  });
}

/** Chart of individual values: mean, and standard deviation from the moving range. */
export interface IndividualsChart extends WithinSpread {
  readonly centre: number;
  /** Centre minus and plus 3 standard deviations. */
  readonly lowerLimit: number;
  readonly upperLimit: number;
  readonly signals: readonly ControlChartSignal[];
}

/**
 * The chart of individual values in the order of the run. Needs two values and some spread. The limits come from the
 * same values, so false alarms are somewhat more frequent than with known limits.
 *
 * Source: NIST/SEMATECH e-Handbook 6.3.2.2.
 */
export function individualsChart(
  values: readonly number[],
  rules: readonly ControlChartRule[],
): Computed<IndividualsChart> {
  const spread = movingRangeSpread(values);
  if (!spread.ok) return spread;
  const { standardDeviation } = spread.value;
  const centre = arithmeticMean(values);
  return computed({
    ...spread.value,
    centre,
    lowerLimit: centre - 3 * standardDeviation,
    upperLimit: centre + 3 * standardDeviation,
    signals: controlChartSignals(values, { centre, standardDeviation }, rules),
  });
}

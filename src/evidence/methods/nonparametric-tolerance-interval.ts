import {
  type OrderStatisticInterval,
  orderStatisticBound,
  orderStatisticInterval,
  smallestSampleForRank,
} from '../../statistics/order-statistics.ts';
import { confidenceReliability } from '../number-text.ts';
import type { CharacteristicEvidence } from '../result.ts';
import { limitFault } from './limit-fault.ts';
import { lotMeans } from './lot-means.ts';
import type { EvidenceMethod, MethodInput } from './method.ts';
import { namedValues } from './named-values.ts';
import { runOrder, runOrderExplanation } from './run-order.ts';
import { boundValues, sidesOf, toleranceVerdict } from './tolerance-verdict.ts';
import { beyondRange, shownValues, type UnitRange, unitRanges } from './unit-ranges.ts';
import { undecidedOn } from './values-by-unit.ts';

/** Stands for a value that lies beyond the range, so that it sorts to its end. */
const beyond = Number.MAX_VALUE;

const lowerEnds = (ranges: readonly UnitRange[]): readonly number[] =>
  ranges.map(({ low }) => Math.max(low, -beyond));
const upperEnds = (ranges: readonly UnitRange[]): readonly number[] =>
  ranges.map(({ high }) => Math.min(high, beyond));

const evaluate = ({ limits, perUnit, sampling, readings }: MethodInput): CharacteristicEvidence => {
  const taken = unitRanges(readings.list, perUnit);
  const { groups } = taken;
  const ranges = taken.ok ? taken.ranges : [];
  const values = shownValues(ranges);
  const base = { limits, sampleSize: groups.length, readings: values, ...beyondRange(ranges) };
  if (!taken.ok) return undecidedOn(base, taken.reason, taken.remedy);
  const fault = limitFault(limits);
  if (fault) return undecidedOn(base, fault.reason, fault.remedy);
  const required = {
    coverage: sampling.reliability ?? Number.NaN,
    confidence: sampling.confidence ?? Number.NaN,
  };
  const sides = sidesOf(limits);
  const needed = smallestSampleForRank({ ...required, rank: sides === 'both' ? 2 : 1 });
  const plan = confidenceReliability(required.confidence, required.coverage);
  // Each end is taken from what is known at the least: a reading beyond the range counts as beyond everything.
  const below = sides === 'upper' ? undefined : boundOf(lowerEnds(ranges), required, sides, 'lower');
  const above = sides === 'lower' ? undefined : boundOf(upperEnds(ranges), required, sides, 'upper');
  if (below?.ok === false || above?.ok === false)
    return undecidedOn(
      base,
      `${groups.length} ${groups.length === 1 ? 'unit is' : 'units are'} too few: ${plan} with ${sides === 'both' ? 'two limits' : 'one limit'} needs ${needed}`,
      `Plan ${needed} units, or a method that rests on a distribution.`,
    );
  const lower = below?.value.bound;
  const upper = above?.value.bound;
  const decimals = readings.decimals;
  const named = namedValues(limits.unit, decimals);
  const ordered = values.toSorted((a, b) => a - b);
  const confidence = below?.value.achievedConfidence ?? above?.value.achievedConfidence ?? Number.NaN;
  const isBeyond = (bound: number | undefined): boolean => bound !== undefined && Math.abs(bound) >= beyond;
  const numbers = [
    named('n', 'units', groups.length, { decimals: 0, unit: '1' }),
    named('minimum', 'smallest', ordered[0] ?? Number.NaN),
    named('maximum', 'largest', ordered[ordered.length - 1] ?? Number.NaN),
    ...(below
      ? [
          named('lower_rank', 'rank of the lower bound, counted from the smallest', below.value.rank, {
            decimals: 0,
            unit: '1',
          }),
        ]
      : []),
    ...(above
      ? [
          named('upper_rank', 'rank of the upper bound, counted from the largest', above.value.rank, {
            decimals: 0,
            unit: '1',
          }),
        ]
      : []),
    named('achieved_confidence', 'confidence reached', confidence * 100, { decimals: 2, unit: '%' }),
    ...boundValues(
      {
        ...(lower === undefined || isBeyond(lower) ? {} : { lower }),
        ...(upper === undefined || isBeyond(upper) ? {} : { upper }),
      },
      plan,
      limits.unit,
      decimals,
    ),
  ];
  const isMeasured = ranges.every(({ low, high }) => low === high);
  const assumptions = [
    ...lotMeans(groups, values, decimals),
    ...(isMeasured ? runOrder(values, groups) : []),
  ];
  if (isBeyond(lower) || isBeyond(upper))
    return undecidedOn(
      base,
      `the reading that serves as ${isBeyond(lower) ? 'lower' : 'upper'} bound is beyond the range of the instrument`,
      'Measure with an instrument that covers the limit, or plan more units, so that a reading further inside can serve.',
      { values: numbers, assumptions },
    );
  const verdictOn = (low: number | undefined, high: number | undefined) =>
    toleranceVerdict(
      { ...(low === undefined ? {} : { lower: low }), ...(high === undefined ? {} : { upper: high }) },
      limits,
      plan,
      decimals,
    );
  const judged = verdictOn(lower, upper);
  // A bound that fails only because a reading was not measured further may keep the limit after all.
  const best = isMeasured
    ? judged
    : verdictOn(
        below && endOf(boundOf(upperEnds(ranges), required, sides, 'lower')),
        above && endOf(boundOf(lowerEnds(ranges), required, sides, 'upper')),
      );
  if (judged.verdict === 'fail' && best.verdict === 'pass')
    return undecidedOn(
      base,
      `${judged.reason}; the reading that serves as bound lies beyond the range of the instrument, and may keep the limit`,
      'Measure with an instrument whose range reaches the limit.',
      { values: numbers, assumptions },
    );
  return { ...base, ...judged, values: numbers, assumptions };
};

const endOf = (outcome: ReturnType<typeof boundOf>): number | undefined =>
  outcome.ok ? outcome.value.bound : undefined;

interface RankedBound {
  readonly bound: number;
  readonly rank: number;
  readonly achievedConfidence: number;
}

const boundOf = (
  values: readonly number[],
  required: { readonly coverage: number; readonly confidence: number },
  sides: 'lower' | 'upper' | 'both',
  side: 'lower' | 'upper',
): { readonly ok: true; readonly value: RankedBound } | { readonly ok: false } => {
  if (sides !== 'both') return orderStatisticBound(values, { ...required, side });
  const interval = orderStatisticInterval(values, required);
  return interval.ok ? { ok: true, value: oneEnd(interval.value, side) } : interval;
};

const oneEnd = (interval: OrderStatisticInterval, side: 'lower' | 'upper'): RankedBound => ({
  bound: interval[side],
  rank: side === 'lower' ? interval.lowerRank : interval.upperRank,
  achievedConfidence: interval.achievedConfidence,
});

export const nonparametricToleranceIntervalMethod: EvidenceMethod = {
  name: 'nonparametric-tolerance-interval',
  title: 'Distribution-free tolerance interval',
  basis:
    'order statistics; Wilks, Annals of Mathematical Statistics 12 (1941); Meeker, Hahn and Escobar, Statistical Intervals, 2nd ed., chapter 5',
  explain: `One of the ordered readings bounds, with at least the stated confidence, at least the stated share of all units, whatever their distribution. For a lower limit it is the k-th smallest reading, for an upper limit the k-th largest, with the largest k for which the binomial probability P(X <= k - 1; n, 1 - reliability) is at most 1 - confidence. With two limits the ranks at both ends add up to that k; where k is odd, the lower end keeps the outer reading. The verdict is \`pass\` where the bound keeps the limit. The report gives ranks and the confidence that they reach.

Use it where nothing is known of the distribution, where a normal or other model was refuted, or where readings pile up at an end of the range. It asks for many units: 59 for 95/95 with one limit and 93 with two, 299 and 473 for 95/99. With fewer the verdict is \`undecided\` and the reason names the number.

It holds for independent units drawn at random from one continuous population; rounding and ties make it safer, not riskier. Readings beyond the range of the instrument may be used as long as none of them has to serve as the bound: \`>60\` counts as beyond everything for an upper bound and as 60 for a lower one. Where the bound misses the limit only because a reading was not measured further, the verdict is \`undecided\`. Several readings of one unit are first made one value by \`per_unit\`.

Where it is undecided, plan the number of units that the reason names, or a method that rests on a distribution known from earlier data. Caution: the bound is a reading, so it never says anything beyond the readings taken; units added because the first ones did not do need a plan of their own.

${runOrderExplanation}

Needs \`confidence\` and \`reliability\` under \`sampling\`. With this method the k and the size hang together: plan the size for the k that leaves room for odd readings.`,
  needs: ['confidence', 'reliability'],
  statesReliability: true,
  smallestSize: (confidence, reliability, _accept, hasTwoLimits = false) =>
    smallestSampleForRank({ coverage: reliability, confidence, rank: hasTwoLimits ? 2 : 1 }),
  evaluate,
};

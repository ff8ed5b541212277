import { fewestValuesForNormality } from '../../statistics/anderson-darling.ts';
import { lognormalToleranceInterval } from '../../statistics/lognormal-tolerance.ts';
import { confidenceReliability } from '../number-text.ts';
import type { CharacteristicEvidence } from '../result.ts';
import { extremesOf } from './extremes.ts';
import { limitFault } from './limit-fault.ts';
import { lotMeans } from './lot-means.ts';
import type { EvidenceMethod, MethodInput } from './method.ts';
import { namedValues } from './named-values.ts';
import { testNormality } from './normality.ts';
import { outlier } from './outlier.ts';
import { plotCorrelationValue } from './plot-correlation.ts';
import { runOrder, runOrderExplanation } from './run-order.ts';
import { boundValues, plannedBeforeTheData, sidesOf, toleranceVerdict } from './tolerance-verdict.ts';
import { undecidedOn, valuesByUnit } from './values-by-unit.ts';

const evaluate = ({ limits, perUnit, sampling, readings }: MethodInput): CharacteristicEvidence => {
  const taken = valuesByUnit(readings.list, perUnit);
  const { groups } = taken;
  const values = taken.ok ? taken.values : [];
  const base = { limits, sampleSize: groups.length, readings: values };
  if (!taken.ok) return undecidedOn(base, taken.reason, taken.remedy);
  const fault = limitFault(limits);
  if (fault) return undecidedOn(base, fault.reason, fault.remedy);
  const confidence = sampling.confidence ?? Number.NaN;
  const coverage = sampling.reliability ?? Number.NaN;
  const interval = lognormalToleranceInterval(values, { coverage, confidence, sides: sidesOf(limits) });
  if (!interval.ok)
    return undecidedOn(
      base,
      interval.reason,
      interval.problem === 'not-positive'
        ? 'Use a method without logarithms: readings of 0 or below are not lognormal.'
        : 'Take more units, or use an attribute method.',
    );
  const { ofLogarithms, geometricMean, lower, upper } = interval.value;
  const decimals = readings.decimals;
  const named = namedValues(limits.unit, decimals);
  const plain = { decimals: 4, unit: '1' };
  const plan = confidenceReliability(confidence, coverage);
  const extremes = extremesOf(values);
  const logarithms = values.map(Math.log);
  const bounds = { ...(lower === undefined ? {} : { lower }), ...(upper === undefined ? {} : { upper }) };
  const numbers = [
    named('n', 'units', groups.length, { decimals: 0, unit: '1' }),
    named('minimum', 'smallest', extremes?.smallest ?? Number.NaN),
    named('maximum', 'largest', extremes?.largest ?? Number.NaN),
    named('geometric_mean', 'geometric mean', geometricMean, { decimals: decimals + 1 }),
    named('mean_of_logarithms', 'mean of the natural logarithms', ofLogarithms.mean, plain),
    named(
      'standard_deviation_of_logarithms',
      'standard deviation of the natural logarithms',
      ofLogarithms.standardDeviation,
      plain,
    ),
    named('factor', 'tolerance factor k', ofLogarithms.factor, plain),
    ...plotCorrelationValue(logarithms, 'the logarithms'),
    ...boundValues(bounds, plan, limits.unit, decimals),
  ];
  const fits = testNormality(logarithms, 'lognormal distribution');
  const assumptions = [
    fits,
    ...lotMeans(groups, values, decimals),
    ...runOrder(values, groups),
    ...outlier(groups, logarithms, 4, ', logarithm'),
  ];
  if (fits.outcome !== 'met')
    return undecidedOn(
      base,
      fits.outcome === 'not met'
        ? `the logarithms of the readings do not look normal (${fits.detail}), so the tolerance bound does not hold`
        : `whether the readings are lognormal cannot be tested (${fits.detail}), so the tolerance bound has no ground`,
      fits.outcome === 'not met'
        ? 'Look for mixed lots or an outlier; else plan nonparametric-tolerance-interval or an attribute plan, with new units.'
        : 'Take more units, or use an attribute plan.',
      { values: numbers, assumptions },
    );
  return { ...base, ...toleranceVerdict(bounds, limits, plan, decimals), values: numbers, assumptions };
};

export const lognormalToleranceBoundMethod: EvidenceMethod = {
  name: 'lognormal-tolerance-bound',
  title: 'Lognormal tolerance bound',
  basis:
    'exact normal tolerance factors of the logarithms, carried back; Meeker, Hahn and Escobar, Statistical Intervals, 2nd ed., section 4.9; ISO 16269-6:2014',
  explain: `The normal tolerance bound of the natural logarithms, mean minus (or plus) k times their standard deviation, is carried back by exp. As exp keeps the order, what holds for the logarithms holds for the readings: with the stated confidence at least the stated share of all units lies within the bound. One limit: one-sided factor from the noncentral t distribution. Two limits: exact two-sided factor. The verdict is \`pass\` where the bound keeps the limit.

Use it for what is above 0 and spreads by factors rather than by differences: residues, particle counts, bioburden, times, leak rates. The geometric mean estimates the median, not the mean.

It holds for independent units whose logarithms are normal. That is tested (Anderson-Darling, from 8 units on) at the level 0.05; where it fails, or there are fewer units, the verdict is \`undecided\`. The correlation of the probability plot of the logarithms (Filliben, 1975) is reported beside it and decides nothing. Readings of 0, below 0 or below the reporting limit cannot be used. Several readings of one unit are first made one value by \`per_unit\`.

Where it is undecided, look for mixed lots or an outlier, which no method removes by itself; then plan \`nonparametric-tolerance-interval\` or an attribute plan, with new units. Caution: upper bounds of widely spread readings grow fast, since k times the standard deviation is a factor here, not a difference.

${plannedBeforeTheData}

${runOrderExplanation}

Needs \`confidence\` and \`reliability\` under \`sampling\`.`,
  needs: ['confidence', 'reliability'],
  statesReliability: true,
  fewestUnits: () => fewestValuesForNormality,
  evaluate,
};

import { withUnit } from '../../records/units.ts';
import { andersonDarlingTest } from '../../statistics/anderson-darling.ts';
import { describeSample } from '../../statistics/descriptive.ts';
import { shapiroWilkTest } from '../../statistics/shapiro-wilk.ts';
import { normalToleranceInterval } from '../../statistics/tolerance-factor.ts';
import { confidenceReliability, decimalsThatTell, fixed } from '../number-text.ts';
import { byUnit, type UnitGroup } from '../readings.ts';
import type { Assumption, CharacteristicEvidence, NamedValue } from '../result.ts';
import { limitText } from './conformity.ts';
import { extremesOf } from './extremes.ts';
import type { EvidenceMethod, MethodInput, PerUnit } from './method.ts';

/** Below this p the readings are taken not to be normal (common practice, no source). */
export const normalityLevel = 0.05;

const oneValue = (group: UnitGroup, perUnit: PerUnit | undefined): number => {
  const values = group.readings.map((reading) => reading.value ?? Number.NaN);
  if (values.length === 1) return values[0] ?? Number.NaN;
  if (perUnit === 'maximum') return extremesOf(values)?.largest ?? Number.NaN;
  if (perUnit === 'minimum') return extremesOf(values)?.smallest ?? Number.NaN;
  if (perUnit === 'mean') return values.reduce((sum, value) => sum + value, 0) / values.length;
  return Number.NaN;
};

const testNormality = (values: readonly number[]): Assumption => {
  const name = 'normal distribution';
  const enough = values.length >= 8;
  const test = enough ? andersonDarlingTest(values) : shapiroWilkTest(values);
  if (!test.ok) return { name, outcome: 'not tested', detail: test.reason };
  const label = enough ? 'Anderson-Darling' : 'Shapiro-Wilk';
  const symbol = enough ? 'A²' : 'W';
  const { pValue, statistic } = test.value;
  return {
    name,
    outcome: pValue >= normalityLevel ? 'met' : 'not met',
    detail: `${label} ${symbol} ${fixed(statistic, 3)}, p ${pValue < 0.001 ? 'below 0.001' : fixed(pValue, 3)}`,
  };
};

const evaluate = ({ limits, perUnit, sampling, readings }: MethodInput): CharacteristicEvidence => {
  const groups = byUnit(readings.list);
  const repeated = groups.some((group) => group.readings.length > 1);
  const values = groups.map((group) => oneValue(group, perUnit));
  const confidence = sampling.confidence ?? Number.NaN;
  const reliability = sampling.reliability ?? Number.NaN;
  const base = { limits, sampleSize: groups.length, readings: values };
  const undecided = (
    reason: string,
    remedy: string,
    more: Partial<CharacteristicEvidence> = {},
  ): CharacteristicEvidence => ({
    ...base,
    verdict: 'undecided',
    reason,
    remedy,
    values: [],
    assumptions: [],
    ...more,
  });
  if (readings.list.some((reading) => reading.word))
    return undecided(
      'the readings are words, not numbers',
      'Use an attribute method for pass and fail readings.',
    );
  if (readings.list.some((reading) => reading.bound))
    return undecided(
      'some readings are beyond the range of the instrument',
      'Use an attribute method, or a method for censored readings.',
    );
  if (repeated && !perUnit)
    return undecided(
      'some units have several readings',
      'Say under acceptance, with per_unit, whether the maximum, minimum or mean of a unit counts: readings of one unit are not independent.',
      { readings: [] },
    );
  const sides =
    limits.lower !== undefined && limits.upper !== undefined
      ? 'both'
      : limits.lower !== undefined
        ? 'lower'
        : 'upper';
  const sample = describeSample(values);
  const interval = normalToleranceInterval(values, { coverage: reliability, confidence, sides });
  if (!sample.ok || !interval.ok)
    return undecided(
      !sample.ok ? sample.reason : interval.ok ? '' : interval.reason,
      'Take more units, or use an attribute method.',
    );
  const decimals = readings.decimals;
  const { mean, standardDeviation, factor, lower, upper } = interval.value;
  const plan = confidenceReliability(confidence, reliability);
  const named = (
    key: string,
    label: string,
    value: number,
    digits = decimals,
    unit = limits.unit,
  ): NamedValue => ({ key, label, value, unit, decimals: digits });
  const numbers: NamedValue[] = [
    named('n', 'units', groups.length, 0, '1'),
    named('mean', 'mean', mean),
    named('standard_deviation', 'standard deviation', standardDeviation),
    named('minimum', 'smallest', sample.value.minimum),
    named('maximum', 'largest', sample.value.maximum),
    named('factor', 'tolerance factor k', factor, 4, '1'),
    ...(lower === undefined ? [] : [named('lower_bound', `${plan} lower tolerance bound`, lower)]),
    ...(upper === undefined ? [] : [named('upper_bound', `${plan} upper tolerance bound`, upper)]),
  ];
  const normality = testNormality(values);
  const lots = [...new Set(groups.map((group) => group.lot ?? ''))].filter((lot) => lot !== '');
  const assumptions = [normality, ...(lots.length > 1 ? [lotMeans(groups, values, lots, decimals)] : [])];
  const low = limits.lower ?? Number.NEGATIVE_INFINITY;
  const high = limits.upper ?? Number.POSITIVE_INFINITY;
  const holds = (lower ?? Number.POSITIVE_INFINITY) >= low && (upper ?? Number.NEGATIVE_INFINITY) <= high;
  const digits = Math.max(
    decimalsThatTell(lower ?? 0, lower === undefined ? undefined : limits.lower, decimals),
    decimalsThatTell(upper ?? 0, upper === undefined ? undefined : limits.upper, decimals),
  );
  const show = (value: number): string => withUnit(fixed(value, digits), limits.unit);
  const bound =
    sides === 'both'
      ? `${plan} tolerance interval ${fixed(lower ?? 0, digits)} to ${show(upper ?? 0)}`
      : `${plan} ${sides} tolerance bound ${show(lower ?? upper ?? 0)}`;
  const wanted = limitText(limits);
  if (normality.outcome !== 'met')
    return undecided(
      normality.outcome === 'not met'
        ? `the readings do not look normal (${normality.detail}), so the tolerance interval does not hold`
        : `whether the readings are normal cannot be tested (${normality.detail}), so the tolerance interval has no ground`,
      normality.outcome === 'not met'
        ? 'Look for mixed lots or an outlier; else use an attribute plan or a distribution-free method, planned anew.'
        : 'Take more units, or use an attribute plan.',
      { values: numbers, assumptions },
    );
  return {
    ...base,
    verdict: holds ? 'pass' : 'fail',
    reason: `${bound}, required ${wanted}`,
    values: numbers,
    assumptions,
  };
};

const lotMeans = (
  groups: readonly UnitGroup[],
  values: readonly number[],
  lots: readonly string[],
  decimals: number,
): Assumption => {
  const means = lots.map((lot) => {
    const own = values.filter((_, index) => groups[index]?.lot === lot);
    return `${lot} ${fixed(own.reduce((sum, value) => sum + value, 0) / own.length, decimals)} (n ${own.length})`;
  });
  return { name: 'lots alike', outcome: 'not tested', detail: `means by lot: ${means.join(', ')}` };
};

export const normalToleranceIntervalMethod: EvidenceMethod = {
  name: 'normal-tolerance-interval',
  title: 'Normal tolerance interval',
  basis:
    'exact tolerance factors, ISO 16269-6:2014; Meeker, Hahn and Escobar, Statistical Intervals, 2nd ed., chapter 4',
  explain:
    'Mean minus (or plus) k times the standard deviation bounds, with the stated confidence, at least the stated share of all units. One limit: one-sided factor from the noncentral t distribution. Two limits: exact two-sided factor. The verdict is `pass` where the bound keeps the limit.\n\nIt holds for independent units from a normal distribution. Normality is tested (Anderson-Darling from 8 units, Shapiro-Wilk below) at the level 0.05; where it fails, the verdict is `undecided`. Several readings of one unit are first made one value by `per_unit`.\n\nNeeds `confidence` and `reliability` under `sampling`.',
  needs: ['confidence', 'reliability'],
  statesReliability: true,
  evaluate,
};

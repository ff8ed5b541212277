import { fewestValuesForNormality } from '../../statistics/anderson-darling.ts';
import { describeSample } from '../../statistics/descriptive.ts';
import { normalToleranceInterval } from '../../statistics/tolerance-factor.ts';
import { confidenceReliability } from '../number-text.ts';
import type { CharacteristicEvidence, NamedValue } from '../result.ts';
import { limitFault } from './limit-fault.ts';
import { lotMeans } from './lot-means.ts';
import type { EvidenceMethod, MethodInput } from './method.ts';
import { testNormality } from './normality.ts';
import { outlier } from './outlier.ts';
import { runOrder, runOrderExplanation } from './run-order.ts';
import { boundValues, sidesOf, toleranceVerdict } from './tolerance-verdict.ts';
import { undecidedOn, valuesByUnit } from './values-by-unit.ts';

const evaluate = ({ limits, perUnit, sampling, readings }: MethodInput): CharacteristicEvidence => {
  const taken = valuesByUnit(readings.list, perUnit);
  const { groups } = taken;
  const values = taken.ok ? taken.values : [];
  const confidence = sampling.confidence ?? Number.NaN;
  const reliability = sampling.reliability ?? Number.NaN;
  const base = { limits, sampleSize: groups.length, readings: values };
  if (!taken.ok) return undecidedOn(base, taken.reason, taken.remedy);
  const fault = limitFault(limits);
  if (fault) return undecidedOn(base, fault.reason, fault.remedy);
  const sides = sidesOf(limits);
  const sample = describeSample(values);
  const interval = normalToleranceInterval(values, { coverage: reliability, confidence, sides });
  if (!sample.ok || !interval.ok)
    return undecidedOn(
      base,
      !sample.ok ? sample.reason : interval.ok ? '' : interval.reason,
      'Take more units, or use an attribute method.',
    );
  const decimals = readings.decimals;
  const { mean, standardDeviation, factor, lower, upper } = interval.value;
  const plan = confidenceReliability(confidence, reliability);
  const bounds = { ...(lower === undefined ? {} : { lower }), ...(upper === undefined ? {} : { upper }) };
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
    ...boundValues(bounds, plan, limits.unit, decimals),
  ];
  const normality = testNormality(values);
  const assumptions = [
    normality,
    ...lotMeans(groups, values, decimals),
    ...runOrder(values, groups),
    ...outlier(groups, values, decimals),
  ];
  if (normality.outcome !== 'met')
    return undecidedOn(
      base,
      normality.outcome === 'not met'
        ? `the readings do not look normal (${normality.detail}), so the tolerance interval does not hold`
        : `whether the readings are normal cannot be tested (${normality.detail}), so the tolerance interval has no ground`,
      normality.outcome === 'not met'
        ? 'Look for mixed lots or an outlier. Else plan anew, with new units: lognormal-tolerance-bound or transformed-normal-tolerance-interval for skewed readings above 0, weibull-lower-bound for strengths, nonparametric-tolerance-interval or an attribute plan where no distribution is known.'
        : 'Take more units, or use an attribute plan.',
      { values: numbers, assumptions },
    );
  return { ...base, ...toleranceVerdict(bounds, limits, plan, decimals), values: numbers, assumptions };
};

export const normalToleranceIntervalMethod: EvidenceMethod = {
  name: 'normal-tolerance-interval',
  title: 'Normal tolerance interval',
  basis:
    'exact tolerance factors, ISO 16269-6:2014; Meeker, Hahn and Escobar, Statistical Intervals, 2nd ed., chapter 4',
  explain: `Mean minus (or plus) k times the standard deviation bounds, with the stated confidence, at least the stated share of all units. One limit: one-sided factor from the noncentral t distribution. Two limits: exact two-sided factor. The verdict is \`pass\` where the bound keeps the limit.\n\nIt holds for independent units from a normal distribution. Normality is tested at the level 0.05 (Anderson-Darling); where it fails, the verdict is \`undecided\`. With fewer than 8 units nothing can be said for normality (Shapiro-Wilk can only speak against it), and the verdict is \`undecided\` too. The way on is then a method that fits the distribution, chosen in a new protocol before new data: \`lognormal-tolerance-bound\`, \`transformed-normal-tolerance-interval\`, \`weibull-lower-bound\`, \`nonparametric-tolerance-interval\` or an attribute plan. Several readings of one unit are first made one value by \`per_unit\`.\n\n${runOrderExplanation}\n\nNeeds \`confidence\` and \`reliability\` under \`sampling\`.`,
  needs: ['confidence', 'reliability'],
  statesReliability: true,
  fewestUnits: () => fewestValuesForNormality,
  evaluate,
};

import { withUnit } from '../../records/units.ts';
import { fewestValuesForNormality } from '../../statistics/anderson-darling.ts';
import { tQuantile } from '../../statistics/distributions.ts';
import { oneSampleMean, summariseGroup } from '../../statistics/mean-estimate.ts';
import { meanConfidenceLimits } from '../../statistics/t-test.ts';
import { confidenceText, decimalsThatTell, fixed } from '../number-text.ts';
import type { CharacteristicEvidence, NamedValue } from '../result.ts';
import { limitText } from './conformity.ts';
import { extremesOf } from './extremes.ts';
import { limitFault } from './limit-fault.ts';
import { lotMeans } from './lot-means.ts';
import type { EvidenceMethod, MethodInput } from './method.ts';
import { namedValues } from './named-values.ts';
import { testNormality } from './normality.ts';
import { outlier } from './outlier.ts';
import { runOrder, runOrderExplanation } from './run-order.ts';
import { undecidedOn, valuesByUnit } from './values-by-unit.ts';

const evaluate = ({ limits, perUnit, sampling, readings }: MethodInput): CharacteristicEvidence => {
  const taken = valuesByUnit(readings.list, perUnit);
  const { groups } = taken;
  const values = taken.ok ? taken.values : [];
  const base = { limits, sampleSize: groups.length, readings: values };
  if (!taken.ok) return undecidedOn(base, taken.reason, taken.remedy);
  const fault = limitFault(limits);
  if (fault) return undecidedOn(base, fault.reason, fault.remedy);
  const { lower: low, upper: high, unit } = limits;
  const confidence = sampling.confidence ?? Number.NaN;
  const group = summariseGroup(values);
  const estimate = group.ok ? oneSampleMean(group.value) : group;
  if (!group.ok || !estimate.ok)
    return undecidedOn(
      base,
      !group.ok ? group.reason : estimate.ok ? '' : estimate.reason,
      'Take more units, or measure with a finer resolution.',
    );
  const { standardError, degreesOfFreedom } = estimate.value;
  const { mean, standardDeviation } = group.value;
  // Each bound has the whole risk: where two limits are set, both must hold, so the risk of the verdict is no larger.
  const lower =
    low === undefined
      ? undefined
      : meanConfidenceLimits(estimate.value, { confidence, sides: 'lower' }).lower;
  const upper =
    high === undefined
      ? undefined
      : meanConfidenceLimits(estimate.value, { confidence, sides: 'upper' }).upper;
  const decimals = readings.decimals + 1;
  const named = namedValues(unit, decimals);
  const level = confidenceText(confidence);
  const extremes = extremesOf(values);
  const numbers: NamedValue[] = [
    named('n', 'units', values.length, { decimals: 0, unit: '1' }),
    named('mean', 'mean', mean),
    named('standard_deviation', 'standard deviation', standardDeviation),
    named('standard_error', 'standard error of the mean', standardError, { decimals: decimals + 1 }),
    named('minimum', 'smallest', extremes?.smallest ?? Number.NaN, { decimals: readings.decimals }),
    named('maximum', 'largest', extremes?.largest ?? Number.NaN, { decimals: readings.decimals }),
    named(
      'factor',
      `t quantile, ${degreesOfFreedom} degrees of freedom`,
      tQuantile(confidence, degreesOfFreedom),
      { decimals: 4, unit: '1' },
    ),
    ...(lower === undefined ? [] : [named('lower_bound', `${level} lower bound of the mean`, lower)]),
    ...(upper === undefined ? [] : [named('upper_bound', `${level} upper bound of the mean`, upper)]),
  ];
  const normality = testNormality(values);
  const assumptions = [
    normality,
    ...lotMeans(groups, values, readings.decimals),
    ...runOrder(values, groups),
    ...outlier(groups, values, readings.decimals),
  ];
  if (normality.outcome !== 'met')
    return undecidedOn(
      base,
      normality.outcome === 'not met'
        ? `the readings do not look normal (${normality.detail}), so the bound of the mean does not hold`
        : `whether the readings are normal cannot be tested (${normality.detail}), so the bound of the mean has no ground`,
      normality.outcome === 'not met'
        ? 'Look for mixed lots or an outlier; else plan another method anew, such as a distribution-free one.'
        : 'Take more units.',
      { values: numbers, assumptions },
    );
  const digits = Math.max(
    decimalsThatTell(lower ?? 0, lower === undefined ? undefined : low, decimals),
    decimalsThatTell(upper ?? 0, upper === undefined ? undefined : high, decimals),
  );
  const show = (value: number): string => withUnit(fixed(value, digits), unit);
  const bound =
    lower !== undefined && upper !== undefined
      ? `${level} bounds of the mean ${fixed(lower, digits)} and ${show(upper)}`
      : `${level} ${lower === undefined ? 'upper' : 'lower'} bound of the mean ${show(lower ?? upper ?? 0)}`;
  const holds =
    (low === undefined || (lower ?? Number.NaN) >= low) &&
    (high === undefined || (upper ?? Number.NaN) <= high);
  return {
    ...base,
    verdict: holds ? 'pass' : 'fail',
    reason: `${bound}, required ${limitText(limits)}`,
    values: numbers,
    assumptions,
  };
};

export const meanMethod: EvidenceMethod = {
  name: 'mean',
  title: 'Mean by confidence bounds',
  basis:
    'one-sided Student t bounds of a mean; NIST/SEMATECH e-Handbook of Statistical Methods 1.3.5.2; two limits as two one-sided tests, Schuirmann (1987)',
  explain: `Mean minus (or plus) t times s / √n bounds the mean of the population with the stated confidence, where t is the quantile of Student's t distribution with n - 1 degrees of freedom. The verdict is \`pass\` where the bound keeps the limit. With two limits both bounds must keep theirs, each with the whole confidence: the bounds are then a two-sided interval of twice the risk.

Use it where the requirement is one on the mean: a declared content, a calibration, the average of a lot. It says nothing about single units, and it is not judged by the sampling policy: a mean well within its limits goes together with many units outside. Where each unit counts, use a tolerance interval.

It holds for independent units from a normal distribution. Normality is tested (Anderson-Darling, from 8 units on) at the level 0.05; where it fails, or there are fewer units, the verdict is \`undecided\`: look for mixed lots or an outlier, take more units, or plan a distribution-free method. Several readings of one unit are first made one value by \`per_unit\`. Lots that differ make the units of a lot dependent; their means are reported.

${runOrderExplanation}

Needs \`confidence\` under \`sampling\`.`,
  needs: ['confidence'],
  statesReliability: false,
  fewestUnits: () => fewestValuesForNormality,
  evaluate,
};

import { fewestValuesForNormality } from '../../statistics/anderson-darling.ts';
import { capability, capabilityIndices, type SpecificationLimits } from '../../statistics/capability.ts';
import { ppkLowerBound, ppkNeeded, ppLowerBound } from '../../statistics/capability-bounds.ts';
import { normalCdf } from '../../statistics/distributions.ts';
import { movingRangeSpread, pooledSpread } from '../../statistics/within-subgroup-spread.ts';
import { confidenceText, decimalsThatTell, fixed, percent } from '../number-text.ts';
import type { UnitGroup } from '../readings.ts';
import type { CharacteristicEvidence, NamedValue } from '../result.ts';
import { extremesOf } from './extremes.ts';
import { limitFault } from './limit-fault.ts';
import { lotMeans, valuesByLot } from './lot-means.ts';
import type { EvidenceMethod, MethodInput } from './method.ts';
import { namedValues } from './named-values.ts';
import { testNormality } from './normality.ts';
import { outlier } from './outlier.ts';
import { runOrder, runOrderExplanation } from './run-order.ts';
import { undecidedOn, valuesByUnit } from './values-by-unit.ts';

/** Share of a normal population within its limits that an index stands for at least. */
const shareWithin = (index: number, limits: SpecificationLimits): number =>
  limits.lower === undefined || limits.upper === undefined
    ? normalCdf(3 * index)
    : 1 - 2 * normalCdf(-3 * index);

/** The short-term spread: within lots where there are two or more, else from one unit to the next. */
const within = (groups: readonly UnitGroup[], values: readonly number[]) => {
  const lots = valuesByLot(groups, values);
  if (lots.size > 1) {
    const spread = pooledSpread([...lots.values()]);
    return spread.ok ? { label: 'within lots', ...spread.value } : undefined;
  }
  const spread = movingRangeSpread(values);
  return spread.ok ? { label: 'from the moving range', ...spread.value } : undefined;
};

const evaluate = ({ limits, perUnit, sampling, readings }: MethodInput): CharacteristicEvidence => {
  const taken = valuesByUnit(readings.list, perUnit);
  const { groups } = taken;
  const values = taken.ok ? taken.values : [];
  const base = { limits, sampleSize: groups.length, readings: values };
  if (!taken.ok) return undecidedOn(base, taken.reason, taken.remedy);
  const fault = limitFault(limits);
  if (fault) return undecidedOn(base, fault.reason, fault.remedy);
  const { lower, upper, unit } = limits;
  const specification = {
    ...(lower === undefined ? {} : { lower }),
    ...(upper === undefined ? {} : { upper }),
  };
  const confidence = sampling.confidence ?? Number.NaN;
  const required = sampling.capability_index ?? Number.NaN;
  const claimed = sampling.reliability;
  const implied = shareWithin(required, specification);
  if (claimed !== undefined && claimed > implied)
    return undecidedOn(
      base,
      `the plan claims a reliability of ${confidenceText(claimed)}, but a Ppk of ${required} stands for ${percent(implied, 4)} only`,
      'Plan a larger capability_index, or claim less.',
    );
  const sample = capability(values, specification);
  if (!sample.ok)
    return undecidedOn(base, sample.reason, 'Take more units, or measure with a finer resolution.');
  const { count, mean, standardDeviation, pp, ppk, shareOutside } = sample.value;
  const precision = { sampleSize: count, degreesOfFreedom: count - 1, confidence };
  const bound = ppkLowerBound({ ppk, ...precision });
  const short = within(groups, values);
  const cpk =
    short === undefined
      ? undefined
      : capabilityIndices({ mean, standardDeviation: short.standardDeviation }, specification);
  const decimals = readings.decimals + 1;
  const level = confidenceText(confidence);
  const named = namedValues(unit, decimals);
  const index = (key: string, label: string, value: number): NamedValue =>
    named(key, label, value, { decimals: 3, unit: '1' });
  const extremes = extremesOf(values);
  const numbers: NamedValue[] = [
    named('n', 'units', count, { decimals: 0, unit: '1' }),
    named('mean', 'mean', mean),
    named('standard_deviation', 'standard deviation, overall', standardDeviation),
    named('minimum', 'smallest', extremes?.smallest ?? Number.NaN, { decimals: readings.decimals }),
    named('maximum', 'largest', extremes?.largest ?? Number.NaN, { decimals: readings.decimals }),
    index('ppk', 'Ppk', ppk),
    index('ppk_lower_bound', `${level} lower bound of Ppk`, bound),
    index(
      'ppk_needed',
      `smallest Ppk of ${count} units whose bound reaches ${required}`,
      ppkNeeded({ required, ...precision }),
    ),
    ...(pp === undefined
      ? []
      : [
          index('pp', 'Pp', pp),
          index('pp_lower_bound', `${level} lower bound of Pp`, ppLowerBound({ pp, ...precision })),
        ]),
    ...(short === undefined || cpk === undefined
      ? []
      : [
          named('within_standard_deviation', `standard deviation ${short.label}`, short.standardDeviation),
          index('cpk', `Cpk, spread ${short.label}`, cpk.ppk),
          ...(cpk.pp === undefined ? [] : [index('cp', `Cp, spread ${short.label}`, cpk.pp)]),
        ]),
    named(
      'share_outside',
      'share outside the limits, estimated from the normal distribution',
      100 * (shareOutside.below + shareOutside.above),
      { decimals: 4, unit: '%' },
    ),
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
        ? `the readings do not look normal (${normality.detail}), so the index says nothing about the share outside`
        : `whether the readings are normal cannot be tested (${normality.detail}), so the index has no ground`,
      normality.outcome === 'not met'
        ? 'Look for mixed lots or an outlier; else use an attribute plan or a distribution-free method, planned anew.'
        : 'Take more units.',
      { values: numbers, assumptions },
    );
  const digits = decimalsThatTell(bound, required, 2);
  return {
    ...base,
    verdict: bound >= required ? 'pass' : 'fail',
    reason: `${level} lower bound of Ppk ${fixed(bound, digits)} (Ppk ${fixed(ppk, 2)}), required at least ${required}`,
    values: numbers,
    assumptions,
  };
};

export const capabilityMethod: EvidenceMethod = {
  name: 'capability',
  title: 'Capability index by its confidence bound',
  basis:
    'noncentral t bound of Ppk, Chou, Owen and Borrego, Journal of Quality Technology 22 (1990), from memory; exact for one limit, at least the stated confidence for two; Pp by chi-square',
  explain: `Ppk is the distance from the mean to the nearer limit in units of three overall standard deviations. The index of a sample is only an estimate, so the lower confidence bound of Ppk is held against \`capability_index\`; the verdict is \`pass\` where the bound reaches it. 3 √n Ppk follows a noncentral t distribution with n - 1 degrees of freedom: with one limit the bound is exact, with two limits it has at least the stated confidence. Many programs print Bissell's normal approximation (Applied Statistics 39, 1990) instead, which is mostly a little higher.

Use it for a process that runs, such as a moulding or sealing process in its validation, with units from its usual variation. Pp, and Cp and Cpk with the spread within lots (or from unit to unit where there are no lots) are reported beside it. Cpk much above Ppk means that the process wanders.

It holds for independent units from one normal distribution: an index stands for a share outside only there. Normality is tested (Anderson-Darling, from 8 units on) at the level 0.05; where it fails, or there are fewer units, the verdict is \`undecided\`. The verdict goes by Ppk, which describes the units that were measured. What future units will be like is another question, for a process in control only: see what the run rules and the means of lots say.

A Ppk of P stands for a share within of Φ(3P) with one limit and of at least 1 - 2Φ(-3P) with two: with two limits 1.00 stands for 99.73 %, 1.33 for 99.993 %. State that or less as \`reliability\`, so that the sampling policy can be kept; more than that leaves the verdict \`undecided\`.

${runOrderExplanation}

Needs \`confidence\` and \`capability_index\` under \`sampling\`; \`reliability\` where the sampling policy asks for it.`,
  needs: ['confidence', 'capability_index'],
  statesReliability: true,
  fewestUnits: () => fewestValuesForNormality,
  evaluate,
};

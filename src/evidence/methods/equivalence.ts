import { withUnit } from '../../records/units.ts';
import { fewestValuesForNormality } from '../../statistics/anderson-darling.ts';
import { type Computed, computed, dataProblem } from '../../statistics/data-problem.ts';
import { tQuantile } from '../../statistics/distributions.ts';
import { equivalenceTest } from '../../statistics/equivalence.ts';
import {
  type GroupSummary,
  type MeanEstimate,
  pairedDifference,
  summariseGroup,
  welchDifference,
} from '../../statistics/mean-estimate.ts';
import { meanConfidenceLimits, tTest } from '../../statistics/t-test.ts';
import { confidenceText, decimalsThatTell, fixed } from '../number-text.ts';
import type { Assumption, CharacteristicEvidence, NamedValue } from '../result.ts';
import { type ComparedGroup, comparisonGroups, pairsOf } from './comparison-groups.ts';
import { limitText } from './conformity.ts';
import { limitFault } from './limit-fault.ts';
import type { EvidenceMethod, MethodInput } from './method.ts';
import { namedValues } from './named-values.ts';
import { testNormality } from './normality.ts';
import { undecidedOn } from './values-by-unit.ts';

interface Compared {
  readonly from: GroupSummary;
  readonly to: GroupSummary;
  readonly shift: MeanEstimate;
}

/** Both groups summarised and the shift between them; or which group does not allow it. */
const compareGroups = (
  first: ComparedGroup,
  second: ComparedGroup,
  { from: firstName, to: secondName, paired }: { from: string; to: string; paired: boolean },
): Computed<Compared> => {
  const [from, to] = [summariseGroup(first.values), summariseGroup(second.values)];
  if (!from.ok) return dataProblem(from.problem, `the group "${firstName}": ${from.reason}`);
  if (!to.ok) return dataProblem(to.problem, `the group "${secondName}": ${to.reason}`);
  const shift = paired ? pairedDifference(pairsOf(first, second)) : welchDifference(from.value, to.value);
  return shift.ok ? computed({ from: from.value, to: to.value, shift: shift.value }) : shift;
};

/** The p value of what has to be shown: the larger one where there are two limits. */
const pValueOf = (
  shift: MeanEstimate,
  { lower, upper }: { readonly lower?: number; readonly upper?: number },
  confidence: number,
): number => {
  if (lower === undefined) return tTest(shift, upper).pValues.less;
  if (upper === undefined) return tTest(shift, lower).pValues.greater;
  return equivalenceTest(shift, { lower, upper }, 1 - confidence).pValue;
};

const evaluate = ({ limits, perUnit, sampling, readings }: MethodInput): CharacteristicEvidence => {
  const { lower: low, upper: high, unit } = limits;
  const compare = sampling.compare ?? { from: '', to: '' };
  const { from, to, paired = false } = compare;
  const confidence = sampling.confidence ?? Number.NaN;
  const units = new Set(readings.list.map((reading) => reading.unit));
  const nothing = { limits, sampleSize: units.size, readings: [] };
  const found = comparisonGroups(readings.list, compare, perUnit);
  const fault = limitFault(limits) ?? ('reason' in found ? found : undefined);
  if (fault || 'reason' in found) return undecidedOn(nothing, fault?.reason ?? '', fault?.remedy ?? '');
  const { first, second } = found;
  const differences = paired ? pairsOf(first, second).map((pair) => pair.second - pair.first) : [];
  // The differences of pairs are what is held against the limits; the readings of two groups are not.
  const base = {
    ...nothing,
    readings: differences,
    groups: [
      { name: from, values: first.values },
      { name: to, values: second.values },
    ],
  };
  const compared = compareGroups(first, second, { from, to, paired });
  if (!compared.ok)
    return undecidedOn(
      base,
      compared.reason,
      paired
        ? 'Take more pairs, or measure with a finer resolution.'
        : 'Take more units in each group, or measure with a finer resolution.',
    );
  const { shift } = compared.value;
  // Each side has the whole risk; where both limits are set, both must hold: two one-sided tests.
  const lower =
    low === undefined ? undefined : meanConfidenceLimits(shift, { confidence, sides: 'lower' }).lower;
  const upper =
    high === undefined ? undefined : meanConfidenceLimits(shift, { confidence, sides: 'upper' }).upper;
  const decimals = readings.decimals + 1;
  const level = confidenceText(confidence);
  const named = namedValues(unit, decimals);
  const numbersOf = (key: string, name: string, group: GroupSummary): readonly NamedValue[] => [
    named(`n_${key}`, `units, ${name}`, group.count, { decimals: 0, unit: '1' }),
    named(`mean_${key}`, `mean, ${name}`, group.mean),
    named(`standard_deviation_${key}`, `standard deviation, ${name}`, group.standardDeviation),
  ];
  const numbers: NamedValue[] = [
    ...numbersOf('from', from, compared.value.from),
    ...numbersOf('to', to, compared.value.to),
    named('shift', `shift of the mean from ${from} to ${to}`, shift.estimate),
    named('standard_error', 'standard error of the shift', shift.standardError, { decimals: decimals + 1 }),
    named('degrees_of_freedom', 'degrees of freedom', shift.degreesOfFreedom, {
      decimals: paired ? 0 : 2,
      unit: '1',
    }),
    named('factor', `t quantile at ${level}`, tQuantile(confidence, shift.degreesOfFreedom), {
      decimals: 4,
      unit: '1',
    }),
    ...(lower === undefined ? [] : [named('lower_bound', `${level} lower bound of the shift`, lower)]),
    ...(upper === undefined ? [] : [named('upper_bound', `${level} upper bound of the shift`, upper)]),
    named('p_value', 'p value', pValueOf(shift, limits, confidence), { decimals: 4, unit: '1' }),
  ];
  const assumptions: readonly Assumption[] = paired
    ? [testNormality(differences, 'normal distribution of the differences')]
    : [
        testNormality(first.values, `normal distribution, ${from}`),
        testNormality(second.values, `normal distribution, ${to}`),
      ];
  const doubtful = assumptions.find((assumption) => assumption.outcome !== 'met');
  if (doubtful)
    return undecidedOn(
      base,
      doubtful.outcome === 'not met'
        ? `the readings do not look normal (${doubtful.name}: ${doubtful.detail}), so the bounds of the shift do not hold`
        : `whether the readings are normal cannot be tested (${doubtful.name}: ${doubtful.detail}), so the bounds of the shift have no ground`,
      doubtful.outcome === 'not met'
        ? 'Look for mixed lots or an outlier; else plan another comparison anew.'
        : 'Take more units, or measure with a finer resolution.',
      { values: numbers, assumptions },
    );
  const digits = Math.max(
    decimalsThatTell(lower ?? 0, lower === undefined ? undefined : low, decimals),
    decimalsThatTell(upper ?? 0, upper === undefined ? undefined : high, decimals),
  );
  const show = (value: number): string => withUnit(fixed(value, digits), unit);
  const bound =
    lower !== undefined && upper !== undefined
      ? `${level} bounds ${fixed(lower, digits)} and ${show(upper)}`
      : `${level} ${lower === undefined ? 'upper' : 'lower'} bound ${show(lower ?? upper ?? 0)}`;
  const holds =
    (low === undefined || (lower ?? Number.NaN) >= low) &&
    (high === undefined || (upper ?? Number.NaN) <= high);
  return {
    ...base,
    verdict: holds ? 'pass' : 'fail',
    reason: `shift of the mean from ${from} to ${to} ${show(shift.estimate)}, ${bound}, allowed ${limitText(limits)}`,
    values: numbers,
    assumptions,
  };
};

export const equivalenceMethod: EvidenceMethod = {
  name: 'equivalence',
  title: 'Equivalence of two groups',
  basis:
    'two one-sided t tests, Schuirmann, Journal of Pharmacokinetics and Biopharmaceutics 15 (1987); Welch, Biometrika 34 (1947) with Satterthwaite degrees of freedom, or the t test of pairs',
  explain: `Shows that the mean of one group, such as aged units, has not shifted from that of another, such as fresh ones, by more than is allowed. The acceptance limits the shift, second mean minus first: \`lower: -2, upper: 2\` for two newtons either way, only \`lower\` where a loss alone matters. Shift minus t times its standard error must not be below the lower limit, and shift plus t times it not above the upper one, each with the stated confidence; the verdict is then \`pass\`. At 95 % the two bounds are the two-sided interval of 90 %.

Use it for ageing, transport, another material or another line. "No significant difference" is not enough for that: few units and much spread find no difference ever.

Different units in the two groups: standard error √(s₁²/n₁ + s₂²/n₂), degrees of freedom by Satterthwaite; the spreads may differ. The same units measured twice (\`paired: true\`): the t test of the differences. The record names the column of the groups under \`data.group\` and, for pairs, that of the units under \`data.unit_id\`. The planned \`size\` counts units: those of both groups together where they are different ones, and each pair once where the same units are measured twice.

It speaks of means, not of single units: where each unit must keep a limit, test the aged units by a tolerance interval as well. It is not judged by the sampling policy. Normality is tested in each group, or for the differences of pairs (Anderson-Darling, from 8 units on) at the level 0.05; where it fails, or there are fewer units, the verdict is \`undecided\`: look for mixed lots or an outlier, or plan another comparison.

The allowed shift is decided before the data, from what the device can bear, never from what was found.

Needs \`confidence\` (above 0.5) and \`compare\` under \`sampling\`.`,
  needs: ['confidence', 'compare'],
  statesReliability: false,
  // Normality is tested in each group, or for the differences of the pairs.
  fewestUnits: ({ compare }) => (compare?.paired ? 1 : 2) * fewestValuesForNormality,
  evaluate,
};

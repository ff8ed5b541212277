import { clopperPearsonLimits } from '../../statistics/clopper-pearson.ts';
import { successRunSampleSize } from '../../statistics/success-run.ts';
import { confidenceReliability, percent } from '../number-text.ts';
import { byUnit, type UnitReading } from '../readings.ts';
import type { AcceptanceLimits, CharacteristicEvidence } from '../result.ts';
import { conforms, numbersOf } from './conformity.ts';
import type { EvidenceMethod, MethodInput } from './method.ts';

/** The reading of a unit that is farthest beyond a limit, or nearest to one; the first of several. */
const worstOf = (readings: readonly UnitReading[], limits: AcceptanceLimits): readonly UnitReading[] => {
  const room = ({ value }: UnitReading): number =>
    value === undefined
      ? Number.POSITIVE_INFINITY
      : Math.min(
          value - (limits.lower ?? Number.NEGATIVE_INFINITY),
          (limits.upper ?? Number.POSITIVE_INFINITY) - value,
        );
  const [worst] = readings.toSorted((one, other) =>
    room(one) === room(other) ? 0 : room(one) - room(other),
  );
  return worst === undefined ? [] : [worst];
};

/** Judges units as conforming or failing and compares the number of failures with the acceptance number. */
export const evaluateAttribute = ({ limits, sampling, readings }: MethodInput): CharacteristicEvidence => {
  const groups = byUnit(readings.list);
  const outcome = groups.map((group) => group.readings.map((reading) => conforms(reading, limits)));
  const failures = outcome.filter((list) => list.includes(false)).length;
  const unclear = outcome.filter((list) => !list.includes(false) && list.includes(undefined)).length;
  const confidence = sampling.confidence ?? 0.95;
  const reliability = sampling.reliability;
  const accept = sampling.accept ?? 0;
  const n = groups.length;
  const numbers = numbersOf(groups.flatMap((group) => worstOf(group.readings, limits)));
  if (n === 0)
    return {
      limits,
      verdict: 'undecided',
      reason: 'there are no readings',
      remedy: 'Enter the readings.',
      sampleSize: 0,
      values: [],
      assumptions: [],
      readings: [],
    };
  const upper = clopperPearsonLimits({ count: failures, sampleSize: n, confidence, sides: 'upper' }).upper;
  const base = {
    limits,
    sampleSize: n,
    ...numbers,
    ...(groups.some((group) => group.readings.length > 1) ? { areWorstOfUnit: true as const } : {}),
    assumptions: [],
    values: [
      { key: 'n', label: 'units', value: n, unit: '1', decimals: 0 },
      { key: 'failures', label: 'failing units', value: failures, unit: '1', decimals: 0 },
      { key: 'acceptance_number', label: 'acceptance number', value: accept, unit: '1', decimals: 0 },
      {
        key: 'failure_rate_upper_bound',
        label: `upper ${percent(confidence)} confidence bound of the failing share`,
        value: upper * 100,
        unit: '%',
        decimals: 2,
      },
    ],
  };
  const counted = `${failures} of ${n} units failed, ${accept} allowed`;
  const shown = `the failing share is at most ${percent(upper, 2)} with ${percent(confidence)} confidence`;
  if (failures > accept) return { ...base, verdict: 'fail', reason: counted };
  if (unclear > 0)
    return {
      ...base,
      verdict: 'undecided',
      reason: `${unclear} of ${n} units have a reading that is not applicable or beyond the range, so nobody can tell whether they conform`,
      remedy:
        'Measure them with an instrument that covers the limit, or exclude them with a reason and a deviation.',
    };
  if (reliability !== undefined) {
    const needed = successRunSampleSize({ confidence, reliability, failures });
    if (n < needed)
      return {
        ...base,
        verdict: 'undecided',
        reason: `${counted}, but ${confidenceReliability(confidence, reliability)} with ${failures} failures needs ${needed} units`,
        remedy: `Plan ${needed} units.`,
      };
  }
  return { ...base, verdict: 'pass', reason: `${counted}; ${shown}` };
};

export const attributeMethod: EvidenceMethod = {
  name: 'attribute',
  title: 'Attribute plan',
  basis: 'exact binomial; Clopper and Pearson, Biometrika 26 (1934)',
  explain:
    'Each unit conforms or fails. With at most the acceptance number of failures, and enough units, the sample shows the stated reliability with the stated confidence. The report adds the exact upper confidence bound of the failing share.\n\nA unit fails where one of its readings is outside the limits or says fail. With fewer units than the plan needs, the verdict is `undecided`. More units after a failure need a new plan.\n\nNeeds `confidence`, `reliability` and `accept` under `sampling`.',
  needs: ['confidence', 'reliability', 'accept'],
  statesReliability: true,
  smallestSize: (confidence, reliability, accept) =>
    successRunSampleSize({ confidence, reliability, failures: accept }),
  evaluate: evaluateAttribute,
};

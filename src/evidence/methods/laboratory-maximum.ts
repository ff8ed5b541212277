import { withUnit } from '../../records/units.ts';
import { fixed } from '../number-text.ts';
import type { CharacteristicEvidence } from '../result.ts';
import { conforms, limitText } from './conformity.ts';
import { extremesOf } from './extremes.ts';
import type { EvidenceMethod, MethodInput } from './method.ts';

const evaluate = ({ limits, readings }: MethodInput): CharacteristicEvidence => {
  const list = readings.list.filter((reading) => reading.value !== undefined);
  const values = list.map((reading) => reading.value ?? 0);
  const base = { limits, sampleSize: list.length, readings: values, assumptions: [] };
  const words = readings.list.filter((reading) => reading.word !== undefined);
  if (words.length > 0)
    return {
      ...base,
      verdict: words.some((reading) => reading.word === 'fail') ? 'fail' : 'undecided',
      reason: `${words.length} of ${readings.list.length} results are words, not numbers`,
      remedy: 'Enter the numbers that the laboratory reported, such as <1.0 for a result below its limit.',
      values: [],
    };
  const extremes = extremesOf(values);
  if (!extremes)
    return {
      ...base,
      verdict: 'undecided',
      reason: 'there are no readings',
      remedy: 'Enter the results of the laboratory.',
      values: [],
    };
  const { smallest, largest } = extremes;
  // A result below the reporting limit is at most that limit: the sign stays with the number in the report.
  const sign = list.every((reading) => reading.value !== largest || reading.bound === 'below')
    ? 'below '
    : '';
  const outcome = list.map((reading) => conforms(reading, limits));
  const number = (key: string, label: string, value: number, decimals: number, unit: string) => ({
    key,
    label,
    value,
    unit,
    decimals,
  });
  const numbers = [
    number('n', 'results', list.length, 0, '1'),
    number('maximum', 'largest', largest, readings.decimals, limits.unit),
    number('minimum', 'smallest', smallest, readings.decimals, limits.unit),
  ];
  const wanted = limitText(limits);
  const found =
    limits.lower !== undefined && limits.upper === undefined
      ? `smallest of ${list.length} results ${withUnit(fixed(smallest, readings.decimals), limits.unit)}`
      : `largest of ${list.length} results ${sign}${withUnit(fixed(largest, readings.decimals), limits.unit)}`;
  if (outcome.includes(false))
    return { ...base, verdict: 'fail', reason: `${found}, required ${wanted}`, values: numbers };
  if (outcome.includes(undefined))
    return {
      ...base,
      verdict: 'undecided',
      reason: 'a result beyond the reporting range does not tell whether the limit is kept',
      remedy: 'Ask the laboratory for a method whose reporting limit is below the acceptance limit.',
      values: numbers,
    };
  return { ...base, verdict: 'pass', reason: `${found}, required ${wanted}`, values: numbers };
};

export const laboratoryMaximumMethod: EvidenceMethod = {
  name: 'laboratory-maximum',
  title: 'Laboratory results, each within the limit',
  basis: 'common practice, no source',
  explain:
    'Every result of a laboratory (residues, endotoxin, surviving indicators) must keep the limit. A result below the reporting limit is written `<1.0` and counts as that limit. It makes no statement of confidence and reliability: the sampling comes from the standard of the test, and `rationale` says so.',
  needs: [],
  statesReliability: false,
  evaluate,
};

import { withUnit } from '../../records/units.ts';
import { fixed } from '../number-text.ts';
import { byUnit } from '../readings.ts';
import type { CharacteristicEvidence } from '../result.ts';
import { conforms, limitText, numbersOf } from './conformity.ts';
import { extremesOf } from './extremes.ts';
import type { EvidenceMethod, MethodInput } from './method.ts';

const evaluate = ({ limits, readings }: MethodInput): CharacteristicEvidence => {
  const groups = byUnit(readings.list);
  const outcome = groups.map((group) => group.readings.map((reading) => conforms(reading, limits)));
  const failing = groups.filter((_, index) => outcome[index]?.includes(false));
  const numbers = numbersOf(readings.list);
  const n = groups.length;
  const extremes = extremesOf(numbers.readings);
  const named = (key: string, label: string, value: number) => ({
    key,
    label,
    value,
    unit: limits.unit,
    decimals: readings.decimals,
  });
  const range = extremes
    ? [named('minimum', 'smallest', extremes.smallest), named('maximum', 'largest', extremes.largest)]
    : [];
  const base = {
    limits,
    sampleSize: n,
    ...numbers,
    assumptions: [],
    values: [
      { key: 'n', label: 'units', value: n, unit: '1', decimals: 0 },
      { key: 'failures', label: 'units not within the limit', value: failing.length, unit: '1', decimals: 0 },
      ...range,
    ],
  };
  const wanted = limitText(limits);
  if (n === 0)
    return { ...base, verdict: 'undecided', reason: 'there are no readings', remedy: 'Enter the readings.' };
  if (failing.length > 0)
    return {
      ...base,
      verdict: 'fail',
      reason: `${failing.length} of ${n} do not meet "${wanted}": ${failing
        .slice(0, 5)
        .map((group) => group.unit)
        .join(', ')}`,
    };
  if (outcome.flat().includes(undefined))
    return {
      ...base,
      verdict: 'undecided',
      reason: readings.list.some((reading) => reading.word === 'not applicable')
        ? 'some readings say "not applicable", so they do not tell whether the limit is kept'
        : 'a reading beyond the range does not tell whether the limit is kept',
      remedy: readings.list.some((reading) => reading.word === 'not applicable')
        ? 'Enter a reading for every unit, or exclude the unit with a reason and a deviation.'
        : 'Measure it with an instrument that covers the limit.',
    };
  const show = (value: number): string => fixed(value, readings.decimals);
  const spread = extremes
    ? `, from ${show(extremes.smallest)} to ${withUnit(show(extremes.largest), limits.unit)}`
    : '';
  return { ...base, verdict: 'pass', reason: `all ${n} meet "${wanted}"${spread}` };
};

export const allUnitsMethod: EvidenceMethod = {
  name: 'all-units',
  title: 'Every unit or participant within the limit',
  basis: 'common practice, no source',
  explain:
    'Every unit, or every participant of a study, must keep the limit. It makes no statement of confidence and reliability about others, so for verification prefer a tolerance interval or an attribute plan.',
  needs: [],
  statesReliability: false,
  evaluate,
};

import { withUnit } from '../../records/units.ts';
import { fixed } from '../number-text.ts';
import type { UnitReading } from '../readings.ts';
import type { AcceptanceLimits, CharacteristicEvidence } from '../result.ts';
import { conforms, limitText, numbersOf } from './conformity.ts';
import { extremesOf } from './extremes.ts';
import type { EvidenceMethod, MethodInput } from './method.ts';

const evaluate = ({ limits, readings }: MethodInput): CharacteristicEvidence => {
  const list = readings.list.filter((reading) => reading.value !== undefined);
  const { readings: values, beyond } = numbersOf(list);
  const base = {
    limits,
    sampleSize: list.length,
    readings: values,
    ...(beyond ? { beyond } : {}),
    assumptions: [],
  };
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
  const outcome = list.map((reading) => conforms(reading, limits));
  const number = (key: string, label: string, value: number, decimals: number, unit: string) => ({
    key,
    label,
    value,
    unit,
    decimals,
  });
  /** The reading with a value: a measured one where there is one, else one beyond the reporting range. */
  const readingAt = (value: number): UnitReading | undefined => {
    const same = list.filter((each) => each.value === value);
    return same.find((each) => each.bound === undefined) ?? same[0];
  };
  const extreme = (key: string, label: string, value: number) => {
    const bound = readingAt(value)?.bound;
    const named = bound === undefined ? label : `${label}, reported as ${bound}`;
    return number(key, named, value, readings.decimals, limits.unit);
  };
  const numbers = [
    number('n', 'results', list.length, 0, '1'),
    extreme('maximum', 'largest', largest),
    extreme('minimum', 'smallest', smallest),
  ];
  const wanted = limitText(limits);
  const show = (reading: UnitReading): string =>
    `${reading.bound === undefined ? '' : `${reading.bound} `}${withUnit(fixed(reading.value ?? Number.NaN, readings.decimals), limits.unit)}`;
  const failing = list.filter((_, index) => outcome[index] === false);
  const [worst] = failing.toSorted((a, b) => excess(b, limits) - excess(a, limits));
  if (worst)
    return {
      ...base,
      verdict: 'fail',
      reason: `${failing.length} of ${list.length} results ${failing.length === 1 ? 'does' : 'do'} not keep the limit: ${worst.unit} ${show(worst)}${failing.length === 1 ? '' : ', the farthest'}, required ${wanted}`,
      values: numbers,
    };
  const untold = list.find((_, index) => outcome[index] === undefined);
  if (untold)
    return {
      ...base,
      verdict: 'undecided',
      reason: `a result beyond the reporting range does not tell whether the limit is kept: ${untold.unit} ${show(untold)}, required ${wanted}`,
      remedy: 'Ask the laboratory for a method whose reporting limit is below the acceptance limit.',
      values: numbers,
    };
  const at = (value: number): string => {
    const reading = readingAt(value);
    return reading ? show(reading) : '';
  };
  const found =
    limits.upper === undefined
      ? `smallest of ${list.length} results ${at(smallest)}`
      : limits.lower === undefined
        ? `largest of ${list.length} results ${at(largest)}`
        : `${list.length} results from ${at(smallest)} to ${at(largest)}`;
  return { ...base, verdict: 'pass', reason: `${found}, required ${wanted}`, values: numbers };
};

/** How far beyond the limits a result lies, at least. */
const excess = ({ value = 0 }: UnitReading, { lower, upper }: AcceptanceLimits): number =>
  Math.max(
    upper === undefined ? Number.NEGATIVE_INFINITY : value - upper,
    lower === undefined ? Number.NEGATIVE_INFINITY : lower - value,
  );

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

import { type Limit, sameCharacteristic } from '../evidence/limit-comparison.ts';
import { conditionsOf, sameCondition } from '../evidence/limits-under-test.ts';
import { placeOf, type TechnicalRecord } from '../records/record.ts';
import { unitConverter, withUnit } from '../records/units.ts';
import { type Draft, defineCheck } from './check.ts';

const overlap = (a: Limit, b: Limit): boolean =>
  sameCharacteristic(a.characteristic, b.characteristic) &&
  conditionsOf(a).some((each) => conditionsOf(b).some((other) => sameCondition(each, other)));

const isAbove = (lower: number | undefined, upper: number | undefined): boolean =>
  lower !== undefined && upper !== undefined && lower > upper + Math.abs(upper) * 1e-12;

const written = (record: TechnicalRecord, index: number, bound: 'lower' | 'upper', limit: Limit): string =>
  withUnit(record.yaml.written(['limits', index, bound]) ?? limit[bound] ?? '', limit.unit ?? '1');

export const contradictingLimits = defineCheck({
  code: 'contradicting-limits',
  level: 'error',
  title: 'Limits of a design input contradict each other',
  basis: 'ISO 13485:2016 7.3.3 (inputs are not in conflict)',
  explain:
    'No value meets all the limits that the input sets on one characteristic in one condition: a lower limit lies above an upper one, in one entry or across two. No device can meet such an input, and any test of it must fail or test something else.\n\nCorrect the limit that is wrong; often two numbers have changed places or a unit has slipped. Limits that belong to different states of the units are told apart by `conditions`.',
  examines: 'design inputs',
  subjects: ({ graph }) => graph.recordsOf('design-input').filter((input) => input.status !== 'retired'),
  judge: (input): readonly Draft[] => {
    const { limits } = input.fields;
    const draft = (lowerIndex: number, upperIndex: number): readonly Draft[] => {
      const low = limits[lowerIndex];
      const high = limits[upperIndex];
      if (!low || !high) return [];
      const lower = written(input, lowerIndex, 'lower', low);
      const upper = written(input, upperIndex, 'upper', high);
      return [
        {
          place: placeOf(input, 'limits', upperIndex, 'upper'),
          message: `${input.id} asks "${high.characteristic}" to be at least ${lower} and at most ${upper}`,
          hint: 'Correct the limit that is wrong, or tell the two apart by their conditions.',
          records: [input.id],
          related: [{ place: placeOf(input, 'limits', lowerIndex, 'lower'), message: `at least ${lower}` }],
          data: { characteristic: high.characteristic, lower, upper },
        },
      ];
    };
    return limits.flatMap((limit, index) => {
      if (isAbove(limit.lower, limit.upper)) return draft(index, index);
      return limits.slice(0, index).flatMap((earlier, at) => {
        if (!overlap(earlier, limit) || isAbove(earlier.lower, earlier.upper)) return [];
        const convert = unitConverter(earlier.unit ?? '1', limit.unit ?? '1');
        if (!convert) return [];
        const lower = earlier.lower === undefined ? undefined : convert(earlier.lower);
        const upper = earlier.upper === undefined ? undefined : convert(earlier.upper);
        if (isAbove(limit.lower, upper)) return draft(index, at);
        return isAbove(lower, limit.upper) ? draft(at, index) : [];
      });
    });
  },
});

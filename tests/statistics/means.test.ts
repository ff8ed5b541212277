import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  oneSampleMean,
  pairedDifference,
  pooledDifference,
  pooledStandardDeviation,
  summariseGroup,
  welchDifference,
} from '../../src/statistics/mean-estimate.ts';
import { meanConfidenceLimits, tTest } from '../../src/statistics/t-test.ts';
import { designPrecision, tTestPower, tTestSampleSize } from '../../src/statistics/t-test-power.ts';
import { checkTopic, expectRelative, readColumn, readRows, valueFrom } from './reference-values.ts';
import { seededNormals } from './seeded-normals.ts';

const seed = 20260108;
const group = (values: readonly number[]) => valueFrom(summariseGroup(values));
const column = (name: string, key: string, wanted: string) =>
  readRows(name)
    .filter((row) => row['group'] === wanted)
    .map((row) => Number(row[key]));

const american = group(column('auto83b_mpg', 'mpg', 'us'));
const japanese = group(column('auto83b_mpg', 'mpg', 'japan'));
const heatFlow = valueFrom(oneSampleMean(group(readColumn('zarr13_heat_flow'))));
const sleepRows = (drug: string) => column('sleep', 'extra', drug);
const [firstDrug, secondDrug] = [sleepRows('drug1'), sleepRows('drug2')];

describe('t tests', () => {
  checkTopic({
    topic: 't-test',
    expected: { total: 5, computed: 5 },
    compute: ({ inputs }) => {
      switch (inputs.quantity) {
        // The handbook subtracts the Japanese cars from the American ones.
        case 'pooled t':
          return tTest(valueFrom(pooledDifference(japanese, american))).statistic;
        case 'pooled sd':
          return pooledStandardDeviation(american, japanese);
        case 'mean 95% CI upper':
          return meanConfidenceLimits(heatFlow, { confidence: 0.95, sides: 'both' }).upper;
        case 't':
          return tTest(heatFlow, inputs.mu0).statistic;
        case 'Welch t':
          return tTest(valueFrom(welchDifference(group(secondDrug), group(firstDrug)))).statistic;
        default:
          return undefined;
      }
    },
    // R prints 15 digits; the heat-flow values are so near each other that the last four of them are rounding.
    roughR: { 't-test-007': [1e-9, 'values agree to 3 in 1000'] },
  });

  test('NIST/SEMATECH e-Handbook 1.3.5.3, AUTO83B without equal variances: t -12.94627, 136.8750 degrees of freedom (from memory, agrees with SciPy)', () => {
    const estimate = valueFrom(welchDifference(japanese, american));
    expect(tTest(estimate).statistic).toBeCloseTo(-12.94627, 5);
    expect(estimate.degreesOfFreedom).toBeCloseTo(136.875, 4);
  });

  test('NIST/SEMATECH e-Handbook 7.3.1.1, two assembly procedures: t 2.269, 15.533 degrees of freedom (from memory)', () => {
    const estimate = valueFrom(
      welchDifference(
        { count: 9, mean: 32.2222, standardDeviation: 2.5386 },
        { count: 11, mean: 36.0909, standardDeviation: 4.9082 },
      ),
    );
    expect(tTest(estimate).statistic.toFixed(3)).toBe('2.269');
    expect(estimate.degreesOfFreedom.toFixed(3)).toBe('15.533');
  });

  test('R documentation of t.test, data set sleep: paired and Welch', () => {
    const paired = valueFrom(
      pairedDifference(firstDrug.map((first, i) => ({ first, second: secondDrug[i]! }))),
    );
    expectRelative(tTest(paired).statistic, 4.062127683382037, 1e-13);
    expectRelative(tTest(paired).pValues.different, 0.002832890197384273, 1e-12);
    const within = meanConfidenceLimits(paired, { confidence: 0.95, sides: 'both' });
    expectRelative(within.lower!, 0.7001142367230175, 1e-12);
    expectRelative(within.upper!, 2.459885763276983, 1e-12);
    const welch = valueFrom(welchDifference(group(firstDrug), group(secondDrug)));
    expectRelative(welch.degreesOfFreedom, 17.776473516178488, 1e-13);
    expectRelative(tTest(welch).pValues.different, 0.0793941401873583, 1e-12);
    expectRelative(
      meanConfidenceLimits(welch, { confidence: 0.95, sides: 'both' }).upper!,
      3.3654832307117104,
      1e-12,
    );
  });

  const sample = fc
    .array(fc.integer({ min: -50, max: 50 }), { minLength: 3, maxLength: 20 })
    .filter((values) => new Set(values).size > 1);

  test('p values do not change with shift and scale; swapping the groups mirrors them', () => {
    fc.assert(
      fc.property(
        sample,
        sample,
        fc.integer({ min: -9, max: 9 }),
        fc.integer({ min: 1, max: 9 }),
        (a, b, shift, scale) => {
          const moved = (values: readonly number[]) => group(values.map((value) => shift + scale * value));
          for (const difference of [pooledDifference, welchDifference]) {
            const before = tTest(valueFrom(difference(group(a), group(b)))).pValues;
            const after = tTest(valueFrom(difference(moved(a), moved(b)))).pValues;
            const swapped = tTest(valueFrom(difference(group(b), group(a)))).pValues;
            expectRelative(after.different, before.different, 1e-9);
            expectRelative(swapped.less, before.greater, 1e-9);
            expect(before.less + before.greater).toBeCloseTo(1, 12);
          }
        },
      ),
      { seed },
    );
  });

  test('a limit and the test are inverse: at the limit, the p value is the risk; limits widen with confidence', () => {
    fc.assert(
      fc.property(sample, fc.double({ min: 0.5, max: 0.999, noNaN: true }), (values, confidence) => {
        const estimate = valueFrom(oneSampleMean(group(values)));
        const { lower } = meanConfidenceLimits(estimate, { confidence, sides: 'lower' });
        expectRelative(tTest(estimate, lower).pValues.greater, 1 - confidence, 1e-9);
        const { lower: wider } = meanConfidenceLimits(estimate, {
          confidence: confidence + 0.0005,
          sides: 'lower',
        });
        expect(wider!).toBeLessThan(lower!);
      }),
      { seed },
    );
  });

  test('groups of one size and one spread: Welch is the pooled test', () => {
    const [a, b] = [
      { count: 12, mean: 3, standardDeviation: 0.7 },
      { count: 12, mean: 3.4, standardDeviation: 0.7 },
    ];
    const [pooled, welch] = [valueFrom(pooledDifference(a, b)), valueFrom(welchDifference(a, b))];
    expectRelative(welch.standardError, pooled.standardError, 1e-14);
    expectRelative(welch.degreesOfFreedom, 22, 1e-14);
  });

  test('the 95 % lower limit of a mean covers it in 95 of 100 samples; Welch does with unequal groups', () => {
    const normal = seededNormals(seed);
    const repeats = 6000;
    let [mean, shift] = [0, 0];
    for (let i = 0; i < repeats; i++) {
      const a = Array.from({ length: 8 }, () => 10 + 2 * normal());
      const b = Array.from({ length: 15 }, () => 10 + 0.5 * normal());
      const one = valueFrom(oneSampleMean(group(a)));
      if (meanConfidenceLimits(one, { confidence: 0.95, sides: 'lower' }).lower! <= 10) mean += 1;
      const two = valueFrom(welchDifference(group(a), group(b)));
      if (meanConfidenceLimits(two, { confidence: 0.95, sides: 'upper' }).upper! >= 0) shift += 1;
    }
    // Four standard errors of a share of 0.95 in 6000 are 0.0113.
    expect(Math.abs(mean / repeats - 0.95)).toBeLessThan(0.0113);
    expect(Math.abs(shift / repeats - 0.95)).toBeLessThan(0.0113);
  });

  test('data that allow no test are named', () => {
    expect(summariseGroup([1])).toMatchObject({ problem: 'too-few-values' });
    expect(summariseGroup([1, Number.NaN])).toMatchObject({ reason: 'value 2 of 2 is NaN' });
    expect(oneSampleMean(group([5, 5, 5]))).toMatchObject({ reason: 'all 3 values are 5' });
    expect(pairedDifference([1, 2, 3].map((first) => ({ first, second: first + 1 })))).toMatchObject({
      reason: 'all 3 differences are 1',
    });
    expect(pooledDifference(group([5, 5]), group([6, 6]))).toMatchObject({ problem: 'no-spread' });
    expect(welchDifference(group([5, 5]), group([6, 6]))).toMatchObject({ problem: 'no-spread' });
    // One group without spread: all comes from the other one.
    expect(valueFrom(welchDifference(group([5, 5]), group([1, 2, 3]))).degreesOfFreedom).toBe(2);
    expect(() => oneSampleMean({ count: 1, mean: 1, standardDeviation: 1 })).toThrow('group.count is 1');
    expect(() => welchDifference(group([1, 2]), { count: 2, mean: 1, standardDeviation: -1 })).toThrow(
      'second.standardDeviation is -1',
    );
    const estimate = valueFrom(oneSampleMean(group([1, 2, 3])));
    expect(() => meanConfidenceLimits(estimate, { confidence: 1, sides: 'both' })).toThrow('confidence is 1');
    expect(() => tTest({ ...estimate, standardError: 0 })).toThrow('standardError is 0');
  });
});

describe('power of t tests', () => {
  const twenty = designPrecision('two-samples', 1, 20);

  test('R documentation of power.t.test: 20 in each group, one standard deviation apart: 0.8689530 (strict)', () => {
    const power = tTestPower({ difference: 1, significance: 0.05, sides: 'two', ...twenty });
    expect(power.toFixed(7)).toBe('0.8689530');
  });

  test('R documentation of power.t.test: power 0.9 takes 22.02 units in each group two-sided, 17.85 one-sided', () => {
    const aim = { difference: 1, significance: 0.05, standardDeviation: 1, power: 0.9 } as const;
    expect(tTestSampleSize({ ...aim, design: 'two-samples', sides: 'two' })).toBe(23);
    expect(tTestSampleSize({ ...aim, design: 'two-samples', sides: 'one' })).toBe(18);
  });

  test('Cohen, Statistical Power Analysis, 2nd ed., table 2.4.1: d 0.5, two-sided 0.05, power 0.80: 64 in each group; 0.90: 85 (from memory)', () => {
    const aim = {
      difference: 0.5,
      significance: 0.05,
      standardDeviation: 1,
      design: 'two-samples',
      sides: 'two',
    } as const;
    expect(tTestSampleSize({ ...aim, power: 0.8 })).toBe(64);
    // At 85 the exact power is 0.89989: his table rounds; 86 is the first with 0.9.
    expect(tTestPower({ ...aim, ...designPrecision('two-samples', 1, 85) })).toBeCloseTo(0.9, 2);
    expect(tTestSampleSize({ ...aim, power: 0.9 })).toBe(86);
  });

  test('without a difference the power is the significance; it grows with difference, size and significance', () => {
    for (const sides of ['one', 'two'] as const)
      expectRelative(tTestPower({ difference: 0, significance: 0.03, sides, ...twenty }), 0.03, 1e-11);
    const power = (difference: number, count: number, significance: number) =>
      tTestPower({ difference, significance, sides: 'two', ...designPrecision('one-sample', 1, count) });
    expect(power(0.6, 10, 0.05)).toBeGreaterThan(power(0.5, 10, 0.05));
    expect(power(0.5, 11, 0.05)).toBeGreaterThan(power(0.5, 10, 0.05));
    expect(power(0.5, 10, 0.06)).toBeGreaterThan(power(0.5, 10, 0.05));
    expectRelative(power(-0.5, 10, 0.05), power(0.5, 10, 0.05), 1e-12);
  });

  test('one unit fewer is not enough', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.3, max: 2, noNaN: true }),
        fc.double({ min: 0.5, max: 0.99, noNaN: true }),
        fc.constantFrom('one', 'two'),
        (difference, power, sides) => {
          const aim = { difference, significance: 0.05, sides } as const;
          const size = tTestSampleSize({ ...aim, design: 'one-sample', standardDeviation: 1, power });
          const at = (count: number) => tTestPower({ ...aim, ...designPrecision('one-sample', 1, count) });
          expect(at(size)).toBeGreaterThanOrEqual(power);
          if (size > 2) expect(at(size - 1)).toBeLessThan(power);
        },
      ),
      { seed, numRuns: 30 },
    );
  });

  test('a simulated share of significant tests is the power', () => {
    const normal = seededNormals(seed);
    const repeats = 4000;
    let hits = 0;
    for (let i = 0; i < repeats; i++) {
      const values = Array.from({ length: 9 }, () => 0.8 + normal());
      if (tTest(valueFrom(oneSampleMean(group(values)))).pValues.greater <= 0.05) hits += 1;
    }
    const power = tTestPower({
      difference: 0.8,
      significance: 0.05,
      sides: 'one',
      ...designPrecision('one-sample', 1, 9),
    });
    expect(Math.abs(hits / repeats - power)).toBeLessThan(4 * Math.sqrt((power * (1 - power)) / repeats));
  });

  test('arguments out of range are named', () => {
    const aim = { significance: 0.05, standardDeviation: 1, power: 0.9, design: 'one-sample' } as const;
    expect(() => tTestSampleSize({ ...aim, difference: 0, sides: 'two' })).toThrow('difference is 0');
    expect(() => tTestSampleSize({ ...aim, difference: -1, sides: 'one' })).toThrow('difference is -1');
    expect(() => tTestSampleSize({ ...aim, difference: 1, sides: 'one', power: 1 })).toThrow('power is 1');
    expect(() => tTestPower({ ...twenty, difference: 1, significance: 0, sides: 'one' })).toThrow(
      'significance is 0',
    );
  });
});

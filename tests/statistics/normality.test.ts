import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { andersonDarlingTest } from '../../src/statistics/anderson-darling.ts';
import { grubbsCriticalValue, grubbsTest } from '../../src/statistics/grubbs.ts';
import { shapiroWilkTest } from '../../src/statistics/shapiro-wilk.ts';
import { checkTopic, expectRelative, readColumn, valueFrom } from './reference-values.ts';
import { seededNormals, seededUniforms } from './seeded-normals.ts';

const seed = 20260105;
const noData = 'the raw data are not in a public copy at hand';

describe('Anderson-Darling', () => {
  checkTopic({
    topic: 'anderson-darling',
    expected: { total: 5, computed: 4 },
    compute: ({ inputs }) => {
      const result = valueFrom(andersonDarlingTest(readColumn(inputs.dataset)));
      if (inputs.quantity === 'p') return result.pValue;
      // Dataplot's own small-sample adjustment, for comparison only.
      if (inputs.quantity.startsWith('A2 *'))
        return result.statistic * (1 + 4 / result.count - 25 / result.count ** 2);
      return result.statistic;
    },
    notComputed: { 'anderson-darling-007': noData },
  });

  test('the p value falls with the statistic and its pieces meet', () => {
    // A growing outlier makes one sample ever less normal.
    const base = Array.from({ length: 30 }, seededNormals(seed));
    const runs = Array.from({ length: 60 }, (_, i) => valueFrom(andersonDarlingTest([...base, 0.25 * i])));
    const sorted = runs.toSorted((a, b) => a.adjustedStatistic - b.adjustedStatistic);
    for (const [i, run] of sorted.entries()) {
      const previous = sorted[i - 1];
      // The published pieces step by up to 0.001 where they meet.
      if (previous) expect(run.pValue).toBeLessThanOrEqual(previous.pValue + 0.001);
      expect(run.pValue).toBeGreaterThanOrEqual(0);
      expect(run.pValue).toBeLessThanOrEqual(1);
    }
  });

  test('an absurd outlier gives a tiny p value, not a number that is none', () => {
    const result = valueFrom(andersonDarlingTest([...Array.from({ length: 200 }, (_, i) => i % 3), 1e9]));
    expect(result.pValue).toBeGreaterThan(0);
    expect(result.pValue).toBeLessThan(1e-20);
  });

  test('seven values are too few; equal values have no spread', () => {
    expect(andersonDarlingTest([1, 2, 3, 4, 5, 6, 7])).toMatchObject({ problem: 'too-few-values' });
    expect(andersonDarlingTest(Array(9).fill(2))).toMatchObject({ problem: 'no-spread' });
  });
});

describe('Shapiro-Wilk', () => {
  checkTopic({
    topic: 'shapiro-wilk',
    expected: { total: 10, computed: 10 },
    compute: ({ inputs }) => {
      const values = readColumn(inputs.dataset).map((value) =>
        inputs.transform === 'log' ? Math.log(value) : value,
      );
      const result = valueFrom(shapiroWilkTest(values));
      return inputs.quantity === 'p' ? result.pValue : result.statistic;
    },
  });

  test.each([
    // n, W, p: scipy.stats.shapiro (AS R94), SciPy 1.17.1, on the values ((7919 i^2 + 104729 i) mod 1009) / 10, i = 1..n.
    [3, 0.9719506691704263, 0.6786234989152077],
    [4, 0.9098489672296562, 0.48160224310553],
    [5, 0.9342974692177358, 0.6259542222058541],
    [6, 0.9576342911845844, 0.801335243152189],
    [7, 0.9241767020248933, 0.5025320656632473],
    [10, 0.9125338210578037, 0.29885316138903356],
    [11, 0.9391995942637927, 0.5111346011182832],
    [12, 0.9342179145894881, 0.4269692533664119],
    [13, 0.9241271158320463, 0.2850029345664614],
    [25, 0.9070290327156216, 0.026178996217175208],
    [50, 0.9084781001056956, 0.0009266742986094283],
    [200, 0.9338885594312798, 6.966108626981374e-8],
    [1000, 0.9497322842813302, 5.665675572049953e-18],
    [5000, 0.9492895759469112, 1.8036685580442767e-38],
  ])('n = %d against SciPy', (n, statistic, pValue) => {
    const values = Array.from(
      { length: n },
      (_, k) => ((7919 * (k + 1) ** 2 + 104729 * (k + 1)) % 1009) / 10,
    );
    const result = valueFrom(shapiroWilkTest(values));
    expectRelative(result.statistic, statistic, 1e-9);
    expectRelative(result.pValue, pValue, 1e-6);
  });

  test('limits of the method', () => {
    expect(shapiroWilkTest([1, 2])).toMatchObject({ problem: 'too-few-values' });
    expect(shapiroWilkTest(Array.from({ length: 5001 }, (_, i) => i))).toMatchObject({
      problem: 'too-many-values',
    });
    expect(shapiroWilkTest([1, 1, 1, 1])).toMatchObject({ problem: 'no-spread' });
  });

  test('three evenly spaced values fit best: W = 1, p = 1', () => {
    const result = valueFrom(shapiroWilkTest([1, 2, 3]));
    expect(result.statistic).toBeCloseTo(1, 14);
    expect(result.pValue).toBeCloseTo(1, 7);
  });
});

describe('both tests of normality', () => {
  test('do not change with shift, scale and order', () => {
    const values = fc.array(fc.integer({ min: 0, max: 500 }), { minLength: 8, maxLength: 60 });
    fc.assert(
      fc.property(
        values.filter((sample) => new Set(sample).size > 2),
        fc.integer({ min: -100, max: 100 }),
        fc.integer({ min: 1, max: 30 }),
        (sample, shift, scale) => {
          const moved = sample.map((value) => shift + scale * value).reverse();
          for (const run of [andersonDarlingTest, shapiroWilkTest]) {
            const [before, after] = [valueFrom(run(sample)), valueFrom(run(moved))];
            expect(Math.abs(after.statistic - before.statistic)).toBeLessThan(1e-9);
            expect(Math.abs(after.pValue - before.pValue)).toBeLessThan(1e-8);
          }
        },
      ),
      { seed },
    );
  });

  test('of 4000 normal samples, 5 % are rejected at 0.05; exponential samples of 30 nearly always', () => {
    const normal = seededNormals(seed);
    const uniform = seededUniforms(seed + 1);
    const runs = 4000;
    for (const run of [andersonDarlingTest, shapiroWilkTest]) {
      let rejected = 0;
      let found = 0;
      for (let i = 0; i < runs; i++) {
        if (valueFrom(run(Array.from({ length: 30 }, normal))).pValue < 0.05) rejected++;
        if (valueFrom(run(Array.from({ length: 30 }, () => -Math.log(uniform())))).pValue < 0.05) found++;
      }
      expect(Math.abs(rejected / runs - 0.05)).toBeLessThan(4 * Math.sqrt((0.05 * 0.95) / runs));
      expect(found / runs).toBeGreaterThan(0.9);
    }
  });
});

describe('Grubbs', () => {
  checkTopic({
    topic: 'grubbs',
    expected: { total: 9, computed: 9 },
    compute: ({ inputs }) =>
      inputs.dataset
        ? valueFrom(grubbsTest(readColumn(inputs.dataset), { significance: 0.05 })).statistic
        : grubbsCriticalValue({
            sampleSize: inputs.n,
            significance: inputs.alpha,
            sides: inputs.sided === 1 ? 'one' : 'two',
          }),
  });

  test('names the value 245.57 of the NIST uranium data (e-Handbook 1.3.5.17.1)', () => {
    const values = readColumn('uranium8');
    const result = valueFrom(grubbsTest(values, { significance: 0.05 }));
    expect(result).toMatchObject({
      suspectValue: 245.57,
      suspectIndex: values.indexOf(245.57),
      significant: true,
    });
  });

  test('no outlier in the NIST heat flow data (e-Handbook 1.4.2.8); critical value from the t quantile of SciPy', () => {
    const result = valueFrom(grubbsTest(readColumn('zarr13_heat_flow'), { significance: 0.05 }));
    expect(result.significant).toBe(false);
    expectRelative(result.criticalValue, 3.597906408057065, 1e-12);
  });

  test('of 4000 normal samples of 15, about 5 % are rejected at 0.05', () => {
    const normal = seededNormals(seed + 2);
    let rejected = 0;
    for (let i = 0; i < 4000; i++)
      if (valueFrom(grubbsTest(Array.from({ length: 15 }, normal), { significance: 0.05 })).significant)
        rejected++;
    expect(Math.abs(rejected / 4000 - 0.05)).toBeLessThan(4 * Math.sqrt((0.05 * 0.95) / 4000));
  });

  test('does not change with shift and scale; the critical value rises with n and falls with significance', () => {
    const values = fc.array(fc.integer({ min: 0, max: 500 }), { minLength: 3, maxLength: 40 });
    fc.assert(
      fc.property(
        values.filter((sample) => new Set(sample).size > 1),
        fc.integer({ min: 1, max: 30 }),
        (sample, scale) => {
          const before = valueFrom(grubbsTest(sample, { significance: 0.05 }));
          const after = valueFrom(
            grubbsTest(
              sample.map((value) => 7 + scale * value),
              { significance: 0.05 },
            ),
          );
          expectRelative(after.statistic, before.statistic, 1e-10);
          const critical = (sampleSize: number, significance: number) =>
            grubbsCriticalValue({ sampleSize, significance, sides: 'two' });
          expect(critical(sample.length + 1, 0.05)).toBeGreaterThan(critical(sample.length, 0.05));
          expect(critical(sample.length, 0.01)).toBeGreaterThan(critical(sample.length, 0.05));
          // The statistic can never exceed (n - 1) / sqrt n.
          expect(before.statistic).toBeLessThanOrEqual(
            ((sample.length - 1) / Math.sqrt(sample.length)) * (1 + 1e-12),
          );
        },
      ),
      { seed },
    );
  });

  test('refuses', () => {
    expect(grubbsTest([1, 2], { significance: 0.05 })).toMatchObject({ problem: 'too-few-values' });
    expect(grubbsTest([1, 1, 1], { significance: 0.05 })).toMatchObject({ problem: 'no-spread' });
    expect(() => grubbsTest([1, 2, 3], { significance: 5 })).toThrow('significance is 5');
    expect(() => grubbsCriticalValue({ sampleSize: 2, significance: 0.05, sides: 'one' })).toThrow(
      'sampleSize is 2',
    );
  });
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { betaQuantile, binomialCdf, normalQuantile } from '../../src/statistics/distributions.ts';
import { lognormalToleranceInterval } from '../../src/statistics/lognormal-tolerance.ts';
import {
  largestToleranceRank,
  orderStatisticBound,
  orderStatisticInterval,
  rankConfidence,
  smallestSampleForRank,
} from '../../src/statistics/order-statistics.ts';
import {
  criticalPlotCorrelation,
  normalOrderStatisticMedians,
  normalPlotCorrelation,
  probabilityPlotCorrelationTest,
} from '../../src/statistics/probability-plot-correlation.ts';
import { normalToleranceInterval, oneSidedToleranceFactor } from '../../src/statistics/tolerance-factor.ts';
import { expectRelative, readColumn, valueFrom } from './reference-values.ts';
import { seededNormals, seededUniforms } from './seeded-normals.ts';

const seed = 20260109;

describe('distribution-free tolerance interval', () => {
  test('minimum to maximum of 46: 90 % with confidence 0.952 (NIST/SEMATECH e-Handbook 7.2.6.4); of 93: 95/95 (EnvStats documentation)', () => {
    const values = Array.from({ length: 93 }, (_, i) => ((i * 37) % 93) + 1);
    const small = values.filter((value) => value <= 46);
    const nist = valueFrom(orderStatisticInterval(small, { coverage: 0.9, confidence: 0.95 }));
    expect(nist).toMatchObject({ count: 46, lowerRank: 1, upperRank: 1, lower: 1, upper: 46 });
    expect(nist.achievedConfidence).toBeCloseTo(0.952, 3);
    expect(valueFrom(orderStatisticInterval(values, { coverage: 0.95, confidence: 0.95 }))).toMatchObject({
      lower: 1,
      upper: 93,
    });
    expect(orderStatisticInterval(values.slice(1), { coverage: 0.95, confidence: 0.95 })).toEqual({
      ok: false,
      problem: 'too-few-values',
      reason: '92 values, at least 93 needed',
    });
  });

  test('the maximum of 24 holds 95 % with confidence 0.708 (USEPA Unified Guidance 2009, Example 17-4, from memory; 1 - 0.95^24)', () => {
    const confidence = rankConfidence({ sampleSize: 24, coverage: 0.95, rank: 1 });
    expectRelative(confidence, 1 - 0.95 ** 24, 1e-12);
    expect(confidence).toBeCloseTo(0.708, 3);
  });

  test('100 values for 90/95: fifth from an end (Meeker, Hahn and Escobar, table J.11), so the second and the 98th for both', () => {
    const values = Array.from({ length: 100 }, (_, i) => i + 1);
    const required = { coverage: 0.9, confidence: 0.95 };
    expect(valueFrom(orderStatisticBound(values, { ...required, side: 'lower' })).bound).toBe(5);
    expect(valueFrom(orderStatisticBound(values, { ...required, side: 'upper' })).bound).toBe(96);
    expect(valueFrom(orderStatisticInterval(values, required))).toMatchObject({
      lowerRank: 2,
      upperRank: 3,
      lower: 2,
      upper: 98,
      achievedConfidence: rankConfidence({ sampleSize: 100, coverage: 0.9, rank: 5 }),
    });
  });

  test('with next to no confidence every rank is allowed, and the search for it ends', () => {
    for (const confidence of [1e-12, 1e-300])
      expect(largestToleranceRank({ sampleSize: 30, coverage: 1e-12, confidence })).toBe(30);
  });

  test('confidence by the beta distribution of what lies between two order statistics (Wilks 1941)', () => {
    // The share between order statistics is Beta(n - r + 1, r): its 1 - C quantile is the coverage.
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 400 }), fc.integer({ min: 1, max: 4 }), (sampleSize, rank) => {
        const coverage = betaQuantile(0.05, sampleSize - rank + 1, rank);
        expect(Math.abs(rankConfidence({ sampleSize, coverage, rank }) - 0.95)).toBeLessThan(1e-10);
      }),
      { seed },
    );
  });

  test('the confidence reached is at least the one asked for; one rank more would not do', () => {
    const share = fc.double({ min: 0.5, max: 0.97, noNaN: true });
    fc.assert(
      fc.property(share, share, fc.integer({ min: 2, max: 300 }), (coverage, confidence, count) => {
        const values = Array.from({ length: count }, (_, i) => i);
        const interval = orderStatisticInterval(values, { coverage, confidence });
        const needed = smallestSampleForRank({ coverage, confidence, rank: 2 });
        expect(interval.ok).toBe(count >= needed);
        if (!interval.ok) return;
        const { lowerRank, upperRank, achievedConfidence } = interval.value;
        expect(upperRank - lowerRank === 0 || upperRank - lowerRank === 1).toBe(true);
        expect(achievedConfidence).toBeGreaterThanOrEqual(confidence - 1e-9);
        const rank = lowerRank + upperRank;
        expect(rank).toBe(largestToleranceRank({ sampleSize: count, coverage, confidence }));
        expect(1 - binomialCdf(rank, count, 1 - coverage)).toBeLessThan(confidence + 1e-9);
      }),
      { seed },
    );
  });

  test('holds whatever the distribution: 3000 simulated samples of 100 from three populations', () => {
    const uniform = seededUniforms(seed);
    const required = { coverage: 0.9, confidence: 0.9 };
    for (const quantile of [
      (p: number) => p,
      (p: number) => -Math.log(1 - p),
      (p: number) => Math.tan(Math.PI * (p - 0.5)),
    ]) {
      let held = 0;
      for (let run = 0; run < 3000; run++) {
        const shares = Array.from({ length: 100 }, uniform);
        const { lower, upper } = valueFrom(orderStatisticInterval(shares.map(quantile), required));
        const inside = shares.filter((p) => quantile(p) >= lower && quantile(p) <= upper);
        if (Math.max(...inside) - Math.min(...inside) >= 0.9) held++;
      }
      const claimed = valueFrom(
        orderStatisticInterval(
          Array.from({ length: 100 }, (_, i) => i),
          required,
        ),
      ).achievedConfidence;
      expect(Math.abs(held / 3000 - claimed)).toBeLessThan(4 * Math.sqrt((claimed * (1 - claimed)) / 3000));
    }
  });

  test('bad data and arguments have a reason', () => {
    const required = { coverage: 0.9, confidence: 0.9 };
    expect(orderStatisticInterval([], required)).toMatchObject({ problem: 'too-few-values' });
    expect(orderStatisticInterval([1], required)).toMatchObject({ reason: '1 values, at least 38 needed' });
    expect(orderStatisticInterval([1, Number.NaN], required)).toMatchObject({ problem: 'non-finite-value' });
    // With a confidence next to nothing every rank is allowed; a sample has no more ranks than values.
    expect(orderStatisticInterval([1, 2], { coverage: 0.01, confidence: 0.5 }).ok).toBe(true);
    expect(() => orderStatisticInterval([1, 2], { coverage: 1, confidence: 0.5 })).toThrow('coverage is 1');
    expect(() => orderStatisticInterval([1, 2], { coverage: 0.5, confidence: 1 })).toThrow('confidence is 1');
  });
});

describe('lognormal tolerance interval', () => {
  test('upper 95/95 limit of the chrysene data: 90.9247 ppb (USEPA Unified Guidance 2009, Example 17-3, via EnvStats documentation)', () => {
    const interval = valueFrom(
      lognormalToleranceInterval(readColumn('chrysene8'), {
        coverage: 0.95,
        confidence: 0.95,
        sides: 'upper',
      }),
    );
    expect(interval.upper).toBeCloseTo(90.9247, 4);
    expect(interval.lower).toBeUndefined();
    // Mean and standard deviation of the logarithms by NumPy 2.4.6.
    expectRelative(interval.ofLogarithms.mean, 2.508577310038079, 1e-12);
    expectRelative(interval.ofLogarithms.standardDeviation, 0.6279479307823694, 1e-12);
    expectRelative(interval.geometricMean, Math.exp(2.508577310038079), 1e-12);
  });

  test('lower limits of the 18 strengths: STAT17 printed 129.664 (90 %) and 121.710 (99 %) with an approximate factor (tests of the R package cmstatr)', () => {
    const strengths = [
      137.4438, 139.5395, 150.89, 141.4474, 141.8203, 151.8821, 143.9245, 132.9732, 136.6419, 138.1723,
      148.7668, 143.283, 143.5429, 141.7023, 137.4732, 152.338, 144.1589, 128.5218,
    ];
    for (const [coverage, printed] of [
      [0.9, 129.664],
      [0.99, 121.71],
    ] as const) {
      const { lower } = valueFrom(
        lognormalToleranceInterval(strengths, { coverage, confidence: 0.95, sides: 'lower' }),
      );
      expectRelative(lower!, printed, 2e-4);
    }
  });

  test('is the normal interval of the logarithms; scales with the values; widens with confidence', () => {
    const values = fc
      .array(fc.double({ min: 0.01, max: 1000, noNaN: true }), { minLength: 3, maxLength: 30 })
      .filter((list) => Math.max(...list) > 1.01 * Math.min(...list));
    fc.assert(
      fc.property(values, fc.double({ min: 0.01, max: 100, noNaN: true }), (sample, factor) => {
        const required = { coverage: 0.9, confidence: 0.95, sides: 'both' as const };
        const run = (list: readonly number[], confidence = 0.95) =>
          valueFrom(lognormalToleranceInterval(list, { ...required, confidence }));
        const { lower, upper } = run(sample);
        const plain = valueFrom(normalToleranceInterval(sample.map(Math.log), required));
        expectRelative(Math.log(upper!) - Math.log(lower!), plain.upper! - plain.lower!, 1e-9);
        const scaled = run(sample.map((x) => x * factor));
        expectRelative(scaled.lower!, lower! * factor, 1e-7);
        expectRelative(scaled.upper!, upper! * factor, 1e-7);
        expect(run(sample, 0.99).upper!).toBeGreaterThan(upper!);
      }),
      { seed },
    );
  });

  test('4000 simulated samples of 15 keep 95 % confidence', () => {
    const normal = seededNormals(seed + 1);
    const truth = Math.exp(1 + 0.7 * normalQuantile(0.01));
    let held = 0;
    for (let run = 0; run < 4000; run++) {
      const sample = Array.from({ length: 15 }, () => Math.exp(1 + 0.7 * normal()));
      const required = { coverage: 0.99, confidence: 0.95, sides: 'lower' as const };
      if (valueFrom(lognormalToleranceInterval(sample, required)).lower! <= truth) held++;
    }
    expect(Math.abs(held / 4000 - 0.95)).toBeLessThan(4 * Math.sqrt((0.95 * 0.05) / 4000));
  });

  test('bad data and arguments have a reason', () => {
    const run = (values: readonly number[], coverage = 0.9, confidence = 0.9) =>
      lognormalToleranceInterval(values, { coverage, confidence, sides: 'lower' });
    expect(run([1])).toMatchObject({ problem: 'too-few-values' });
    expect(run([3, 3, 3])).toMatchObject({ problem: 'no-spread' });
    expect(run([1, 0, 3])).toMatchObject({ problem: 'not-positive', reason: /value 2 of 3 is 0/ });
    expect(run([1, Number.POSITIVE_INFINITY])).toMatchObject({ problem: 'non-finite-value' });
    expect(() => run([-1, -1], 1)).toThrow('coverage is 1');
    expect(() => run([1, 2], 0.5, 0)).toThrow('confidence is 0');
  });
});

describe("Natrella's one-sided factor, by name only: production computes the exact one", () => {
  /** Natrella, Experimental Statistics, NBS Handbook 91 (1963), section 2-2.2; NIST/SEMATECH e-Handbook 7.2.6.3. */
  const natrella = (n: number, coverage: number, confidence: number): number => {
    const [p, c] = [normalQuantile(coverage), normalQuantile(confidence)];
    const a = 1 - (c * c) / (2 * (n - 1));
    const b = p * p - (c * c) / n;
    return (p + Math.sqrt(p * p - a * b)) / a;
  };

  test('n = 43, 90 % with 99 % confidence: 1.8752 by the formula, 1.8740 exact (e-Handbook 7.2.6.3, from memory)', () => {
    expect(natrella(43, 0.9, 0.99)).toBeCloseTo(1.8752, 4);
    expect(oneSidedToleranceFactor({ sampleSize: 43, coverage: 0.9, confidence: 0.99 })).toBeCloseTo(
      1.874,
      4,
    );
  });

  test('is far too large in small samples: 30 % at n = 10 for 99.9 % confidence', () => {
    const exact = oneSidedToleranceFactor({ sampleSize: 10, coverage: 0.9, confidence: 0.999 });
    expect(natrella(10, 0.9, 0.999) / exact - 1).toBeGreaterThan(0.1);
  });
});

describe('normal probability plot correlation', () => {
  test("Filliben's own example 6, 1, -4, 8, -2, 5, 0: r = 0.98538 as printed in 1975, 0.98540957187084 with exact medians, p 0.8875 (tests of SciPy)", () => {
    const { statistic, pValue } = valueFrom(probabilityPlotCorrelationTest([6, 1, -4, 8, -2, 5, 0]));
    expect(Math.abs(statistic - 0.98538)).toBeLessThan(1e-4);
    expectRelative(statistic, 0.98540957187084, 1e-6);
    expect(Math.abs(pValue - 0.8875)).toBeLessThan(0.02);
  });

  test.each([
    // scipy.stats.probplot, SciPy 1.17.1.
    ['zarr13_heat_flow', 0.9989641091663369],
    ['weights11', 0.8766050729384198],
    ['milk20', 0.9865180855262254],
    ['nickel20', 0.8191253978048241],
    // 0.996 in NIST/SEMATECH e-Handbook 1.4.2.1, from memory.
    ['randn', 0.9961726948845875],
    ['soulen', 0.9748400935520352],
  ])('%s: r = %d by SciPy', (name, r) => {
    expectRelative(valueFrom(normalPlotCorrelation(readColumn(name))), r, 1e-12);
  });

  test.each([
    // Filliben, Technometrics 17 (1975), table 1, as transcribed in the Python package normtest.
    [4, 0.822, 0.868, 0.958],
    [10, 0.876, 0.917, 0.97],
    [20, 0.925, 0.95, 0.981],
    [50, 0.965, 0.977, 0.99],
    [100, 0.981, 0.987, 0.994],
  ])('n = %d: critical values %d (1 %%), %d (5 %%), median %d', (sampleSize, one, five, median) => {
    const found = [0.01, 0.05, 0.5].map((significance) =>
      criticalPlotCorrelation({ sampleSize, significance }),
    );
    // The table was simulated too, and has three decimals.
    for (const [i, printed] of [one, five, median].entries())
      expect(Math.abs(found[i]! - printed)).toBeLessThan(0.003);
  });

  test('medians are symmetric, rise, and the extreme ones are medians exactly', () => {
    for (const count of [2, 3, 10, 51]) {
      const medians = normalOrderStatisticMedians(count);
      expect(medians.length).toBe(count);
      medians.forEach((score, i) => {
        expect(score).toBeCloseTo(-medians[count - 1 - i]!, 12);
        if (i > 0) expect(score).toBeGreaterThan(medians[i - 1]!);
      });
      // P(largest of n <= m) = 1/2.
      expectRelative(medians[count - 1]!, normalQuantile(0.5 ** (1 / count)), 1e-9);
    }
  });

  test('does not change with shift, scale and order', () => {
    const values = fc.array(fc.integer({ min: 0, max: 500 }), { minLength: 3, maxLength: 40 });
    fc.assert(
      fc.property(
        values.filter((sample) => new Set(sample).size > 1),
        fc.integer({ min: -1000, max: 1000 }),
        fc.integer({ min: 1, max: 30 }),
        (sample, shift, scale) => {
          const before = valueFrom(normalPlotCorrelation(sample));
          const moved = sample.map((value) => shift + scale * value).reverse();
          expectRelative(valueFrom(normalPlotCorrelation(moved)), before, 1e-10);
          expect(before).toBeLessThanOrEqual(1 + 1e-12);
        },
      ),
      { seed },
    );
  });

  test('of 3000 normal samples, 5 % are rejected at 0.05; exponential samples of 30 nearly always', () => {
    const normal = seededNormals(seed + 2);
    const uniform = seededUniforms(seed + 3);
    let rejected = 0;
    let found = 0;
    for (let run = 0; run < 3000; run++) {
      if (valueFrom(probabilityPlotCorrelationTest(Array.from({ length: 30 }, normal))).pValue < 0.05)
        rejected++;
      const skewed = Array.from({ length: 30 }, () => -Math.log(uniform()));
      if (valueFrom(probabilityPlotCorrelationTest(skewed)).pValue < 0.05) found++;
    }
    expect(Math.abs(rejected / 3000 - 0.05)).toBeLessThan(4 * Math.sqrt((0.05 * 0.95) / 3000));
    expect(found / 3000).toBeGreaterThan(0.9);
  });

  test('limits of the method', () => {
    expect(probabilityPlotCorrelationTest([1, 2])).toMatchObject({ problem: 'too-few-values' });
    expect(probabilityPlotCorrelationTest([4, 4, 4])).toMatchObject({ problem: 'no-spread' });
    expect(probabilityPlotCorrelationTest([4, Number.NaN, 4])).toMatchObject({ problem: 'non-finite-value' });
    expect(probabilityPlotCorrelationTest(Array.from({ length: 5001 }, (_, i) => i))).toMatchObject({
      problem: 'too-many-values',
    });
    expect(() => criticalPlotCorrelation({ sampleSize: 10, significance: 0 })).toThrow('significance is 0');
    expect(() => criticalPlotCorrelation({ sampleSize: 2, significance: 0.05 })).toThrow('sampleSize is 2');
  });
});

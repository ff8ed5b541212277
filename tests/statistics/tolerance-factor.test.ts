import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { arithmeticMean, sampleStandardDeviation } from '../../src/statistics/descriptive.ts';
import { chiSquareQuantile, normalCdf, normalQuantile } from '../../src/statistics/distributions.ts';
import { noncentralTQuantile } from '../../src/statistics/noncentral-t.ts';
import {
  normalToleranceInterval,
  oneSidedToleranceFactor,
  type Sides,
  twoSidedToleranceFactor,
} from '../../src/statistics/tolerance-factor.ts';
import { checkTopic, expectRelative, readColumn, valueFrom } from './reference-values.ts';
import { seededNormals } from './seeded-normals.ts';

const seed = 20260103;
const noData = 'the raw data are not in a public copy at hand';

describe('one-sided', () => {
  checkTopic({
    topic: 'tolerance-k-one-sided',
    expected: { total: 44, computed: 40 },
    compute: ({ inputs }) => {
      const { n: sampleSize, coverage, confidence } = inputs;
      if (inputs.quantity === 'noncentral t quantile') {
        const noncentrality = normalQuantile(0.9) * Math.sqrt(43);
        return noncentralTQuantile(inputs.p, {
          degreesOfFreedom: inputs.df,
          noncentrality,
        });
      }
      if (!inputs.dataset) return oneSidedToleranceFactor({ sampleSize, coverage, confidence });
      const log = inputs.transform === 'log';
      const values = readColumn(inputs.dataset).map((value) => (log ? Math.log(value) : value));
      const sides: Sides = inputs.side;
      const interval = valueFrom(normalToleranceInterval(values, { coverage, confidence, sides }));
      const limit = (sides === 'lower' ? interval.lower : interval.upper)!;
      return log ? Math.exp(limit) : limit;
    },
    notComputed: {
      'tolerance-k-one-sided-063': noData,
      'tolerance-k-one-sided-064': noData,
      'tolerance-k-one-sided-065': noData,
      'tolerance-k-one-sided-066': noData,
    },
  });
});

describe('two-sided', () => {
  checkTopic({
    topic: 'tolerance-k-two-sided',
    expected: { total: 28, computed: 28 },
    compute: ({ inputs }) => {
      const { n: sampleSize, coverage, confidence } = inputs;
      const required = { sampleSize, coverage, confidence };
      if (inputs.method === 'Howe') return howe(sampleSize, coverage, confidence);
      if (inputs.dataset)
        return valueFrom(
          normalToleranceInterval(readColumn(inputs.dataset), {
            coverage,
            confidence,
            sides: 'both',
          }),
        ).upper;
      if (inputs.mean !== undefined) return inputs.mean + twoSidedToleranceFactor(required) * inputs.sd;
      return twoSidedToleranceFactor(required);
    },
  });

  test.each([
    // Root of the integral in 25-digit mpmath arithmetic (computed for this test).
    [3, 0.5, 0.5, 0.942013019881216],
    [16, 0.9, 0.95, 2.4485525307265],
    [200, 0.9, 0.99, 1.865643274450706],
    [1000, 0.9, 0.9, 1.694612725384051],
  ])('n = %d, coverage %d, confidence %d', (sampleSize, coverage, confidence, k) => {
    expectRelative(twoSidedToleranceFactor({ sampleSize, coverage, confidence }), k, 1e-13);
  });

  /** Howe's approximation is checked here as arithmetic, and as an approximation: production never uses it. */
  test("Howe's approximation is 2 % too small at n = 10, 95/95", () => {
    const exact = twoSidedToleranceFactor({
      sampleSize: 10,
      coverage: 0.95,
      confidence: 0.95,
    });
    const off = howe(10, 0.95, 0.95) / exact - 1;
    expect(off).toBeLessThan(0);
    expect(off).toBeGreaterThan(-0.03);
  });
});

describe('the demonstration device: factors at n = 30', () => {
  test('1.7773 (95/90), 2.2198 (95/95), 3.0639 (95/99), two-sided 2.5549 (95/95)', () => {
    const one = (coverage: number) => oneSidedToleranceFactor({ sampleSize: 30, coverage, confidence: 0.95 });
    expect([one(0.9), one(0.95), one(0.99)].map((k) => k.toFixed(4))).toEqual(['1.7773', '2.2198', '3.0639']);
    const two = twoSidedToleranceFactor({
      sampleSize: 30,
      coverage: 0.95,
      confidence: 0.95,
    });
    expect(two.toFixed(4)).toBe('2.5549');
  });

  test.each([
    // n, mean, s, confidence 0.95, coverage, side, printed limit (invented results of the demonstration file)
    [30, 19.6, 1.35, 0.95, 'upper', '22.60'],
    [30, 21.05, 1.42, 0.95, 'upper', '24.20'],
    [30, 21.05, 1.42, 0.99, 'upper', '25.40'],
    [30, 24.6, 1.4, 0.9, 'upper', '27.09'],
    [30, 88.4, 6.1, 0.9, 'lower', '77.56'],
    [30, 51.8, 5.9, 0.99, 'lower', '33.72'],
    [30, 47.2, 5.9, 0.99, 'lower', '29.12'],
    [30, 46.0, 5.2, 0.99, 'lower', '30.07'],
    [60, 2.61, 0.27, 0.99, 'lower', '1.85'],
    [30, 52.0, 5.4, 0.99, 'lower', '35.45'],
  ] as const)('n %d, mean %d, s %d, 95/%d, %s limit %s', (count, mean, s, coverage, sides, printed) => {
    const values = sampleWith(count, mean, s);
    const interval = valueFrom(normalToleranceInterval(values, { coverage, confidence: 0.95, sides }));
    // Half a unit in the last printed place: mean and s are printed rounded, too.
    expect(Math.abs((sides === 'lower' ? interval.lower : interval.upper)! - Number(printed))).toBeLessThan(
      0.01,
    );
  });

  test('volume per stroke, two-sided 95/95: 18.47 to 21.63', () => {
    const required = {
      coverage: 0.95,
      confidence: 0.95,
      sides: 'both',
    } as const;
    const interval = valueFrom(normalToleranceInterval(sampleWith(30, 20.05, 0.62), required));
    expect(interval.lower!.toFixed(2)).toBe('18.47');
    expect(interval.upper!.toFixed(2)).toBe('21.63');
  });
});

describe('properties', () => {
  const sampleSize = fc.integer({ min: 2, max: 300 });
  const coverage = fc.double({ min: 0.5, max: 0.999, noNaN: true });
  const confidence = fc.double({ min: 0.5, max: 0.999, noNaN: true });

  test('more confidence or more coverage needs a larger factor, one more value a smaller', () => {
    fc.assert(
      fc.property(sampleSize, coverage, confidence, (n, p, c) => {
        for (const factor of [oneSidedToleranceFactor, twoSidedToleranceFactor]) {
          const k = factor({ sampleSize: n, coverage: p, confidence: c });
          expect(factor({ sampleSize: n, coverage: p, confidence: c + 0.0005 })).toBeGreaterThan(k);
          expect(factor({ sampleSize: n, coverage: p + 0.0005, confidence: c })).toBeGreaterThan(k);
        }
      }),
      { seed, numRuns: 60 },
    );
  });

  test('the two-sided factor lies between the one-sided one and the one for half the outside share', () => {
    fc.assert(
      fc.property(sampleSize, coverage, confidence, (n, p, c) => {
        const k = twoSidedToleranceFactor({
          sampleSize: n,
          coverage: p,
          confidence: c,
        });
        expect(k).toBeGreaterThan(normalQuantile(0.5 + p / 2) * 0.5);
        const halved = oneSidedToleranceFactor({
          sampleSize: n,
          coverage: 0.5 + p / 2,
          confidence: 0.5 + c / 2,
        });
        expect(k).toBeLessThan(halved);
      }),
      { seed, numRuns: 60 },
    );
  });

  test('limits move with shift and scale', () => {
    const values = fc.array(fc.integer({ min: 0, max: 1000 }), {
      minLength: 3,
      maxLength: 30,
    });
    fc.assert(
      fc.property(
        values.filter((sample) => new Set(sample).size > 1),
        fc.integer({ min: -1000, max: 1000 }),
        fc.integer({ min: 1, max: 20 }),
        (sample, shift, scale) => {
          const required = {
            coverage: 0.95,
            confidence: 0.95,
            sides: 'both',
          } as const;
          const before = valueFrom(normalToleranceInterval(sample, required));
          const after = valueFrom(
            normalToleranceInterval(
              sample.map((value) => shift + scale * value),
              required,
            ),
          );
          expect(Math.abs(after.lower! - (shift + scale * before.lower!))).toBeLessThan(1e-7);
          expect(Math.abs(after.upper! - (shift + scale * before.upper!))).toBeLessThan(1e-7);
        },
      ),
      { seed },
    );
  });

  test.each([
    [2, 'upper', 0.9, 0.9],
    [10, 'lower', 0.95, 0.95],
    [30, 'upper', 0.99, 0.95],
    [5, 'both', 0.9, 0.9],
    [15, 'both', 0.95, 0.95],
  ] as const)(
    'in 20000 simulated samples of %d, %s, the interval holds its share as often as claimed',
    (n, sides, p, c) => {
      const next = seededNormals(seed + n);
      const runs = 20_000;
      let held = 0;
      for (let run = 0; run < runs; run++) {
        const values = Array.from({ length: n }, next);
        const interval = valueFrom(
          normalToleranceInterval(values, {
            coverage: p,
            confidence: c,
            sides,
          }),
        );
        const below = interval.lower === undefined ? 0 : normalCdf(interval.lower);
        const above = interval.upper === undefined ? 0 : normalCdf(-interval.upper);
        if (1 - below - above >= p) held++;
      }
      // Four standard errors of a share.
      expect(Math.abs(held / runs - c)).toBeLessThan(4 * Math.sqrt((c * (1 - c)) / runs));
    },
  );
});

describe('what cannot be computed', () => {
  const required = {
    coverage: 0.95,
    confidence: 0.95,
    sides: 'lower',
  } as const;

  test('the data are the cause: returned', () => {
    expect(normalToleranceInterval([1], required)).toMatchObject({
      problem: 'too-few-values',
    });
    expect(normalToleranceInterval([2, 2, 2], required)).toMatchObject({
      problem: 'no-spread',
      reason: 'all 3 values are 2',
    });
    expect(normalToleranceInterval([1, Number.NaN], required)).toMatchObject({
      problem: 'non-finite-value',
    });
  });

  test('the arguments are the cause: thrown', () => {
    expect(() =>
      oneSidedToleranceFactor({
        sampleSize: 1,
        coverage: 0.9,
        confidence: 0.9,
      }),
    ).toThrow('sampleSize is 1; it must be a whole number of at least 2');
    expect(() => twoSidedToleranceFactor({ sampleSize: 5, coverage: 1, confidence: 0.9 })).toThrow(
      'coverage is 1',
    );
    expect(() => normalToleranceInterval([1, 2], { ...required, confidence: 95 })).toThrow(
      'confidence is 95; it must lie between 0 and 1, both excluded',
    );
  });

  test('limits that were not asked for are absent', () => {
    const lower = valueFrom(normalToleranceInterval([1, 2, 3], required));
    expect('upper' in lower).toBe(false);
  });
});

/** Howe, Journal of the American Statistical Association 64 (1969). */
function howe(n: number, coverage: number, confidence: number): number {
  const z = normalQuantile((1 + coverage) / 2);
  return z * Math.sqrt(((n - 1) * (1 + 1 / n)) / chiSquareQuantile(1 - confidence, n - 1));
}

/** Values with exactly this mean and standard deviation. */
function sampleWith(count: number, mean: number, standardDeviation: number): number[] {
  const scores = Array.from({ length: count }, (_, i) => normalQuantile((i + 0.5) / count));
  const [centre, spread] = [arithmeticMean(scores), sampleStandardDeviation(scores)];
  return scores.map((score) => mean + (standardDeviation * (score - centre)) / spread);
}

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { binomialCdf } from '../../src/statistics/distributions.ts';
import { exposureNeeded, poissonRate } from '../../src/statistics/poisson-rate.ts';
import { poissonTrend } from '../../src/statistics/poisson-trend.ts';
import { seededUniforms } from '../../src/statistics/seeded-generator.ts';

const seed = 20261125;
const exposure = 1;

describe('bounds on a rate', () => {
  /**
   * Interval for a count of 25, by Garwood's method: 90 % 17.38 to 34.92, 95 % 16.18 to 36.90, 99 % 14.00 to 41.00
   * (GraphPad, "How QuickCalcs computes the confidence interval of a count"). Each bound alone has half the risk.
   */
  test.each([
    [0.95, 17.38, 34.92],
    [0.975, 16.18, 36.9],
    [0.995, 14.0, 41.0],
  ])('25 events at %f', (confidence, lower, upper) => {
    const found = poissonRate({ events: 25, exposure, confidence });
    expect(found.lower).toBeCloseTo(lower, 2);
    expect(found.upper).toBeCloseTo(upper, 2);
  });

  /** Without an event: 3.689 at 97.5 %, 2.996 at 95 % (documentation of the R package epitools, pois.exact and pois.daly). */
  test('no event', () => {
    expect(poissonRate({ events: 0, exposure, confidence: 0.975 })).toMatchObject({ rate: 0, lower: 0 });
    expect(poissonRate({ events: 0, exposure, confidence: 0.975 }).upper).toBeCloseTo(3.689, 3);
    expect(poissonRate({ events: 0, exposure, confidence: 0.95 }).upper).toBeCloseTo(2.996, 3);
  });

  /** 95 % limits of Garwood's table (Biometrika 28, 1936), as reprinted in textbooks of epidemiology; from memory. */
  test.each([
    [1, 0.0253, 5.572],
    [5, 1.624, 11.668],
    [10, 4.795, 18.39],
    [20, 12.217, 30.888],
  ])('%i events', (events, lower, upper) => {
    const found = poissonRate({ events, exposure, confidence: 0.975 });
    expect(Math.abs(found.lower - lower)).toBeLessThan(0.001);
    expect(Math.abs(found.upper - upper)).toBeLessThan(0.001);
  });

  /** Computed with scipy 1.17.1, chi2.ppf(0.05, 4000) / 2 and chi2.ppf(0.95, 4002) / 2. */
  test('2000 events, where a chi-square of that many degrees of freedom needs care', () => {
    const found = poissonRate({ events: 2000, exposure, confidence: 0.95 });
    expect(found.lower).toBeCloseTo(1927.0127960084556, 6);
    expect(found.upper).toBeCloseTo(2075.142591043989, 6);
  });

  test('scale with the exposure, rise with events and confidence, and hold what they say', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 400 }),
        fc.double({ min: 1, max: 1e7, noNaN: true }),
        fc.double({ min: 0.5, max: 0.999, noNaN: true }),
        (events, size, confidence) => {
          const found = poissonRate({ events, exposure: size, confidence });
          expect(found.lower).toBeLessThanOrEqual(found.rate);
          expect(found.upper).toBeGreaterThan(found.rate);
          expect(poissonRate({ events: events + 1, exposure: size, confidence }).upper).toBeGreaterThan(
            found.upper,
          );
          expect(found.upper * size).toBeCloseTo(poissonRate({ events, exposure, confidence }).upper, 6);
          // At the upper bound, so few events have a probability of 1 - C.
          expect(poissonCdf(events, found.upper * size)).toBeCloseTo(1 - confidence, 7);
          if (events > 0)
            expect(1 - poissonCdf(events - 1, found.lower * size)).toBeCloseTo(1 - confidence, 7);
        },
      ),
      { seed },
    );
  });

  test('the exposure needed is where the bound meets the claim', () => {
    // The rule of three, 3 / n, is 2.996 / n (Hanley and Lippman-Hand, 1983, for the binomial).
    expect(exposureNeeded({ events: 0, rate: 1e-6, confidence: 0.95 })).toBeCloseTo(2.9957e6, -3);
    const needed = exposureNeeded({ events: 2, rate: 1e-3, confidence: 0.95 });
    expect(poissonRate({ events: 2, exposure: needed, confidence: 0.95 }).upper).toBeCloseTo(1e-3, 12);
  });

  test.each([
    [{ events: -1, exposure: 1, confidence: 0.95 }, 'events'],
    [{ events: 1.5, exposure: 1, confidence: 0.95 }, 'events'],
    [{ events: 1, exposure: 0, confidence: 0.95 }, 'exposure'],
    [{ events: 1, exposure: 1, confidence: 1 }, 'confidence'],
  ])('%o is refused', (given, named) => {
    expect(() => poissonRate(given)).toThrow(named);
  });
});

/** Sum of the probabilities, each by its logarithm. */
function poissonCdf(count: number, mean: number): number {
  let log = -mean;
  let sum = Math.exp(log);
  for (let k = 1; k <= count; k += 1) {
    log += Math.log(mean) - Math.log(k);
    sum += Math.exp(log);
  }
  return sum;
}

describe('the trend', () => {
  test('of two periods is the binomial test of the second, given the total', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 60 }),
        fc.integer({ min: 0, max: 60 }),
        fc.double({ min: 0.2, max: 5, noNaN: true }),
        (first, second, ratio) => {
          const { pValue } = poissonTrend([
            { events: first, exposure: 1 },
            { events: second, exposure: ratio },
          ]);
          const total = first + second;
          const share = ratio / (1 + ratio);
          const expected = total === 0 || second === 0 ? 1 : 1 - binomialCdf(second - 1, total, share);
          expect(pValue).toBeCloseTo(expected, 9);
        },
      ),
      { seed },
    );
  });

  test('three events in the last of three equal periods: 1 in 27', () => {
    const periods = [0, 0, 3].map((events) => ({ events, exposure: 10 }));
    expect(poissonTrend(periods)).toMatchObject({ score: 9, expected: 6, isExact: true });
    expect(poissonTrend(periods).pValue).toBeCloseTo(1 / 27, 12);
    expect(poissonTrend([...periods].reverse()).pValue).toBeCloseTo(1, 12);
  });

  test('the approximation for many events agrees with the exact test where both can be had', () => {
    const rates = [100, 120, 95, 130, 125, 140];
    const few = poissonTrend(rates.map((events) => ({ events, exposure: 1000 })));
    const many = poissonTrend(rates.map((events) => ({ events: events * 20, exposure: 1000 })));
    expect(few.isExact).toBe(true);
    expect(many.isExact).toBe(false);
    expect(few.pValue).toBeGreaterThan(1e-4);
    expect(few.pValue).toBeLessThan(0.01);
    expect(many.pValue).toBeLessThan(1e-10);
  });

  test('with a constant rate a p below 0.05 comes up in at most one of twenty', () => {
    const random = seededUniforms(seed);
    const exposures = [3, 5, 8, 6, 9, 12];
    const poisson = (mean: number): number => {
      let count = 0;
      for (let product = random(); product > Math.exp(-mean); product *= random()) count += 1;
      return count;
    };
    let found = 0;
    const runs = 2000;
    for (let run = 0; run < runs; run += 1)
      if (
        poissonTrend(exposures.map((size) => ({ events: poisson(size / 3), exposure: size }))).pValue < 0.05
      )
        found += 1;
    // Three standard errors above the level.
    expect(found / runs).toBeLessThan(0.05 + 3 * Math.sqrt((0.05 * 0.95) / runs));
    expect(found / runs).toBeGreaterThan(0.02);
  });

  test('one period has none', () => {
    expect(() => poissonTrend([{ events: 1, exposure: 1 }])).toThrow('at least 2');
  });
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  capability,
  capabilityIndices,
  ppConfidenceLimits,
  ppkConfidenceLimits,
} from '../../src/statistics/capability.ts';
import {
  ppkApproximateLowerBound,
  ppkLowerBound,
  ppkNeeded,
  ppLowerBound,
} from '../../src/statistics/capability-bounds.ts';
import { normalCdf } from '../../src/statistics/distributions.ts';
import { oneSidedToleranceFactor } from '../../src/statistics/tolerance-factor.ts';
import { expectRelative, valueFrom } from './reference-values.ts';
import { seededNormals } from './seeded-normals.ts';

const seed = 20260111;
const overall = (sampleSize: number, confidence: number) => ({
  sampleSize,
  degreesOfFreedom: sampleSize - 1,
  confidence,
});

describe('confidence bounds of capability indices', () => {
  test('Montgomery, Statistical Quality Control, section 8.3: Cp 2.29, n 20: 1.57 to 3.01; Cpk 1.33, n 20: 0.88 to 1.78 (from memory)', () => {
    const cp = ppConfidenceLimits({ pp: 2.29, degreesOfFreedom: 19, confidence: 0.95 });
    expect([cp.lower.toFixed(2), cp.upper.toFixed(2)]).toEqual(['1.57', '3.01']);
    const cpk = ppkConfidenceLimits({ ppk: 1.33, sampleSize: 20, confidence: 0.95 });
    expect([cpk.lower.toFixed(2), cpk.upper.toFixed(2)]).toEqual(['0.88', '1.78']);
  });

  test('Quality Digest, May 2000, last word: Cpk 1.15, n 45, 95 %: 0.89 to 1.41 (Bissell)', () => {
    const limits = ppkConfidenceLimits({ ppk: 1.15, sampleSize: 45, confidence: 0.95 });
    expect([limits.lower.toFixed(2), limits.upper.toFixed(2)]).toEqual(['0.89', '1.41']);
    // The lower of two-sided limits at 95 % is the one-sided bound at 97.5 %.
    expectRelative(ppkApproximateLowerBound({ ppk: 1.15, ...overall(45, 0.975) }), limits.lower, 1e-12);
  });

  test('a one-sided bound is one side of two-sided limits with half the risk', () => {
    const limits = ppConfidenceLimits({ pp: 1.4, degreesOfFreedom: 29, confidence: 0.9 });
    expectRelative(ppLowerBound({ pp: 1.4, degreesOfFreedom: 29, confidence: 0.95 }), limits.lower, 1e-13);
  });

  // SciPy 1.17, root of the noncentral t survival function (Boost).
  test.each([
    [30, 1.33, 0.95, 1.0215572538965203],
    [100, 1, 0.9, 0.8974185532574004],
    [20, 0.5, 0.99, 0.24366560914543955],
    [10, 2, 0.95, 1.194605836606261],
  ])('n %s, Ppk %s, confidence %s: bound %s', (sampleSize, ppk, confidence, bound) => {
    expectRelative(ppkLowerBound({ ppk, ...overall(sampleSize, confidence) }), bound, 1e-11);
  });

  test('the needed index is the tolerance factor: Ppk 2/3 of 30 values needs k(30, Phi(2), 0.95) / 3', () => {
    // One limit at mean - 3 Ppk s: at least the share Phi(3 Ppk) lies beyond it exactly where the index is reached.
    const factor = oneSidedToleranceFactor({ sampleSize: 30, coverage: normalCdf(2), confidence: 0.95 });
    expectRelative(ppkNeeded({ required: 2 / 3, ...overall(30, 0.95) }), factor / 3, 1e-11);
  });

  const index = fc.double({ min: -0.5, max: 3, noNaN: true });
  const size = fc.integer({ min: 2, max: 400 });
  const confidence = fc.double({ min: 0.55, max: 0.999, noNaN: true });

  test('bound and needed index are inverse; the bound falls with confidence and rises with the index', () => {
    fc.assert(
      fc.property(index, size, confidence, (ppk, sampleSize, level) => {
        const given = overall(sampleSize, level);
        const bound = ppkLowerBound({ ppk, ...given });
        expect(Math.abs(ppkNeeded({ required: bound, ...given }) - ppk)).toBeLessThan(
          1e-8 * (1 + Math.abs(ppk)),
        );
        expect(ppkLowerBound({ ppk: ppk + 0.01, ...given })).toBeGreaterThan(bound);
        expect(ppkLowerBound({ ppk, ...overall(sampleSize, level + 0.0005) })).toBeLessThan(bound);
        if (ppk > 0.05) expect(bound).toBeLessThan(ppk);
      }),
      { seed, numRuns: 60 },
    );
  });

  test('for many values all bounds come together at the index', () => {
    const given = overall(100000, 0.95);
    expect(ppkLowerBound({ ppk: 1.5, ...given })).toBeCloseTo(1.494, 3);
    expect(ppkApproximateLowerBound({ ppk: 1.5, ...given })).toBeCloseTo(
      ppkLowerBound({ ppk: 1.5, ...given }),
      4,
    );
  });

  test('simulated coverage of 95 % bounds at n 15: exact with one limit, at least that with two, Pp exact', () => {
    const normal = seededNormals(seed);
    const repeats = 2500;
    const seen = { one: 0, centred: 0, off: 0, pp: 0, approximate: 0 };
    const given = overall(15, 0.95);
    // The bound is at most the true index 1 exactly where the sample's index is at most this: one solution for all.
    const needed = ppkNeeded({ required: 1, ...given });
    for (let i = 0; i < repeats; i++) {
      const values = Array.from({ length: 15 }, normal);
      const ppkOf = (limits: { lower?: number; upper?: number }) => valueFrom(capability(values, limits));
      // True indices: 1 with a lower limit of -3; 1 centred; 1 with limits -3 and 3.6.
      const one = ppkOf({ lower: -3 });
      if (one.ppk <= needed) seen.one += 1;
      const centred = ppkOf({ lower: -3, upper: 3 });
      if (centred.ppk <= needed) seen.centred += 1;
      if (ppkOf({ lower: -3, upper: 3.6 }).ppk <= needed) seen.off += 1;
      if (ppLowerBound({ pp: centred.pp!, degreesOfFreedom: 14, confidence: 0.95 }) <= 1) seen.pp += 1;
      if (ppkApproximateLowerBound({ ppk: one.ppk, ...given }) <= 1) seen.approximate += 1;
    }
    // Four standard errors of a share of 0.95 in 2500 are 0.0174.
    const share = (count: number) => count / repeats;
    expect(Math.abs(share(seen.one) - 0.95)).toBeLessThan(0.0174);
    expect(Math.abs(share(seen.pp) - 0.95)).toBeLessThan(0.0174);
    expect(share(seen.off)).toBeGreaterThan(0.95 - 0.0174);
    expect(share(seen.centred)).toBeGreaterThan(0.96);
    // Bissell's approximation is fair: not below by more than two points.
    expect(share(seen.approximate)).toBeGreaterThan(0.93);
  });

  test('within spread: Cp and Cpk are the same formulas with another standard deviation', () => {
    const indices = capabilityIndices({ mean: 10, standardDeviation: 0.5 }, { lower: 8, upper: 13 });
    expect(indices).toMatchObject({ ppl: 2 / 1.5, ppu: 2, ppk: 2 / 1.5, pp: 5 / 3 });
  });

  test('arguments out of range are named', () => {
    expect(() => ppLowerBound({ pp: 0, degreesOfFreedom: 5, confidence: 0.9 })).toThrow('pp is 0');
    expect(() => ppkLowerBound({ ppk: Number.NaN, ...overall(5, 0.9) })).toThrow('ppk is NaN');
    expect(() => ppkLowerBound({ ppk: 1, ...overall(1, 0.9) })).toThrow('sampleSize is 1');
    expect(() => ppkLowerBound({ ppk: 1, ...overall(5, 1) })).toThrow('confidence is 1');
    expect(() => ppkNeeded({ required: 1, sampleSize: 5, degreesOfFreedom: 0.5, confidence: 0.9 })).toThrow(
      'degreesOfFreedom is 0.5',
    );
    expect(() => ppkApproximateLowerBound({ ppk: 1, ...overall(5, 0) })).toThrow('confidence is 0');
  });
});

describe('far from the limit', () => {
  const precision = { sampleSize: 30, degreesOfFreedom: 29, confidence: 0.95 };

  test('the bound joins the one that takes the mean for known, and needs no long sum', () => {
    const share = (ppk: number): number => ppkLowerBound({ ppk, ...precision }) / ppk;
    // sqrt(chi-square quantile at 5 % with 29 degrees of freedom, 17.708, over 29).
    expect(share(1e21)).toBeCloseTo(Math.sqrt(17.708 / 29), 4);
    expect(share(1e4)).toBeCloseTo(share(1e21), 6);
    expect(ppkLowerBound({ ppk: -1e21, ...precision })).toBeLessThan(-1e21);
  });
});

import { describe, expect, test } from 'vitest';
import { normalCdf } from '../../src/statistics/distributions.ts';
import {
  seededExponentials,
  seededNormals,
  seededUniforms,
  xoshiro128StarStar,
} from '../../src/statistics/seeded-generator.ts';

describe('seeded generator', () => {
  test('first words from the state 1, 2, 3, 4: reference implementation of xoshiro128** 1.1, as tested by public libraries', () => {
    const next = xoshiro128StarStar([1, 2, 3, 4]);
    expect(Array.from({ length: 10 }, next)).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  test('the same seed gives the same numbers, another one others', () => {
    const take = (seed: number) => Array.from({ length: 20 }, seededUniforms(seed));
    expect(take(7)).toEqual(take(7));
    expect(take(8)).not.toEqual(take(7));
    expect(() => seededUniforms(1.5)).toThrow('seed is 1.5');
  });

  // Largest distance between the empirical and the true distribution: 1.95 / sqrt n has a probability of 0.001
  // (Kolmogorov; Smirnov, Annals of Mathematical Statistics 19, 1948).
  test.each([
    ['uniform', seededUniforms, (x: number) => x],
    ['exponential', seededExponentials, (x: number) => -Math.expm1(-x)],
    ['normal', seededNormals, normalCdf],
  ] as const)(
    '%s numbers follow their distribution and do not follow each other',
    (_, make, distribution) => {
      const count = 100_000;
      const values = Array.from({ length: count }, make(20260106));
      const shares = values.map(distribution);
      const distance = shares
        .toSorted((a, b) => a - b)
        .reduce((worst, share, i) => Math.max(worst, Math.abs(share - (i + 0.5) / count)), 0);
      expect(distance).toBeLessThan(1.95 / Math.sqrt(count));
      const serial = shares.slice(1).reduce((sum, share, i) => sum + (share - 0.5) * (shares[i]! - 0.5), 0);
      // The correlation of neighbours has a standard error of 1 / sqrt n.
      expect(Math.abs((12 * serial) / count)).toBeLessThan(4 / Math.sqrt(count));
      expect(Math.min(...shares.slice(0, 50_000))).toBeGreaterThan(0);
    },
  );
});

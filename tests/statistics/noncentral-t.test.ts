import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { normalCdf, normalQuantile, tCdf, tQuantile } from '../../src/statistics/distributions.ts';
import {
  noncentralTCdf,
  noncentralTQuantile,
  noncentralTUpperTail,
} from '../../src/statistics/noncentral-t.ts';
import { expectRelative } from './reference-values.ts';

const seed = 20260102;

interface Point {
  readonly degreesOfFreedom: number;
  readonly noncentrality: number;
  readonly t: number;
  readonly lower: string;
  readonly upper: string;
}

/** mpmath, 40 digits; see data/README.md. */
const points: readonly Point[] = JSON.parse(
  readFileSync(new URL('data/noncentral-t.json', import.meta.url), 'utf8'),
);

describe('both tails against 40-digit arithmetic', () => {
  test('111 points, noncentrality -3 to 400, tails down to 1e-207: 1e-13 relative', () => {
    let compared = 0;
    let smallest = 1;
    for (const { t, lower, upper, ...parameters } of points) {
      for (const [value, printed] of [
        [noncentralTCdf(t, parameters), lower],
        [noncentralTUpperTail(t, parameters), upper],
      ] as const) {
        if (Number(printed) < 1e-290) {
          // Below the range in which doubles keep their digits: only the size is claimed.
          expect(value).toBeLessThan(1e-285);
          continue;
        }
        compared++;
        smallest = Math.min(smallest, value);
        expectRelative(value, Number(printed), 1e-13);
      }
    }
    expect(points.length).toBe(111);
    expect(compared).toBeGreaterThan(200);
    expect(smallest).toBeLessThan(1e-200);
  });

  test('the quantile finds the point again: 1e-13 relative', () => {
    let compared = 0;
    for (const { t, lower, upper, ...parameters } of points) {
      // A quantile is only as well determined as its probability: near 1 the double spacing of p takes over.
      if (Number(lower) < 1e-100 || Number(upper) < 0.05) continue;
      compared++;
      expectRelative(noncentralTQuantile(Number(lower), parameters), t, 1e-13);
    }
    expect(compared).toBeGreaterThan(50);
  });
});

describe('known special cases', () => {
  test('P(T <= 2), 5 degrees of freedom, noncentrality 1: Boost by way of scipy.stats.nct, SciPy 1.17.1', () => {
    expectRelative(noncentralTCdf(2, { degreesOfFreedom: 5, noncentrality: 1 }), 0.7780746626162148, 1e-12);
  });

  test('noncentrality 0 is Student t', () => {
    for (const degreesOfFreedom of [1, 2, 3.5, 10, 100, 1000])
      for (const t of [-30, -2, 0, 0.5, 3]) {
        const parameters = { degreesOfFreedom, noncentrality: 0 };
        expectRelative(noncentralTCdf(t, parameters), tCdf(t, degreesOfFreedom), 1e-12);
      }
    expectRelative(
      noncentralTQuantile(0.975, { degreesOfFreedom: 7, noncentrality: 0 }),
      tQuantile(0.975, 7),
      1e-13,
    );
  });

  test('P(T <= 0) is Phi(-noncentrality)', () => {
    for (const noncentrality of [-3, 0.7, 5, 30])
      expectRelative(
        noncentralTCdf(0, { degreesOfFreedom: 4, noncentrality }),
        normalCdf(-noncentrality),
        1e-13,
      );
  });
});

describe('properties', () => {
  const parameters = fc.record({
    degreesOfFreedom: fc.integer({ min: 1, max: 1000 }),
    noncentrality: fc.double({ min: -60, max: 200, noNaN: true }),
  });
  const probability = fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true });

  test('quantile and cdf are inverse', () => {
    fc.assert(
      fc.property(parameters, probability, (distribution, p) => {
        const t = noncentralTQuantile(p, distribution);
        if (p <= 0.5) expectRelative(noncentralTCdf(t, distribution), p, 1e-11);
        else expectRelative(noncentralTUpperTail(t, distribution), 1 - p, 1e-11);
      }),
      { seed },
    );
  });

  test.each([
    [1, 1e6, 0.8],
    [1, 1e6, 1 - 1e-9],
    [50, 1e6, 0.2],
    [1, -1e4, 1e-30],
    [1e6, 100, 0.999],
  ])(
    'inverse far out, too: %d degrees of freedom, noncentrality %d, p = %d',
    (degreesOfFreedom, noncentrality, p) => {
      const distribution = { degreesOfFreedom, noncentrality };
      const t = noncentralTQuantile(p, distribution);
      if (p <= 0.5) expectRelative(noncentralTCdf(t, distribution), p, 1e-11);
      else expectRelative(noncentralTUpperTail(t, distribution), 1 - p, 1e-11);
    },
  );

  test('the two tails add up to 1, and the distribution mirrors', () => {
    fc.assert(
      fc.property(parameters, probability, (distribution, p) => {
        const t = noncentralTQuantile(p, distribution);
        const lower = noncentralTCdf(t, distribution);
        expect(lower + noncentralTUpperTail(t, distribution)).toBeCloseTo(1, 12);
        const mirrored = {
          ...distribution,
          noncentrality: -distribution.noncentrality,
        };
        expect(noncentralTUpperTail(-t, mirrored)).toBe(lower);
      }),
      { seed },
    );
  });

  test('the cdf rises with t and falls with the noncentrality', () => {
    fc.assert(
      fc.property(parameters, fc.double({ min: 0.05, max: 0.9, noNaN: true }), (distribution, p) => {
        const t = noncentralTQuantile(p, distribution);
        expect(noncentralTCdf(t + 0.01 * (1 + Math.abs(t)), distribution)).toBeGreaterThan(p);
        const further = {
          ...distribution,
          noncentrality: distribution.noncentrality + 0.1,
        };
        expect(noncentralTCdf(t, further)).toBeLessThan(p);
      }),
      { seed },
    );
  });

  test.each([
    // mpmath, 40 digits.
    [0.3, -0.5244005127080408],
    [1e-5, -4.264890793922825],
    [1e-10, -6.361340902404056],
    [1e-15, -7.941345326170997],
    [1e-100, -21.273453560965322],
    [1e-300, -37.0470962993612],
  ])('normal quantile of %d', (p, x) => {
    expectRelative(normalQuantile(p), x, 4e-16);
  });

  test('normal quantile and cdf are inverse to rounding', () => {
    fc.assert(
      fc.property(fc.double({ min: -690, max: Math.log(0.5), noNaN: true }), (logP) => {
        const p = Math.exp(logP);
        // The cdf magnifies the rounding of x by x^2.
        const x = normalQuantile(p);
        expectRelative(normalCdf(x), p, 4e-16 * (2 + x * x));
      }),
      { seed },
    );
  });
});

test('arguments out of range are named', () => {
  const distribution = { degreesOfFreedom: 5, noncentrality: 1 };
  expect(() => noncentralTQuantile(1, distribution)).toThrow(
    'probability is 1; it must lie between 0 and 1, both excluded',
  );
  expect(() => noncentralTCdf(1, { ...distribution, degreesOfFreedom: 0 })).toThrow('degreesOfFreedom is 0');
  expect(() => noncentralTQuantile(1e-101, distribution)).toThrow(
    'probability is 1e-101; it must be at least 1e-100',
  );
  expect(() => noncentralTCdf(Number.NaN, distribution)).toThrow('t is NaN');
  expect(() =>
    noncentralTCdf(1, {
      ...distribution,
      noncentrality: Number.POSITIVE_INFINITY,
    }),
  ).toThrow('noncentrality is Infinity');
});

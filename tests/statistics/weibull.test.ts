import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type CensoredSample,
  fitWeibull,
  weibullQuantile,
  weibullReliability,
} from '../../src/statistics/weibull.ts';
import {
  censoringOf,
  weibullPercentileBound,
  weibullReliabilityBound,
} from '../../src/statistics/weibull-bound.ts';
import { weibullFitTest } from '../../src/statistics/weibull-fit-test.ts';
import { percentilePivotQuantile } from '../../src/statistics/weibull-pivots.ts';
import { checkTopic, expectRelative, readColumn, readRows, valueFrom } from './reference-values.ts';
import { seededUniforms } from './seeded-normals.ts';

const seed = 20260107;

const bearings: CensoredSample = { failures: readColumn('ball_bearings') };

const nist: CensoredSample = {
  failures: readRows('nist_weibull20').flatMap((row) =>
    row['failed'] === '1' ? [Number(row['hours'])] : [],
  ),
  censored: readRows('nist_weibull20').flatMap((row) =>
    row['failed'] === '0' ? [Number(row['hours'])] : [],
  ),
};

/** Strengths of 18 coupons: input of the STAT17 runs that the R package cmstatr tests itself against. */
const strength18 = [
  137.4438, 139.5395, 150.89, 141.4474, 141.8203, 151.8821, 143.9245, 132.9732, 136.6419, 138.1723, 148.7668,
  143.283, 143.5429, 141.7023, 137.4732, 152.338, 144.1589, 128.5218,
];

const lower = (coverage: number, confidence = 0.95) => ({ coverage, confidence, side: 'lower' as const });

const drawing = (uniform: () => number, count: number, shape: number, scale: number) =>
  Array.from({ length: count }, () => scale * (-Math.log(uniform())) ** (1 / shape));

const samples = fc
  .array(fc.integer({ min: 1, max: 2000 }), { minLength: 5, maxLength: 30 })
  .filter((values) => new Set(values).size > 3);

describe('Weibull, maximum likelihood', () => {
  checkTopic({
    topic: 'weibull',
    expected: { total: 5, computed: 3 },
    compute: ({ inputs }) => {
      const fit = valueFrom(fitWeibull(inputs.dataset === 'ball_bearings' ? bearings : nist));
      return inputs.quantity === 'shape' ? fit.shape : fit.scale;
    },
    notComputed: {
      'weibull-003': 'the raw data are not in a public copy at hand',
      'weibull-005': 'the raw data are not in a public copy at hand',
    },
    roughR: {
      'weibull-001': [1e-6, 'R maximised the likelihood numerically'],
      'weibull-002': [1e-6, 'R maximised the likelihood numerically'],
      'weibull-007': [1e-6, 'R maximised the likelihood numerically'],
    },
  });

  test('log likelihood of the ball bearings: -113.691 (Lawless; Meeker and Escobar, from memory), and as SciPy 1.17.1 sums it', () => {
    const fit = valueFrom(fitWeibull(bearings));
    expect(fit.logLikelihood).toBeCloseTo(-113.691, 3);
    expectRelative(fit.logLikelihood, -113.69129093232011, 1e-13);
    // scipy.stats.weibull_min: sum of logpdf over failures and logsf over the rest.
    expectRelative(valueFrom(fitWeibull(nist)).logLikelihood, -75.13461816447489, 1e-13);
  });

  test('solves its equations: computed anew in plain sums', () => {
    for (const { failures, censored = [] } of [bearings, nist]) {
      const { shape, scale } = valueFrom(fitWeibull({ failures, censored }));
      const all = [...failures, ...censored];
      const powers = all.map((x) => (x / scale) ** shape);
      const sum = powers.reduce((a, b) => a + b, 0);
      expectRelative(sum, failures.length, 1e-12);
      const weighted = all.reduce((a, x, i) => a + powers[i]! * Math.log(x), 0) / sum;
      const mean = failures.reduce((a, x) => a + Math.log(x), 0) / failures.length;
      expectRelative(weighted - mean, 1 / shape, 1e-12);
    }
  });

  test('a factor scales the scale, a power divides the shape, the order does not matter', () => {
    fc.assert(
      fc.property(samples, fc.double({ min: 0.01, max: 100, noNaN: true }), (values, factor) => {
        const before = valueFrom(fitWeibull({ failures: values, censored: [2000] }));
        const scaled = valueFrom(
          fitWeibull({ failures: values.map((x) => x * factor).reverse(), censored: [2000 * factor] }),
        );
        expectRelative(scaled.scale, before.scale * factor, 1e-9);
        expectRelative(scaled.shape, before.shape, 1e-9);
        const rooted = valueFrom(
          fitWeibull({ failures: values.map(Math.sqrt), censored: [Math.sqrt(2000)] }),
        );
        expectRelative(rooted.shape, 2 * before.shape, 1e-9);
      }),
      { seed },
    );
  });

  test('values many powers of ten apart, and values that hardly differ, are fitted', () => {
    for (const failures of [
      [1e-320, 1, 1e308],
      [1e6, 1e6 + 1e-6, 1e6 + 3e-6],
    ]) {
      const { shape, scale, logLikelihood } = valueFrom(fitWeibull({ failures }));
      for (const figure of [shape, scale, logLikelihood]) expect(Number.isFinite(figure)).toBe(true);
      expect(shape).toBeGreaterThan(0);
    }
  });

  test('quantile and reliability are inverse', () => {
    const parameters = { shape: 1.7, scale: 600 };
    for (const p of [1e-12, 0.01, 0.5, 0.9999])
      expectRelative(1 - weibullReliability(weibullQuantile(p, parameters), parameters), p, 1e-4);
    expect(weibullQuantile(1 - Math.exp(-1), parameters)).toBeCloseTo(600, 9);
    expect(weibullReliability(-3, parameters)).toBe(1);
    expect(() => weibullQuantile(1, parameters)).toThrow('probability is 1');
    expect(() => weibullReliability(Number.NaN, parameters)).toThrow('x is NaN');
  });
});

describe('Weibull, bounds by pivotal quantities', () => {
  test('STAT17 printed 125.441 (90 %) and 109.150 (99 %) for the 18 strengths, 95 % confidence, with a factor good to 0.5 %', () => {
    // STAT17's factors: V90 = 3.803 + exp(1.79 - 0.516 ln n + 5.1 / (n - 1)), V99 = 6.649 + exp(2.55 - 0.526 ln n + 4.76 / n),
    // bound = quantile x exp(-V / (shape sqrt n)) (MIL-HDBK-17-1F and CMH-17-1G, from memory: with them its bounds come out
    // to within 0.0006, so they are what it used).
    const n = 18;
    const v90 = 3.803 + Math.exp(1.79 - 0.516 * Math.log(n) + 5.1 / (n - 1));
    const v99 = 6.649 + Math.exp(2.55 - 0.526 * Math.log(n) + 4.76 / n);
    for (const [coverage, v, printed] of [
      [0.9, v90, 125.441],
      [0.99, v99, 109.15],
    ] as const) {
      const result = valueFrom(weibullPercentileBound({ failures: strength18 }, lower(coverage)));
      const { shape } = result.fit;
      expect(result.estimate * Math.exp(-v / (shape * Math.sqrt(n)))).toBeCloseTo(printed, 2);
      const exactV = Math.log(result.estimate / result.bound) * shape * Math.sqrt(n);
      expect(Math.abs(exactV / v - 1)).toBeLessThan(0.008);
      expect(Math.abs(result.bound - printed)).toBeLessThan(0.06);
    }
  });

  test.each([
    // n, r, p, confidence, quantile: order statistic of 200 000 or more samples by NumPy 2.4.6, plain counting.
    [5, 5, 0.05, 0.95, 8.685, 0.06],
    [10, 10, 0.05, 0.95, 5.644, 0.02],
    [10, 10, 0.01, 0.95, 8.567, 0.03],
    [30, 30, 0.05, 0.95, 4.113, 0.008],
    [30, 30, 0.01, 0.95, 6.267, 0.01],
    [30, 10, 0.05, 0.95, 5.084, 0.015],
    [30, 10, 0.01, 0.95, 8.354, 0.03],
    [100, 100, 0.01, 0.95, 5.38, 0.006],
    [23, 23, 0.1, 0.95, 3.3465, 0.008],
    [23, 23, 0.05, 0.9, 4.0202, 0.008],
    [20, 10, 0.1, 0.95, 4.0141, 0.02],
    // Few units and high reliability, where the integrand is steepest: counted by maximum likelihood in NumPy.
    [5, 5, 0.001, 0.95, 19.7, 0.1],
    [5, 3, 0.05, 0.95, 17.18, 0.12],
    [10, 5, 0.01, 0.95, 13.56, 0.09],
    [3, 3, 0.01, 0.95, 26.44, 0.12],
    [4, 4, 0.1, 0.9, 6.465, 0.02],
  ])(
    'n %d, r %d, p %d, C %d: the quantile is %d within %d',
    (count, failureCount, p, share, quantile, within) => {
      const found = percentilePivotQuantile({ count, failureCount }, Math.log(-Math.log1p(-p)), share);
      expect(Math.abs(found.value - quantile)).toBeLessThan(within);
      expect(found.standardError).toBeLessThan(within);
    },
  );

  test('a large sample comes near the normal limit', () => {
    // Variances of the estimates in large samples, over n: location 1.1087, spread 0.6079, covariance -0.2570
    // (Lawless 1982, section 4.1); n = 5000.
    const w = Math.log(-Math.log(0.9));
    const spread = Math.sqrt((1.1087 - 2 * 0.257 * w + 0.6079 * w * w) / 5000);
    const found = percentilePivotQuantile({ count: 5000, failureCount: 5000 }, w, 0.5);
    const upper = percentilePivotQuantile({ count: 5000, failureCount: 5000 }, w, 0.8413447460685429);
    expectRelative(upper.value - found.value, spread, 0.03);
    expectRelative(found.value, -w, 0.001);
  });

  test.each([
    ['complete', 10, 10, 0.95],
    ['complete', 30, 30, 0.99],
    ['type II', 20, 8, 0.9],
  ] as const)(
    '%s samples of %d with %d failures, coverage %d: in 4000 runs the bound has its confidence',
    (_, count, failureCount, coverage) => {
      const uniform = seededUniforms(seed);
      const shape = 3;
      const truth = (-Math.log(coverage)) ** (1 / shape);
      const runs = 4000;
      let held = 0;
      let heldAbove = 0;
      for (let run = 0; run < runs; run++) {
        const ordered = drawing(uniform, count, shape, 1).sort((a, b) => a - b);
        const failures = ordered.slice(0, failureCount);
        const censored = Array(count - failureCount).fill(failures[failureCount - 1]);
        const sample = { failures, censored };
        if (valueFrom(weibullPercentileBound(sample, lower(coverage))).bound <= truth) held++;
        const above = weibullPercentileBound(sample, { coverage: 0.9, confidence: 0.95, side: 'upper' });
        if (valueFrom(above).bound >= (-Math.log(0.1)) ** (1 / shape)) heldAbove++;
      }
      const slack = 4 * Math.sqrt((0.95 * 0.05) / runs);
      expect(Math.abs(held / runs - 0.95)).toBeLessThan(slack);
      expect(Math.abs(heldAbove / runs - 0.95)).toBeLessThan(slack);
    },
  );

  test('range of the instrument at the median: in 600 runs the bootstrap bound keeps about 95 %', () => {
    const uniform = seededUniforms(seed + 1);
    const end = Math.log(2) ** (1 / 3);
    let held = 0;
    let runs = 0;
    while (runs < 600) {
      const all = drawing(uniform, 20, 3, 1);
      const failures = all.filter((x) => x < end);
      if (failures.length < 3) continue;
      runs++;
      const censored = all.filter((x) => x >= end).map(() => end);
      const result = weibullPercentileBound({ failures, censored }, { ...lower(0.95), simulations: 400 });
      if (valueFrom(result).bound <= (-Math.log(0.95)) ** (1 / 3)) held++;
    }
    expect(Math.abs(held / runs - 0.95)).toBeLessThan(4 * Math.sqrt((0.95 * 0.05) / runs));
  });

  test('a sample cut at a fixed value: the bound of the NIST lives (e-Handbook 8.4.1.2) lies near that of a test ended by the last failure', () => {
    const fixed = valueFrom(weibullPercentileBound(nist, lower(0.9)));
    expect(fixed.censoring).toBe('type I');
    expect(fixed.bound).toBeLessThan(fixed.estimate);
    expect(fixed.simulationError).toBeLessThan(0.02 * fixed.bound);
    const ended = valueFrom(weibullPercentileBound({ ...nist, censored: Array(10).fill(386) }, lower(0.9)));
    expect(ended.censoring).toBe('type II');
    // Exactly the same fit, read as a test with the last failure at the end of the range: a factor 4.01 against 3.8.
    expect(Math.abs(fixed.factor / ended.factor - 1)).toBeLessThan(0.1);
  });

  test('percentile and reliability bounds are inverse', () => {
    for (const sample of [bearings, { failures: strength18 }, nist])
      for (const coverage of [0.5, 0.9, 0.99]) {
        const { bound } = valueFrom(weibullPercentileBound(sample, lower(coverage)));
        const back = valueFrom(weibullReliabilityBound(sample, { limit: bound, confidence: 0.95 }));
        // The bound of reliability is carried between nodes; its simulation error is a hundred times as large.
        expectRelative(back.bound, coverage, sample === nist ? 1e-4 : 1e-5);
        expect(Math.abs(back.bound - coverage)).toBeLessThan(
          0.02 * back.simulationError + 1e-4 * (sample === nist ? 1 : 0),
        );
      }
  });

  test('falls with confidence and coverage; scales with the values', () => {
    const sample = { failures: strength18 };
    const bound = (coverage: number, confidence: number, factor = 1) =>
      valueFrom(
        weibullPercentileBound(
          { failures: sample.failures.map((x) => x * factor) },
          lower(coverage, confidence),
        ),
      ).bound;
    const grid = [0.5, 0.8, 0.9, 0.95, 0.99, 0.999];
    for (const [i, share] of grid.entries()) {
      const next = grid[i + 1];
      if (next === undefined) continue;
      expect(bound(0.9, next)).toBeLessThan(bound(0.9, share));
      expect(bound(next, 0.95)).toBeLessThan(bound(share, 0.95));
    }
    expectRelative(bound(0.99, 0.95, 0.001), bound(0.99, 0.95) / 1000, 1e-9);
  });

  test('the same figures every time', () => {
    const once = weibullPercentileBound(nist, lower(0.99));
    expect(weibullPercentileBound(nist, lower(0.99))).toEqual(once);
  });

  test.each<[string, CensoredSample, string, string]>([
    ['no value', { failures: [] }, 'too-few-values', '0 values, at least 2 needed'],
    ['one value', { failures: [3] }, 'too-few-values', '1 value, at least 2 needed'],
    [
      'two failures',
      { failures: [3, 4], censored: [4, 4] },
      'too-few-values',
      '2 of 4 units failed, at least 3',
    ],
    ['no failure', { failures: [], censored: [4, 4] }, 'too-few-values', '0 of 2 units failed'],
    ['equal values', { failures: [5, 5, 5] }, 'no-spread', 'all 3 failures are at the largest value, 5'],
    ['a negative value', { failures: [5, -1, 6] }, 'not-positive', 'value 2 of 3 is -1'],
    ['zero', { failures: [5, 0, 6] }, 'not-positive', 'value 2 of 3 is 0'],
    ['no number', { failures: [5, Number.NaN, 6] }, 'non-finite-value', 'value 2 of 3 is NaN'],
    [
      'units held up to different values',
      { failures: [1, 2, 3, 4], censored: [5, 6] },
      'uneven-censoring',
      'different values',
    ],
    [
      'a failure beyond the end',
      { failures: [1, 2, 3, 9], censored: [5] },
      'uneven-censoring',
      'failed at 9, above 5',
    ],
  ])('%s gives a reason', (_, sample, problem, reason) => {
    const results = [
      weibullPercentileBound(sample, lower(0.9)),
      weibullReliabilityBound(sample, { limit: 1, confidence: 0.9 }),
    ];
    for (const result of results) {
      expect(result).toMatchObject({ ok: false, problem });
      if (!result.ok) expect(result.reason).toContain(reason);
    }
  });

  test('arguments out of range are named', () => {
    const sample = { failures: strength18 };
    expect(() => weibullPercentileBound(sample, lower(1))).toThrow('coverage is 1');
    expect(() => weibullPercentileBound(sample, lower(0.9, 1))).toThrow('confidence is 1');
    expect(() => weibullPercentileBound(sample, lower(0))).toThrow('coverage is 0');
    expect(() => weibullPercentileBound(sample, { ...lower(0.9), simulations: 5 })).toThrow(
      'simulations is 5',
    );
    expect(() => weibullReliabilityBound(sample, { limit: 0, confidence: 0.9 })).toThrow('limit is 0');
  });

  test('figures at the edge are finite', () => {
    for (const confidence of [1e-9, 1 - 1e-9])
      for (const coverage of [1e-9, 1 - 1e-12]) {
        const result = valueFrom(weibullPercentileBound(bearings, lower(coverage, confidence)));
        for (const figure of [result.bound, result.estimate, result.simulationError, result.factor])
          expect(Number.isFinite(figure)).toBe(true);
      }
    for (const limit of [1e-9, 1e9]) {
      const result = valueFrom(weibullReliabilityBound(bearings, { limit, confidence: 0.95 }));
      expect(result.bound).toBeGreaterThanOrEqual(0);
      expect(result.bound).toBeLessThanOrEqual(1);
      expect(Number.isFinite(result.simulationError)).toBe(true);
    }
  });
});

describe('Weibull, test of fit', () => {
  test('A² of the ball bearings and the 18 strengths, by its definition (SciPy 1.17.1), and STAT17’s p 0.179', () => {
    expectRelative(valueFrom(weibullFitTest(bearings)).statistic, 0.3286097529217855, 1e-10);
    const { statistic, pValue } = valueFrom(weibullFitTest({ failures: strength18 }));
    expectRelative(statistic, 0.5113908115997674, 1e-10);
    // STAT17 prints 0.179 (tests of the R package cmstatr) by the fitted formula of CMH-17; simulation gives about 0.2.
    const adjusted = statistic * (1 + 0.2 / Math.sqrt(18));
    expect(1 / (1 + Math.exp(-0.1 + 1.24 * Math.log(adjusted) + 4.48 * adjusted))).toBeCloseTo(0.179, 3);
    expect(Math.abs(pValue - 0.179)).toBeLessThan(0.03);
  });

  test('of a censored sample it is the integral of its definition up to the last failure (SciPy quad)', () => {
    const sample = { ...nist, censored: Array(10).fill(386) };
    expectRelative(valueFrom(weibullFitTest(sample)).statistic, 0.1868846809442221, 1e-9);
  });

  test('critical values of complete samples: 0.637 (10 %), 0.757 (5 %), 1.038 (1 %) of A² (1 + 0.2 / sqrt n) (D’Agostino and Stephens 1986, table 4.17, from memory)', () => {
    const uniform = seededUniforms(seed + 2);
    const found = Array.from({ length: 3000 }, () => {
      const { statistic } = valueFrom(weibullFitTest({ failures: drawing(uniform, 30, 2, 10) }));
      return statistic * (1 + 0.2 / Math.sqrt(30));
    });
    for (const [critical, share] of [
      [0.637, 0.1],
      [0.757, 0.05],
      [1.038, 0.01],
    ] as const) {
      const above = found.filter((value) => value > critical).length / found.length;
      expect(Math.abs(above - share)).toBeLessThan(4 * Math.sqrt((share * (1 - share)) / found.length));
    }
  });

  test('finds two groups, and has a p value of the right size', () => {
    const mixed = [...Array(15)].flatMap((_, i) => [10 + i / 100, 20 + i / 100]);
    expect(valueFrom(weibullFitTest({ failures: mixed })).pValue).toBeLessThan(0.001);
    const uniform = seededUniforms(seed + 3);
    let rejected = 0;
    for (let run = 0; run < 3000; run++)
      if (valueFrom(weibullFitTest({ failures: drawing(uniform, 12, 5, 1) })).pValue < 0.05) rejected++;
    // The standard error of p adds to that of counting.
    expect(Math.abs(rejected / 3000 - 0.05)).toBeLessThan(0.025);
  });

  test('four failures are too few', () => {
    expect(weibullFitTest({ failures: [1, 2, 3, 5] })).toMatchObject({ problem: 'too-few-values' });
    expect(weibullFitTest({ failures: [1, 2, 3, 5, 6, 7], censored: [2, 9] })).toMatchObject({
      problem: 'uneven-censoring',
    });
    expect(censoringOf({ failures: [1, 2], censored: [2] })).toEqual({ ok: true, value: 'type II' });
  });
});

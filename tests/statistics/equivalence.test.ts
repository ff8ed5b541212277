import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { normalCdf, tQuantile } from '../../src/statistics/distributions.ts';
import {
  equivalencePower,
  equivalenceSampleSize,
  equivalenceTest,
} from '../../src/statistics/equivalence.ts';
import {
  type MeanEstimate,
  oneSampleMean,
  pairedDifference,
  summariseGroup,
  welchDifference,
} from '../../src/statistics/mean-estimate.ts';
import { designPrecision, tTestPower } from '../../src/statistics/t-test-power.ts';
import { checkTopic, expectRelative, type ReferenceValue, valueFrom } from './reference-values.ts';
import { seededNormals } from './seeded-normals.ts';

const seed = 20260109;

describe('two one-sided tests', () => {
  const estimateOf = (inputs: ReferenceValue['inputs']): MeanEstimate =>
    inputs.design === 'one-sample'
      ? valueFrom(
          oneSampleMean({ count: inputs.n, mean: inputs.m - inputs.mu, standardDeviation: inputs.sd }),
        )
      : valueFrom(
          welchDifference(
            { count: inputs.n2, mean: inputs.m2, standardDeviation: inputs.sd2 },
            { count: inputs.n1, mean: inputs.m1, standardDeviation: inputs.sd1 },
          ),
        );

  checkTopic({
    topic: 'tost',
    expected: { total: 7, computed: 7 },
    compute: ({ inputs }) => {
      const estimate = estimateOf(inputs);
      const result = equivalenceTest(estimate, { lower: inputs.low, upper: inputs.high }, 0.05);
      const quantities: Record<string, number> = {
        't lower': result.aboveLower.statistic,
        'p lower': result.aboveLower.pValue,
        'p upper': result.belowUpper.pValue,
        'Welch df': estimate.degreesOfFreedom,
        '90% CI upper': result.interval.upper,
      };
      return quantities[inputs.quantity];
    },
  });

  // Vignette "Introduction to t_TOST" of the R package TOSTER, data set sleep (Cushny and Peebles 1905), limits of half an
  // hour; the printed statistics from memory.
  test.each([
    ['different units', false, -1.272, -2.45, 17.78],
    ['pairs', true, -2.777, -5.348, 9],
  ])('sleep data as %s', (_, paired, lower, upper, degrees) => {
    const first = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2];
    const second = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];
    const estimate = valueFrom(
      paired
        ? pairedDifference(first.map((value, index) => ({ first: second[index] ?? 0, second: value })))
        : welchDifference(valueFrom(summariseGroup(second)), valueFrom(summariseGroup(first))),
    );
    const result = equivalenceTest(estimate, { lower: -0.5, upper: 0.5 }, 0.05);
    expect(result.aboveLower.statistic).toBeCloseTo(lower, 2);
    expect(result.belowUpper.statistic).toBeCloseTo(upper, 2);
    expect(estimate.degreesOfFreedom).toBeCloseTo(degrees, 2);
    expect(result.isShown).toBe(false);
  });

  test('Minitab documentation, two-sample equivalence test (protein of two foods): t 1.8637 and -3.0566, p 0.044 and 0.005', () => {
    const estimate = { estimate: -0.12122, standardError: 0.20324, degreesOfFreedom: 12 };
    const result = equivalenceTest(estimate, { lower: -0.5, upper: 0.5 }, 0.05);
    expect(result.aboveLower.statistic).toBeCloseTo(1.8637, 3);
    expect(result.belowUpper.statistic).toBeCloseTo(-3.0566, 3);
    expect(result.pValue.toFixed(3)).toBe('0.044');
    expect(result.belowUpper.pValue.toFixed(3)).toBe('0.005');
    expect(result.interval.lower).toBeCloseTo(-0.48345, 4);
    expect(result.interval.upper).toBeCloseTo(0.24101, 4);
    expect(result.isShown).toBe(true);
  });

  test('Minitab documentation, equivalence test with 14 pairs: -0.31960 to 0.081034', () => {
    const estimate = valueFrom(oneSampleMean({ count: 14, mean: -0.11929, standardDeviation: 0.42324 }));
    const { interval, isShown } = equivalenceTest(estimate, { lower: -0.5, upper: 0.5 }, 0.05);
    expect(interval.lower).toBeCloseTo(-0.3196, 4);
    expect(interval.upper).toBeCloseTo(0.081034, 4);
    expect(isShown).toBe(true);
  });

  const estimates = fc.record({
    estimate: fc.double({ min: -2, max: 2, noNaN: true }),
    standardError: fc.double({ min: 0.05, max: 2, noNaN: true }),
    degreesOfFreedom: fc.double({ min: 1, max: 200, noNaN: true }),
  });

  test('the verdict is that of the interval; swapping the direction mirrors it; a stricter risk never shows more', () => {
    fc.assert(
      fc.property(estimates, fc.double({ min: 0.001, max: 0.4, noNaN: true }), (estimate, significance) => {
        const limits = { lower: -1, upper: 1.5 };
        const result = equivalenceTest(estimate, limits, significance);
        const inside = result.interval.lower >= -1 && result.interval.upper <= 1.5;
        const isNearEdge =
          Math.min(Math.abs(result.interval.lower + 1), Math.abs(result.interval.upper - 1.5)) < 1e-9;
        if (!isNearEdge) expect(result.isShown).toBe(inside);
        const mirrored = equivalenceTest(
          { ...estimate, estimate: -estimate.estimate },
          { lower: -1.5, upper: 1 },
          significance,
        );
        expectRelative(mirrored.pValue, result.pValue, 1e-12);
        if (equivalenceTest(estimate, limits, significance / 2).isShown) expect(result.isShown).toBe(true);
      }),
      { seed },
    );
  });

  test('at a limit, equivalence is shown in at most 5 of 100 samples: Welch, paired', () => {
    const normal = seededNormals(seed);
    const repeats = 5000;
    let [unpaired, paired] = [0, 0];
    for (let i = 0; i < repeats; i++) {
      const fresh = Array.from({ length: 12 }, () => 20 + normal());
      const aged = Array.from({ length: 9 }, () => 22 + 1.5 * normal());
      const groups = [fresh, aged].map((values) => valueFrom(summariseGroup(values)));
      const limits = { lower: -2, upper: 2 };
      if (equivalenceTest(valueFrom(welchDifference(groups[0]!, groups[1]!)), limits, 0.05).isShown)
        unpaired += 1;
      const pairs = fresh.map((first) => ({ first, second: first + 2 + 0.8 * normal() }));
      if (equivalenceTest(valueFrom(pairedDifference(pairs)), limits, 0.05).isShown) paired += 1;
    }
    // Four standard errors of a share of 0.05 in 5000 are 0.0123. At the limit the size is reached, not only kept.
    expect(Math.abs(unpaired / repeats - 0.05)).toBeLessThan(0.0123);
    expect(Math.abs(paired / repeats - 0.05)).toBeLessThan(0.0123);
  });

  test('arguments out of range are named', () => {
    const estimate = { estimate: 0, standardError: 1, degreesOfFreedom: 5 };
    expect(() => equivalenceTest(estimate, { lower: 1, upper: 1 }, 0.05)).toThrow('lower is 1');
    expect(() => equivalenceTest(estimate, { lower: 0, upper: 1 }, 0.5)).toThrow('significance is 0.5');
    expect(() => equivalenceTest(estimate, { lower: Number.NaN, upper: 1 }, 0.05)).toThrow('lower is NaN');
    expect(() => equivalenceTest({ ...estimate, standardError: 0 }, { lower: 0, upper: 1 }, 0.05)).toThrow(
      'standardError is 0',
    );
  });
});

describe('power of the two tests', () => {
  const log = (ratio: number) => Math.log(ratio);

  test('R package PowerTOST, documentation of sampleN.TOST: crossover, CV 0.3, 40 in all: 0.8158453', () => {
    const standardDeviation = Math.sqrt(Math.log1p(0.3 ** 2));
    const power = (count: number) =>
      equivalencePower({
        limits: { lower: log(0.8), upper: log(1.25) },
        difference: log(0.95),
        significance: 0.05,
        standardError: standardDeviation * Math.sqrt(2 / count),
        degreesOfFreedom: count - 2,
      });
    expect(power(40).toFixed(7)).toBe('0.8158453');
    expect(power(38)).toBeLessThan(0.8);
  });

  test('R package PowerTOST, documentation of sampleN.TOST: parallel groups on the plain scale: 48 in all, 0.815435', () => {
    const aim = { limits: { lower: -0.2, upper: 0.2 }, difference: -0.05, significance: 0.05 };
    const size = equivalenceSampleSize({
      ...aim,
      design: 'two-samples',
      standardDeviation: 0.2,
      power: 0.8,
    });
    expect(size).toBe(24);
    expect(equivalencePower({ ...aim, ...designPrecision('two-samples', 0.2, 24) }).toFixed(6)).toBe(
      '0.815435',
    );
  });

  // SciPy 1.17, adaptive quadrature over S itself instead of log S.
  test.each([
    [0, 'one-sample', 0.5, 2, 0.015705408438371402],
    [-0.05, 'two-samples', 0.2, 24, 0.8154347282918716],
  ] as const)(
    'a second quadrature: difference %s, %s, %s, %s units',
    (difference, design, sd, count, power) => {
      const aim = { limits: { lower: -0.2, upper: 0.2 }, difference, significance: 0.05 };
      expectRelative(equivalencePower({ ...aim, ...designPrecision(design, sd, count) }), power, 1e-11);
    },
  );

  test('with one limit far away it is the power of the one-sided test, from one degree of freedom to thousands', () => {
    for (const count of [2, 3, 8, 30, 200, 5000])
      for (const difference of [0.1, 0.5, 1.5]) {
        const precision = designPrecision('one-sample', 1, count);
        const power = equivalencePower({
          limits: { lower: 0, upper: 1e9 },
          difference,
          significance: 0.05,
          ...precision,
        });
        const one = tTestPower({ difference, significance: 0.05, sides: 'one', ...precision });
        expect(Math.abs(power - one)).toBeLessThan(1e-10);
      }
  });

  test('at a limit it is at most the significance, and the significance for many units', () => {
    const at = (count: number) =>
      equivalencePower({
        limits: { lower: -1, upper: 1 },
        difference: 1,
        significance: 0.05,
        ...designPrecision('two-samples', 1, count),
      });
    for (const count of [2, 5, 20]) expect(at(count)).toBeLessThanOrEqual(0.05 * (1 + 1e-12));
    expect(at(200)).toBeCloseTo(0.05, 10);
  });

  test('largest in the middle, mirrored, growing with size; one unit fewer is not enough', () => {
    const limits = { lower: -1, upper: 1 };
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 0.6, noNaN: true }),
        fc.double({ min: 0.5, max: 0.95, noNaN: true }),
        fc.constantFrom('one-sample', 'two-samples'),
        (difference, power, design) => {
          const aim = { limits, significance: 0.05 };
          const at = (shift: number, count: number) =>
            equivalencePower({ ...aim, difference: shift, ...designPrecision(design, 1, count) });
          const size = equivalenceSampleSize({ ...aim, difference, design, standardDeviation: 1, power });
          expect(at(difference, size)).toBeGreaterThanOrEqual(power);
          expect(at(difference, size - 1)).toBeLessThan(power);
          expect(at(-difference, size)).toBeCloseTo(at(difference, size), 12);
          expect(at(difference, size)).toBeLessThanOrEqual(at(0, size) + 1e-12);
        },
      ),
      { seed, numRuns: 30 },
    );
  });

  test('simulated: estimate and spread drawn by their distributions', () => {
    const normal = seededNormals(seed);
    const count = 10;
    const critical = tQuantile(0.95, count - 1);
    const repeats = 5000;
    let hits = 0;
    for (let i = 0; i < repeats; i++) {
      const values = Array.from({ length: count }, () => 0.2 + normal());
      const estimate = valueFrom(oneSampleMean(valueFrom(summariseGroup(values))));
      const margin = critical * estimate.standardError;
      if (estimate.estimate - margin >= -1 && estimate.estimate + margin <= 1) hits += 1;
    }
    const power = equivalencePower({
      limits: { lower: -1, upper: 1 },
      difference: 0.2,
      significance: 0.05,
      ...designPrecision('one-sample', 1, count),
    });
    expect(Math.abs(hits / repeats - power)).toBeLessThan(4 * Math.sqrt((power * (1 - power)) / repeats));
  });

  test('with the spread as good as known: the normal probability between the limits', () => {
    const power = equivalencePower({
      limits: { lower: -1, upper: 1 },
      difference: 0.3,
      significance: 0.05,
      standardError: 0.3,
      degreesOfFreedom: 1e8,
    });
    const z = 1.6448536269514722;
    expect(power).toBeCloseTo(normalCdf(0.7 / 0.3 - z) - normalCdf(-1.3 / 0.3 + z), 7);
  });

  test('a difference that no number of units shows is refused', () => {
    const aim = { limits: { lower: -1, upper: 1 }, significance: 0.05, design: 'one-sample' } as const;
    for (const difference of [1, -1, 2, Number.NaN])
      expect(() => equivalenceSampleSize({ ...aim, difference, standardDeviation: 1, power: 0.8 })).toThrow(
        'it must lie between the limits',
      );
    expect(() => equivalenceSampleSize({ ...aim, difference: 0, standardDeviation: 0, power: 0.8 })).toThrow(
      'standardDeviation is 0',
    );
  });
});

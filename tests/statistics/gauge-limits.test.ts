import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chiSquareQuantile, fQuantile, fUpperTail } from '../../src/statistics/distributions.ts';
import { gaugeStudy } from '../../src/statistics/gauge-study.ts';
import { nestedGaugeStudy } from '../../src/statistics/nested-gauge-study.ts';
import { varianceLine } from '../../src/statistics/one-way-analysis-of-variance.ts';
import { varianceInterval } from '../../src/statistics/variance-interval.ts';
import { expectRelative, readRows, valueFrom } from './reference-values.ts';
import { seededNormals } from './seeded-normals.ts';

const seed = 20260107;

const rows = readRows('thermal_impedance_10x3x3').map((row) => ({
  part: row.part!,
  operator: row.operator!,
  value: Number(row.value),
}));

describe('confidence limits of a crossed study', () => {
  const study = valueFrom(gaugeStudy(rows));

  test('Houf and Berman 1988: F ratios 162.27, 7.28 and 5.27 (Montgomery, Design and Analysis of Experiments; from memory)', () => {
    expect(study.fRatios.part).toBeCloseTo(162.27, 2);
    expect(study.fRatios.operator).toBeCloseTo(7.28, 2);
    expect(study.fRatios.interaction).toBeCloseTo(5.27, 2);
    expect(study.interactionPooled).toBe(false);
  });

  // The tests of the public R package gaugerr, which follows Burdick, Borror and Montgomery 2005; 95 %.
  test.each([
    ['repeatability', 0.51111111, 0.368157535, 0.7575430447],
    ['part', 48.29259259, 22.69451908, 161.6391841517],
    ['operator', 0.56460905, 0.072961525, 25.7507696003],
    ['interaction', 0.72798354, 0.332725386, 1.7927201819],
    ['reproducibility', 1.29259259, 0.612491664, 26.4986365504],
    ['gauge', 1.8037037, 1.206225574, 27.0172388372],
  ] as const)('variance of %s with its limits', (name, estimate, lower, upper) => {
    const { variance, limits } = study.components[name];
    expectRelative(variance, estimate, 1e-7);
    expectRelative(limits?.variance.lower ?? 0, lower, 1e-8);
    expectRelative(limits?.variance.upper ?? 0, upper, 1e-8);
  });

  test('total variance: limits of Graybill and Wang 1980, computed with SciPy 1.17', () => {
    // The package's test prints 166.22069 as the upper limit, its formula and SciPy give 166.22217.
    const { limits } = study.components.total;
    expectRelative(limits?.variance.lower ?? 0, 24.488435035, 1e-9);
    expectRelative(limits?.variance.upper ?? 0, 166.22217290531665, 1e-12);
  });

  test('gauge share of the total variance: 0.00938 to 0.37152 (same package); categories follow from it', () => {
    expectRelative((study.studyVariationLimits?.lower ?? 0) ** 2 / 1e4, 0.009380075, 1e-6);
    expectRelative((study.studyVariationLimits?.upper ?? 0) ** 2 / 1e4, 0.3715152548, 1e-8);
    // sqrt(2 x 1.691679513) and sqrt(2 x 105.6089533996), whole numbers below.
    expect(study.distinctCategoryLimits).toEqual({ lower: 1, upper: 14 });
  });

  test('with the interaction pooled: Montgomery data, the formulas of chapter 3 computed apart with SciPy 1.17', () => {
    const pooled = valueFrom(
      gaugeStudy(
        readRows('grr_montgomery_20x3x2').map((row) => ({
          part: row.part!,
          operator: row.operator!,
          value: Number(row.value),
        })),
      ),
    );
    const { part, gauge, operator, interaction } = pooled.components;
    expectRelative(part.limits!.variance.lower, 5.865225952621792, 1e-11);
    expectRelative(part.limits!.variance.upper, 22.033816877484107, 1e-11);
    expectRelative(gauge.limits!.variance.lower, 0.6942649348824073, 1e-11);
    expectRelative(gauge.limits!.variance.upper, 2.1889012999493977, 1e-11);
    // The formula gives -0.0148 as the lower limit: a variance is not below 0.
    expect(operator.limits!.variance.lower).toBe(0);
    expectRelative(operator.limits!.variance.upper, 1.26923617635766, 1e-11);
    expectRelative(pooled.studyVariationLimits!.lower, 19.559558238015335, 1e-11);
    expectRelative(pooled.studyVariationLimits!.upper, 46.374214969209774, 1e-11);
    expect(interaction.limits).toBeUndefined();
  });

  test('the estimate lies between its limits, which widen with the confidence', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 0.99, noNaN: true }), (confidence) => {
        const narrow = valueFrom(gaugeStudy(rows, { confidence }));
        const wide = valueFrom(gaugeStudy(rows, { confidence: confidence + 0.009 }));
        for (const name of ['repeatability', 'gauge', 'part', 'operator', 'total'] as const) {
          const one = narrow.components[name];
          const other = wide.components[name];
          expect(one.limits!.variance.lower).toBeLessThanOrEqual(one.variance);
          expect(one.limits!.variance.upper).toBeGreaterThanOrEqual(one.variance);
          expect(other.limits!.variance.upper).toBeGreaterThan(one.limits!.variance.upper);
          expect(other.limits!.variance.lower).toBeLessThanOrEqual(one.limits!.variance.lower);
        }
        expect(wide.studyVariationLimits!.upper).toBeGreaterThan(narrow.studyVariationLimits!.upper);
      }),
      { seed, numRuns: 30 },
    );
  });

  test('per cent of tolerance carries the limits of the standard deviation', () => {
    const { gauge } = valueFrom(gaugeStudy(rows, { tolerance: 27, studyWidth: 6 })).components;
    expectRelative(gauge.limits!.percentTolerance!.upper, (600 * Math.sqrt(27.01723883718991)) / 27, 1e-12);
    expectRelative(gauge.limits!.standardDeviation.lower, Math.sqrt(1.2062255740430063), 1e-12);
  });
});

describe('variance of weighted mean squares', () => {
  test('of one mean square has the exact chi-square limits', () => {
    const { lower, upper } = varianceInterval([{ weight: 1, line: varianceLine(20, 10) }], 0.95);
    expectRelative(lower, 20 / chiSquareQuantile(0.975, 10), 1e-13);
    expectRelative(upper, 20 / chiSquareQuantile(0.025, 10), 1e-13);
  });

  test('a mean square whose weight is 0 does not count, and scale carries through', () => {
    const lines = [varianceLine(50, 4), varianceLine(30, 8), varianceLine(12, 40)];
    const [a, b, c] = lines.map((line) => line);
    const plain = varianceInterval(
      [
        { weight: 1, line: a! },
        { weight: -0.5, line: b! },
      ],
      0.9,
    );
    const more = varianceInterval(
      [
        { weight: 1, line: a! },
        { weight: -0.5, line: b! },
        { weight: 0, line: c! },
      ],
      0.9,
    );
    expect(more).toEqual(plain);
    const scaled = varianceInterval(
      [
        { weight: 3, line: a! },
        { weight: -1.5, line: b! },
      ],
      0.9,
    );
    expectRelative(scaled.upper, 3 * plain.upper, 1e-13);
  });

  test('refuses a confidence of 1 and two negative weights', () => {
    const line = varianceLine(1, 1);
    expect(() => varianceInterval([{ weight: 1, line }], 1)).toThrow('confidence is 1');
    expect(() =>
      varianceInterval(
        [
          { weight: -1, line },
          { weight: -1, line },
          { weight: 3, line },
        ],
        0.9,
      ),
    ).toThrow('2 weights are negative');
  });

  test('F quantiles: table values (NIST/SEMATECH e-Handbook 1.3.6.7.3), inverse of the tail, mirrored', () => {
    expect(fQuantile(0.95, 5, 10)).toBeCloseTo(3.326, 3);
    expect(fQuantile(0.99, 3, 20)).toBeCloseTo(4.938, 3);
    expect(fQuantile(0.9, 1, 1)).toBeCloseTo(39.863, 3);
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 0.999, noNaN: true }),
        fc.integer({ min: 1, max: 200 }),
        fc.integer({ min: 1, max: 200 }),
        (p, above, below) => {
          expect(1 - fUpperTail(fQuantile(p, above, below), above, below)).toBeCloseTo(p, 9);
          expectRelative(fQuantile(p, above, below), 1 / fQuantile(1 - p, below, above), 1e-8);
        },
      ),
      { seed, numRuns: 60 },
    );
  });
});

describe('coverage in simulation', () => {
  /** Shares of studies whose 90 % limits hold the true value. */
  const coverage = (runs: number, hold: (normal: () => number) => readonly boolean[]): readonly number[] => {
    const normal = seededNormals(seed);
    const counts: number[] = [];
    for (let run = 0; run < runs; run++)
      for (const [index, held] of hold(normal).entries())
        counts[index] = (counts[index] ?? 0) + (held ? 1 : 0);
    return counts.map((count) => count / runs);
  };
  const within = (truth: number, limits: { lower: number; upper: number } | undefined): boolean =>
    limits !== undefined && limits.lower <= truth && truth <= limits.upper;

  // 1,000 studies: the standard error of a share of 0.9 is 0.0095, three of them are allowed below.
  test('crossed, with interaction: gauge, part, reproducibility and the share of the gauge hold 90 %', () => {
    const shares = coverage(1000, (normal) => {
      const operators = Array.from({ length: 4 }, () => 0.6 * normal());
      const readings = Array.from({ length: 8 }, (_, p) => {
        const part = 2 * normal();
        return operators.flatMap((operator, o) => {
          const interaction = 0.5 * normal();
          return [1, 2].map(() => ({
            part: `P${p}`,
            operator: `O${o}`,
            value: part + operator + interaction + 0.4 * normal(),
          }));
        });
      }).flat();
      const study = valueFrom(gaugeStudy(readings, { poolInteractionAbove: 1, confidence: 0.9 }));
      const { gauge, part, reproducibility, total } = study.components;
      const share = study.studyVariationLimits;
      return [
        within(0.36 + 0.25 + 0.16, gauge.limits?.variance),
        within(4, part.limits?.variance),
        within(0.61, reproducibility.limits?.variance),
        within(4.77, total.limits?.variance),
        within(100 * Math.sqrt(0.77 / 4.77), share),
      ];
    });
    for (const share of shares) expect(share).toBeGreaterThan(0.9 - 0.0285);
    for (const share of shares) expect(share).toBeLessThan(0.98);
  });

  test('crossed, without interaction and pooled: the same', () => {
    const shares = coverage(1000, (normal) => {
      const operators = Array.from({ length: 4 }, () => 0.6 * normal());
      const readings = Array.from({ length: 8 }, (_, p) => {
        const part = 2 * normal();
        return operators.flatMap((operator, o) =>
          [1, 2].map(() => ({ part: `P${p}`, operator: `O${o}`, value: part + operator + 0.4 * normal() })),
        );
      }).flat();
      const study = valueFrom(gaugeStudy(readings, { poolInteractionAbove: 0, confidence: 0.9 }));
      const { gauge, part, operator } = study.components;
      return [
        within(0.52, gauge.limits?.variance),
        within(4, part.limits?.variance),
        within(0.36, operator.limits?.variance),
        within(100 * Math.sqrt(0.52 / 4.52), study.studyVariationLimits),
      ];
    });
    for (const share of shares) expect(share).toBeGreaterThan(0.9 - 0.0285);
    for (const share of shares) expect(share).toBeLessThan(0.98);
  });

  test('nested: gauge and part hold 90 %', () => {
    const shares = coverage(1000, (normal) => {
      const readings = Array.from({ length: 5 }, (_, o) => {
        const operator = 0.6 * normal();
        return Array.from({ length: 4 }, (_, p) => {
          const part = normal();
          return [1, 2].map(() => ({
            part: `O${o}P${p}`,
            operator: `O${o}`,
            value: operator + part + 0.4 * normal(),
          }));
        });
      }).flat(2);
      const { gauge, part, repeatability } = valueFrom(
        nestedGaugeStudy(readings, { confidence: 0.9 }),
      ).components;
      return [
        within(0.52, gauge.limits?.variance),
        within(1, part.limits?.variance),
        within(0.16, repeatability.limits?.variance),
      ];
    });
    for (const share of shares) expect(share).toBeGreaterThan(0.9 - 0.0285);
    for (const share of shares) expect(share).toBeLessThan(0.985);
  });
});

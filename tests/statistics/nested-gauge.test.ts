import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { GaugeReading } from '../../src/statistics/gauge-components.ts';
import { nestedGaugeStudy } from '../../src/statistics/nested-gauge-study.ts';
import { expectRelative, valueFrom } from './reference-values.ts';

const seed = 20260108;

/** Readings by operator, then part: the repeats. */
const readings = (table: readonly (readonly (readonly number[])[])[]): readonly GaugeReading[] =>
  table.flatMap((parts, o) =>
    parts.flatMap((values, p) =>
      values.map((value) => ({ operator: `O${o + 1}`, part: `O${o + 1}-${p + 1}`, value })),
    ),
  );

/** Purity of batches from suppliers, coded: Montgomery, Design and Analysis of Experiments, two-stage nested design. */
const purity = [
  [
    [1, -1, 0],
    [-2, -3, -4],
    [-2, 0, 1],
    [1, 4, 0],
  ],
  [
    [1, -2, -3],
    [0, 4, 2],
    [-1, 0, -2],
    [0, 3, 2],
  ],
  [
    [2, 4, 0],
    [-2, 0, 2],
    [1, -1, 2],
    [3, 2, 1],
  ],
];

/** Components from spindles of machines: Montgomery, problem of the same chapter, as solved at rpubs 978870. */
const spindles = [
  [
    [12, 9, 11, 12],
    [8, 9, 10, 8],
  ],
  [
    [14, 15, 13, 14],
    [12, 10, 11, 13],
  ],
  [
    [14, 10, 12, 11],
    [16, 15, 15, 14],
  ],
];

describe('nested gauge study', () => {
  test('purity data: sums of squares 15.06, 69.92, 63.33; F 0.97 and 2.94; batch variance 1.71, error 2.64 (Montgomery; figures from memory)', () => {
    const study = valueFrom(nestedGaugeStudy(readings(purity)));
    expect(study.analysis.operator.sumOfSquares).toBeCloseTo(15.06, 2);
    expect(study.analysis.part.sumOfSquares).toBeCloseTo(69.92, 2);
    expect(study.analysis.repeatability.sumOfSquares).toBeCloseTo(63.33, 2);
    expect(study.fRatios.operator).toBeCloseTo(0.97, 2);
    expect(study.fRatios.part).toBeCloseTo(2.94, 2);
    expect(study.pValues.operator).toBeCloseTo(0.416, 3);
    expect(study.pValues.part).toBeCloseTo(0.017, 3);
    expect(study.components.part.variance).toBeCloseTo(1.71, 2);
    expect(study.components.repeatability.variance).toBeCloseTo(2.64, 2);
    expect(study.setToZero).toEqual(['operator']);
    expect(study.components.reproducibility.variance).toBe(0);
    expect([study.operators, study.partsPerOperator, study.repeats]).toEqual([3, 4, 3]);
  });

  test('spindle data: mean squares 27.875, 14.5833, 1.4722; F 1.9114 and 9.9057; p 0.2915630 and 0.0004428', () => {
    const study = valueFrom(nestedGaugeStudy(readings(spindles)));
    expect(study.analysis.operator.meanSquare).toBeCloseTo(27.875, 10);
    expect(study.analysis.part.meanSquare).toBeCloseTo(14.5833, 4);
    expect(study.analysis.repeatability.meanSquare).toBeCloseTo(1.4722, 4);
    expect(study.fRatios.operator).toBeCloseTo(1.9114, 4);
    expect(study.fRatios.part).toBeCloseTo(9.9057, 4);
    expect(study.pValues.operator).toBeCloseTo(0.291563, 6);
    expect(study.pValues.part).toBeCloseTo(0.0004428, 7);
    // By hand: (27.875 - 14.58333) / 8 and (14.58333 - 1.47222) / 4.
    expect(study.components.reproducibility.variance).toBeCloseTo(1.661458, 6);
    expect(study.components.part.variance).toBeCloseTo(3.277778, 6);
    expect(study.components.gauge.variance).toBeCloseTo(3.1336806, 6);
    // floor(sqrt 2 x sqrt(3.277778 / 3.133681)) = floor(1.446)
    expect(study.distinctCategories).toBe(1);
  });

  test('per cent of tolerance is six standard deviations, with limits', () => {
    const { gauge } = valueFrom(nestedGaugeStudy(readings(spindles), { tolerance: 20 })).components;
    expectRelative(gauge.percentTolerance ?? 0, (100 * 6 * Math.sqrt(gauge.variance)) / 20, 1e-14);
    expect(gauge.limits?.percentTolerance?.upper).toBeGreaterThan(gauge.percentTolerance ?? 0);
  });

  test('shift does nothing, scale squares, order does not matter', () => {
    const before = valueFrom(nestedGaugeStudy(readings(spindles))).components;
    fc.assert(
      fc.property(fc.integer({ min: -1e6, max: 1e6 }), fc.integer({ min: 1, max: 50 }), (shift, scale) => {
        const moved = readings(spindles)
          .map((reading) => ({ ...reading, value: shift + scale * reading.value }))
          .reverse();
        const after = valueFrom(nestedGaugeStudy(moved)).components;
        for (const name of ['repeatability', 'gauge', 'part', 'total'] as const) {
          expectRelative(after[name].variance, scale ** 2 * before[name].variance, 1e-9);
          expectRelative(after[name].percentContribution, before[name].percentContribution, 1e-9);
        }
      }),
      { seed },
    );
  });

  test('says why it cannot judge', () => {
    const all = readings(spindles);
    const asked = (list: readonly GaugeReading[]) => nestedGaugeStudy(list);
    expect(asked(all.slice(1))).toMatchObject({
      problem: 'unbalanced',
      reason: 'part O1-1 of operator O1 was measured 3 times, not 4 times as most',
    });
    expect(asked(all.filter((reading) => reading.part !== 'O2-1'))).toMatchObject({
      problem: 'unbalanced',
      reason: 'operator O2 has 1 part, not 2 as most',
    });
    expect(asked(all.map((reading) => ({ ...reading, part: reading.part.slice(3) })))).toMatchObject({
      problem: 'unbalanced',
      reason:
        'operators O1 and O2 both measured part 1; in a nested study each operator has parts of their own',
    });
    expect(asked(all.slice(0, 8))).toMatchObject({ reason: '1 operator, at least 2 needed' });
    expect(asked(all.filter((reading) => reading.part.endsWith('1')))).toMatchObject({
      reason: '1 part for each operator, at least 2 needed',
    });
    expect(asked(all.filter((_, index) => index % 4 === 0).concat([]))).toMatchObject({
      problem: 'too-few-values',
    });
    expect(asked(all.map((reading) => ({ ...reading, value: Number.NaN })))).toMatchObject({
      problem: 'non-finite-value',
    });
    expect(asked(all.map((reading) => ({ ...reading, value: reading.part.length })))).toMatchObject({
      problem: 'no-spread',
    });
    expect(asked(all.map((reading, index) => ({ ...reading, value: Math.floor(index / 4) })))).toMatchObject({
      reason: 'all repeats of each part are the same, so the gauge shows no spread',
    });
    expect(asked([])).toMatchObject({ reason: '0 values, at least 8 needed' });
    expect(() => nestedGaugeStudy(all, { confidence: 1 })).toThrow('confidence is 1');
    expect(() => nestedGaugeStudy(all, { studyWidth: 0 })).toThrow('studyWidth is 0');
  });
});

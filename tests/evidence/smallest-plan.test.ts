import { describe, expect, test } from 'vitest';
import type { CharacteristicEvidence, EvidenceResult } from '../../src/evidence/result.ts';
import { smallestPlanWords, unitsByMeasurement } from '../../src/evidence/smallest-plan.ts';

/** Mean 0 and standard deviation 1, so that a limit is its own distance. */
const standard = (limits: { lower?: number; upper?: number }): CharacteristicEvidence => ({
  limits: { characteristic: 'force', unit: 'N', ...limits },
  verdict: 'pass',
  reason: '',
  sampleSize: 30,
  values: [
    { key: 'mean', label: 'mean', value: 0, unit: 'N', decimals: 1 },
    { key: 'standard_deviation', label: 'standard deviation', value: 1, unit: 'N', decimals: 1 },
  ],
  assumptions: [],
  readings: [],
});

const resultOf = (...characteristics: readonly CharacteristicEvidence[]): EvidenceResult => ({
  record: 'VR-01',
  method: 'normal-tolerance-interval',
  basis: '',
  characteristics,
  verdict: 'pass',
  reason: '',
  unitCount: 30,
  excludedUnits: [],
  lots: [],
  findings: [],
});

const asked = { confidence: 0.95, reliability: 0.99 };
const byMeasurement = { kind: 'normal-tolerance-interval', rationale: '' };

describe('units by measurement', () => {
  /**
   * One-sided factors for confidence 95 %, share 99 %, from Natrella, Experimental Statistics, NBS Handbook 91,
   * table A-7: n = 10: 3.981, n = 30: 3.064, n = 50: 2.863. Rounded to three decimals, so half a unit is added.
   */
  test.each([
    [10, 3.981],
    [30, 3.064],
    [50, 2.863],
  ])('%i units at the factor of the handbook', (units, factor) => {
    expect(unitsByMeasurement(standard({ upper: factor + 0.0005 }), asked)).toBe(units);
    expect(unitsByMeasurement(standard({ lower: -factor - 0.0005 }), asked)).toBe(units);
  });

  /** Two-sided factor for n = 30, 95 %/95 %: 2.549 by Howe's approximation in the same handbook, 2.5549 exactly. */
  test('two limits take the two-sided factor and the nearer limit', () => {
    const plan = { confidence: 0.95, reliability: 0.95 };
    expect(unitsByMeasurement(standard({ lower: -9, upper: 2.555 }), plan)).toBe(30);
    expect(unitsByMeasurement(standard({ lower: -2.555, upper: 9 }), plan)).toBe(30);
  });

  test('no number of units where the limit lies nearer than the quantile itself', () => {
    // z(0.99) = 2.3263, any table of the normal distribution.
    expect(unitsByMeasurement(standard({ upper: 2.326 }), asked)).toBeUndefined();
    expect(unitsByMeasurement(standard({ upper: -1 }), asked)).toBeUndefined();
    expect(unitsByMeasurement({ ...standard({ upper: 5 }), values: [] }, asked)).toBeUndefined();
  });
});

describe('the words', () => {
  /** 299 and 59 without failures: n = ln(1 - C) / ln(R), common practice. */
  test('a plan by counting names its own number', () => {
    expect(smallestPlanWords({ kind: 'success-run', rationale: '' }, asked, [])).toBe(
      '299 units without failures',
    );
    expect(
      smallestPlanWords(
        { kind: 'attribute', rationale: '', accept: 1 },
        { confidence: 0.95, reliability: 0.95 },
        [],
      ),
    ).toBe('93 units with 1 allowed, or 59 units without failures');
  });

  test('a plan by measurement asks for data, uses them, or says that they leave no way', () => {
    expect(smallestPlanWords(byMeasurement, asked, [])).toMatch(/^299 .* plinth plan/);
    expect(
      smallestPlanWords(byMeasurement, asked, [
        resultOf(standard({ upper: 3.0645 }), standard({ upper: 3.982 })),
      ]),
    ).toBe('30 units with the mean and spread of VR-01, or 299 units without failures');
    expect(smallestPlanWords(byMeasurement, asked, [resultOf(standard({ upper: 2 }))])).toBe(
      '299 units without failures; by measurement no number of units would do with the mean and spread of VR-01',
    );
  });
});

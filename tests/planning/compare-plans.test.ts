import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { comparePlans, type PlanComparison } from '../../src/planning/compare-plans.ts';
import type { ComparedPlan } from '../../src/planning/compared-plan.ts';
import { distancesAtShare, qualityOfSpread } from '../../src/planning/expected-quality.ts';
import { normalCdf } from '../../src/statistics/distributions.ts';
import { seededNormals, seededUniforms } from '../statistics/seeded-normals.ts';

const compare = (
  confidence: number,
  reliability: number,
  fraction: number | undefined,
  chance = 0.9,
): PlanComparison =>
  comparePlans({
    statement: { confidence, reliability },
    chance,
    ...(fraction === undefined ? {} : { expected: { fraction } }),
  });

const ofKind = <Kind extends ComparedPlan['kind']>(
  { plans }: PlanComparison,
  kind: Kind,
): Extract<ComparedPlan, { readonly kind: Kind }> => {
  const found = plans.find((plan) => plan.kind === kind);
  if (!found) throw new Error(`there is no ${kind} plan`);
  return found as Extract<ComparedPlan, { readonly kind: Kind }>;
};

describe('comparing plans', () => {
  /** P(X <= c) of the binomial distribution, term by term. */
  const binomial = (c: number, n: number, p: number): number => {
    let term = (1 - p) ** n;
    let sum = term;
    for (let count = 1; count <= c; count += 1) {
      term *= ((n - count + 1) / count) * (p / (1 - p));
      sum += term;
    }
    return sum;
  };

  test.each([
    // Common in tables of the trade (from memory); held against a sum by hand.
    [0.95, 0.95, [59, 93, 124, 153]],
    [0.95, 0.99, [299, 473, 628, 773]],
    [0.9, 0.9, [22, 38, 52, 65]],
  ])('attribute plans for %f/%f', (confidence, reliability, sizes) => {
    const { plans, cheapest } = compare(confidence, reliability, undefined);
    expect(plans.map((plan) => plan.kind === 'attribute' && plan.sampleSize)).toEqual(sizes);
    for (const [c, n] of sizes.entries()) {
      expect(binomial(c, n, 1 - reliability)).toBeLessThanOrEqual(1 - confidence);
      expect(binomial(c, n - 1, 1 - reliability)).toBeGreaterThan(1 - confidence);
    }
    expect(cheapest).toBe(plans[0]);
  });

  test('variables: near the nomogram of Montgomery, Introduction to Statistical Quality Control, chapter 16 (from memory)', () => {
    // p1 = 0.01 accepted with 0.95, p2 = 0.06 with 0.10: n = 40 and k = 1.9 by a nomogram of the normal approximation.
    const plan = ofKind(compare(0.9, 0.94, 0.01, 0.95), 'variables');
    expect(Math.abs(plan.sampleSize - 40)).toBeLessThanOrEqual(2);
    expect(plan.factor).toBeCloseTo(1.9, 2);
  });

  test('sequential: the lines of NIST/SEMATECH e-Handbook 6.2.6', () => {
    // p1 = 0.01, p2 = 0.10, alpha = 0.05, beta = 0.10: x = -0.939 + 0.0397 n and x = 1.205 + 0.0397 n; accepts with no
    // failure from unit 24 on.
    const plan = ofKind(compare(0.9, 0.9, 0.01, 0.95), 'sequential');
    expect(plan.acceptanceIntercept).toBeCloseTo(0.939, 3);
    expect(plan.rejectionIntercept).toBeCloseTo(1.205, 3);
    expect(plan.slope).toBeCloseTo(0.0397, 4);
    expect(plan.steps[0]).toEqual({ failures: 0, acceptFrom: 24 });
    expect(plan.steps[2]).toEqual({ failures: 2, acceptFrom: 74, rejectUpTo: 19 });
  });

  test('a sequential plan run unit by unit passes and stops as it says', () => {
    const plan = ofKind(compare(0.95, 0.95, 0.005), 'sequential');
    for (const [share, units] of [
      [0.005, plan.averageSampleNumber],
      [0.05, plan.averageSampleNumberAtLimit],
    ] as const) {
      const random = seededUniforms(7);
      const runs = 4000;
      let [passed, taken] = [0, 0];
      for (let run = 0; run < runs; run += 1) {
        let failing = 0;
        for (let unit = 1; ; unit += 1) {
          if (random() < share) failing += 1;
          const accepts =
            unit === plan.largestSample
              ? failing <= plan.acceptedAtEnd
              : failing <= plan.slope * unit - plan.acceptanceIntercept;
          if (accepts) passed += 1;
          if (
            accepts ||
            unit === plan.largestSample ||
            failing >= plan.slope * unit + plan.rejectionIntercept
          ) {
            taken += unit;
            break;
          }
        }
      }
      // Five standard errors.
      const expected = plan.acceptance(share);
      expect(Math.abs(passed / runs - expected)).toBeLessThan(
        5 * Math.sqrt((expected * (1 - expected)) / runs),
      );
      expect(Math.abs(taken / runs / units - 1)).toBeLessThan(0.05);
    }
  });

  test('a plan by variables between two limits passes as often as it says', () => {
    const spread = { mean: 20.4, standardDeviation: 0.7, lower: 17, upper: 23 };
    const expected = qualityOfSpread(spread);
    const plan = ofKind(
      comparePlans({ statement: { confidence: 0.95, reliability: 0.99 }, expected, chance: 0.9 }),
      'variables',
    );
    const normals = seededNormals(11);
    const runs = 3000;
    let passed = 0;
    for (let run = 0; run < runs; run += 1) {
      const values = Array.from({ length: plan.sampleSize }, () => 20.4 + 0.7 * normals());
      const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
      const s = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
      if (mean - plan.factor * s >= 17 && mean + plan.factor * s <= 23) passed += 1;
    }
    const chance = plan.chance ?? 0;
    expect(chance).toBeGreaterThanOrEqual(0.9);
    expect(Math.abs(passed / runs - chance)).toBeLessThan(5 * Math.sqrt((chance * (1 - chance)) / runs));
  });

  test('a plan by variables takes as many units as a test of normality needs, however wide the margin', () => {
    // k for 8 units and 95/95: 3.187 (ISO 16269-6:2014, table C.2; NIST/SEMATECH e-Handbook 7.2.6.3 by the noncentral t).
    const wide = { mean: 100, standardDeviation: 1, lower: 50 };
    const plan = ofKind(
      comparePlans({
        statement: { confidence: 0.95, reliability: 0.95 },
        chance: 0.9,
        expected: qualityOfSpread(wide),
      }),
      'variables',
    );
    expect(plan.sampleSize).toBe(8);
    expect(plan.sizeOfStatement).toBeLessThan(8);
    expect(plan.factor).toBeCloseTo(3.187, 3);
    const between = ofKind(
      comparePlans({
        statement: { confidence: 0.95, reliability: 0.95 },
        chance: 0.9,
        expected: qualityOfSpread({ ...wide, upper: 150 }),
      }),
      'variables',
    );
    expect(between.sampleSize).toBe(8);
    const narrow = ofKind(
      comparePlans({
        statement: { confidence: 0.95, reliability: 0.95 },
        chance: 0.9,
        expected: qualityOfSpread({ ...wide, lower: 97 }),
      }),
      'variables',
    );
    expect(narrow.sampleSize).toBeGreaterThan(8);
    expect(narrow.sizeOfStatement).toBeUndefined();
  });

  test('every plan keeps the statement, and the fewest units are those that reach the chance', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(0.8, 0.9, 0.95, 0.99),
        fc.constantFrom(0.8, 0.9, 0.95, 0.99),
        fc.double({ min: 0.001, max: 0.3, noNaN: true }),
        (confidence, reliability, part) => {
          const comparison = compare(confidence, reliability, part * (1 - reliability));
          for (const plan of comparison.plans) {
            expect(plan.risk, plan.name).toBeLessThanOrEqual((1 - confidence) * (1 + 1e-9));
            const shares = [0, 0.1, 0.5, 1, 2].map((factor) => plan.acceptance(factor * (1 - reliability)));
            for (const [index, value] of shares.entries())
              expect(value).toBeLessThanOrEqual((shares[index - 1] ?? 1) + 1e-12);
          }
          for (const kind of ['variables', 'sequential'] as const)
            expect(ofKind(comparison, kind).chance).toBeGreaterThanOrEqual(0.9);
          const sizes = comparison.plans.flatMap((plan) =>
            plan.kind !== 'sequential' && (plan.chance ?? 0) >= 0.9 ? [plan.sampleSize] : [],
          );
          const { cheapest } = comparison;
          expect(cheapest && cheapest.kind !== 'sequential' && cheapest.sampleSize).toBe(Math.min(...sizes));
        },
      ),
      { numRuns: 25, seed: 3 },
    );
  });

  test('the attribute plan with the fewest failures that reaches the chance is added', () => {
    const { plans } = compare(0.95, 0.99, 0.005);
    expect(plans[4]).toMatchObject({ kind: 'attribute', acceptanceNumber: 17, sampleSize: 2546 });
    expect(binomial(17, 2546, 0.005)).toBeGreaterThanOrEqual(0.9);
    // With one failure less, the smallest sample that keeps the statement no longer passes often enough.
    let size = 2300;
    while (binomial(16, size, 0.01) > 0.05) size += 1;
    expect(binomial(16, size, 0.005)).toBeLessThan(0.9);
    expect(compare(0.95, 0.99, undefined).plans).toHaveLength(4);
  });

  test('says why there is no plan', () => {
    const reasons = (comparison: PlanComparison): string =>
      comparison.unavailable.map(({ kind, reason }) => `${kind}: ${reason}`).join('\n');
    const bad = compare(0.95, 0.99, 0.02);
    expect(reasons(bad)).toContain('sequential: the expected quality is no better than the reliability');
    expect(bad.cheapest).toBeUndefined();
    expect(reasons(compare(0.95, 0.99, 0.0099))).toContain('more than 10000 units');
    const offCentre = qualityOfSpread({ mean: 18.7, standardDeviation: 0.7, lower: 17, upper: 23 });
    expect(offCentre.fraction).toBeLessThan(0.01);
    const statement = { confidence: 0.95, reliability: 0.99 };
    // 1.7 / 0.7 = 2.43 is less than the 0.995 quantile, 2.58.
    expect(reasons(comparePlans({ statement, expected: offCentre, chance: 0.9 }))).toContain(
      'the mean is 2.43 standard deviations from the nearer limit; an interval that holds the reliability reaches at least 2.58',
    );
    expect(() => compare(0.05, 0.9, 0.01, 0.9)).toThrow('must be above 1 - confidence');
    expect(() => compare(1, 0.9, 0.01)).toThrow(RangeError);
  });
});

describe('expected quality', () => {
  test('is what lies beyond the limits of a normal distribution', () => {
    // 1.96 standard deviations on each side leave 5 % outside.
    const both = qualityOfSpread({
      mean: 0,
      standardDeviation: 1,
      lower: -1.959963984540054,
      upper: 1.959963984540054,
    });
    expect(both.fraction).toBeCloseTo(0.05, 12);
    const one = qualityOfSpread({ mean: 35, standardDeviation: 2, lower: 30 });
    expect(one.fraction).toBeCloseTo(0.006209665325776, 12);
    expect(one.distances).toBeUndefined();
  });

  test('a wider spread about the same mean leaves the share that is asked for', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 8, noNaN: true }),
        fc.double({ min: 0.5, max: 8, noNaN: true }),
        fc.double({ min: 1e-6, max: 0.5, noNaN: true }),
        (toLower, toUpper, share) => {
          const found = distancesAtShare({ toLower, toUpper }, share);
          expect(normalCdf(-found.toLower) + normalCdf(-found.toUpper)).toBeCloseTo(share, 10);
          expect(found.toLower / found.toUpper).toBeCloseTo(toLower / toUpper, 9);
        },
      ),
      { seed: 5 },
    );
  });
});

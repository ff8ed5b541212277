import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  acceptanceProbability,
  lotAcceptanceProbability,
  twoPointLotPlan,
} from '../../src/statistics/acceptance-plan.ts';
import { acceptableQualityLimits, codeLetterPlan } from '../../src/statistics/code-letter-plan.ts';
import {
  lotQualityAtAcceptance,
  qualityAtAcceptance,
  qualityPoints,
} from '../../src/statistics/quality-points.ts';
import { seededNormals } from '../../src/statistics/seeded-generator.ts';
import { oneSidedToleranceFactor, twoSidedToleranceFactor } from '../../src/statistics/tolerance-factor.ts';
import {
  betweenLimitsAcceptanceProbability,
  twoPointVariablesPlan,
  variablesAcceptanceProbability,
} from '../../src/statistics/variables-plan.ts';
import { expectRelative, referencesOf } from './reference-values.ts';

const seed = 20260612;
const share = fc.double({ min: 0.0005, max: 0.4, noNaN: true });

describe('quality at a probability of acceptance', () => {
  const curve = referencesOf('iso2859-plan').filter(({ inputs }) => inputs.quantity === 'p %');

  test('there are three remembered points of ISO 2859-1 operating characteristics', () => {
    expect(curve.length).toBe(3);
  });

  test.each(curve)('$id, $source', ({ inputs, expected, tolerance, r_value }) => {
    const found = qualityAtAcceptance({
      sampleSize: inputs.n,
      acceptanceNumber: inputs.ac,
      probability: inputs.pa,
    });
    expect(Math.abs(100 * found - (expected as number))).toBeLessThanOrEqual(tolerance);
    expectRelative(100 * found, r_value as number, 1e-5);
  });

  test('is the inverse of the operating characteristic', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 500 }),
        fc.nat(),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        (sampleSize, pick, probability) => {
          const acceptanceNumber = pick % sampleSize;
          const shareNonconforming = qualityAtAcceptance({ sampleSize, acceptanceNumber, probability });
          expectRelative(
            acceptanceProbability({ sampleSize, acceptanceNumber, shareNonconforming }),
            probability,
            1e-9,
          );
        },
      ),
      { seed },
    );
  });

  test('59 without failure: 95/95 is its consumer point, 1 - 0.05^(1/59) by hand', () => {
    const plan = { sampleSize: 59, acceptanceNumber: 0 };
    expectRelative(qualityAtAcceptance({ ...plan, probability: 0.05 }), 1 - 0.05 ** (1 / 59), 1e-12);
    const points = qualityPoints(plan);
    expectRelative(points.acceptable, 1 - 0.95 ** (1 / 59), 1e-12);
    expectRelative(points.indifferent, 1 - 0.5 ** (1 / 59), 1e-12);
    expectRelative(points.limiting, 1 - 0.1 ** (1 / 59), 1e-12);
  });

  test('in a lot: the largest number that is still accepted often enough', () => {
    const plan = { sampleSize: 20, acceptanceNumber: 1, lotSize: 100 };
    const nonconforming = lotQualityAtAcceptance({ ...plan, probability: 0.1 });
    expect(lotAcceptanceProbability({ ...plan, nonconforming })).toBeGreaterThanOrEqual(0.1);
    expect(lotAcceptanceProbability({ ...plan, nonconforming: nonconforming + 1 })).toBeLessThan(0.1);
    expect(
      lotQualityAtAcceptance({ sampleSize: 10, acceptanceNumber: 10, lotSize: 10, probability: 0.5 }),
    ).toBe(10);
  });

  test('a plan that accepts whatever it sees has no such quality', () => {
    expect(() => qualityAtAcceptance({ sampleSize: 3, acceptanceNumber: 3, probability: 0.5 })).toThrow(
      'acceptanceNumber is 3',
    );
    expect(() => qualityAtAcceptance({ sampleSize: 3, acceptanceNumber: 1, probability: 1 })).toThrow(
      'probability is 1',
    );
  });
});

describe('two points in a finite lot', () => {
  test('Kenett and Zacks, Modern Industrial Statistics (from memory): N = 100, 1 % at 0.95, 8 % at 0.05: n = 46, c = 1', () => {
    // Computed a second time with SciPy 1.17.1, hypergeom.cdf.
    expect(
      twoPointLotPlan({
        lotSize: 100,
        acceptable: 1,
        rejectable: 8,
        producerRisk: 0.05,
        consumerRisk: 0.05,
      }),
    ).toEqual({ sampleSize: 46, acceptanceNumber: 1 });
  });

  test('keeps both risks', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 20, max: 300 }),
        fc.integer({ min: 0, max: 3 }),
        fc.integer({ min: 1, max: 12 }),
        (lotSize, acceptable, more) => {
          const rejectable = acceptable + more;
          const risks = { producerRisk: 0.05, consumerRisk: 0.1 };
          const plan = twoPointLotPlan({ lotSize, acceptable, rejectable, ...risks });
          const accepted = (nonconforming: number) =>
            lotAcceptanceProbability({ ...plan, lotSize, nonconforming });
          expect(accepted(acceptable)).toBeGreaterThanOrEqual(0.95 - 1e-9);
          expect(accepted(rejectable)).toBeLessThanOrEqual(0.1 + 1e-9);
        },
      ),
      { seed, numRuns: 40 },
    );
  });
});

describe('plans by lot size and AQL', () => {
  const plans = referencesOf('iso2859-plan').filter(({ inputs }) => inputs.lot !== undefined);

  test('there are twelve published or remembered plans', () => {
    expect(plans.length).toBe(12);
  });

  test.each(plans)('$id, $source', ({ inputs, expected }) => {
    const wanted = expected as unknown as { code: string; n: number; ac: number; re: number };
    expect(
      codeLetterPlan({ lotSize: inputs.lot, acceptableQualityLimit: inputs.aql, level: inputs.level }),
    ).toEqual({
      codeLetter: wanted.code,
      sampleSize: wanted.n,
      acceptanceNumber: wanted.ac,
      rejectionNumber: wanted.re,
    });
  });

  test('follows arrows: up to acceptance number 0, down to 1 (ISO 2859-1 table 2-A, from memory)', () => {
    // Letter J with AQL 0.25 points up to H, with 0.40 down to K.
    expect(codeLetterPlan({ lotSize: 1000, acceptableQualityLimit: 0.25 })).toMatchObject({
      codeLetter: 'H',
      sampleSize: 50,
      acceptanceNumber: 0,
    });
    expect(codeLetterPlan({ lotSize: 1000, acceptableQualityLimit: 0.4 })).toMatchObject({
      codeLetter: 'K',
      sampleSize: 125,
      acceptanceNumber: 1,
    });
    // A small lot with a strict AQL: the sample would exceed it, so every unit is inspected.
    expect(codeLetterPlan({ lotSize: 40, acceptableQualityLimit: 0.1 })).toMatchObject({
      sampleSize: 40,
      acceptanceNumber: 0,
    });
  });

  test('levels: lot 3201 to 10000 is J, L and M; over 500000 N, Q and R (public chart of the standard)', () => {
    const letter = (lotSize: number, level: 'I' | 'II' | 'III') =>
      codeLetterPlan({ lotSize, acceptableQualityLimit: 0.65, level })?.codeLetter;
    expect([letter(5000, 'I'), letter(5000, 'II'), letter(5000, 'III')]).toEqual(['J', 'L', 'M']);
    expect([letter(600_000, 'I'), letter(600_000, 'II'), letter(600_000, 'III')]).toEqual(['N', 'Q', 'R']);
  });

  test('every plan accepts lots at the AQL at least 7 times of 8', () => {
    let looked = 0;
    for (const lotSize of [8, 15, 25, 50, 90, 150, 280, 500, 1200, 3200, 10_000, 35_000, 150_000, 600_000])
      for (const acceptableQualityLimit of acceptableQualityLimits)
        for (const level of ['I', 'II', 'III'] as const) {
          const plan = codeLetterPlan({ lotSize, acceptableQualityLimit, level })!;
          const accepted = acceptanceProbability({
            ...plan,
            shareNonconforming: acceptableQualityLimit / 100,
          });
          // ISO 2859-1 table 10: from 88 % for acceptance number 0 to above 98 %.
          expect(accepted).toBeGreaterThan(0.87);
          looked++;
        }
    expect(looked).toBe(14 * 16 * 3);
  });

  test('an AQL between the columns has no plan; a lot of one is refused', () => {
    expect(codeLetterPlan({ lotSize: 100, acceptableQualityLimit: 0.3 })).toBeUndefined();
    expect(() => codeLetterPlan({ lotSize: 1, acceptableQualityLimit: 1 })).toThrow('lotSize is 1');
  });
});

describe('variables plans', () => {
  test('vignette of the R package AccSamplingDesign: known spread, 2.5 % and 10 %: n = 19 (18.607), k = 1.579', () => {
    const plan = twoPointVariablesPlan({
      acceptableQuality: 0.025,
      rejectableQuality: 0.1,
      producerRisk: 0.05,
      consumerRisk: 0.1,
      spread: 'known',
    });
    expect(plan.sampleSize).toBe(19);
    // The package prints the k that keeps both risks at n = 18.607; ours may be anything in this range at n = 19.
    expect(plan.factor).toBeLessThan(1.579);
    expect(plan.largestFactor).toBeGreaterThan(1.579);
  });

  test('manual of the R package AcceptanceSampling (from memory): 5 % at 0.95, 15 % at 0.075: n = 26 known, 49 unknown', () => {
    const points = {
      acceptableQuality: 0.05,
      rejectableQuality: 0.15,
      producerRisk: 0.05,
      consumerRisk: 0.075,
    };
    expect(twoPointVariablesPlan({ ...points, spread: 'known' }).sampleSize).toBe(26);
    const plan = twoPointVariablesPlan(points);
    expect(plan.sampleSize).toBe(49);
    // SciPy 1.17.1, nct.ppf.
    expectRelative(plan.factor, 1.3249628200061558, 1e-9);
    expectRelative(plan.largestFactor, 1.3265345691327097, 1e-9);
  });

  test('Montgomery, Introduction to Statistical Quality Control, nomograph (from memory): 1 % and 6 %: n = 40, k = 1.9', () => {
    const plan = twoPointVariablesPlan({
      acceptableQuality: 0.01,
      rejectableQuality: 0.06,
      producerRisk: 0.05,
      consumerRisk: 0.1,
    });
    // The nomograph is read by eye; the exact plan needs 42.
    expect(plan.sampleSize).toBe(42);
    expect(plan.factor.toFixed(1)).toBe('1.9');
  });

  test('with k a tolerance factor, material just at the coverage passes with the risk 1 - confidence', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 200 }),
        share,
        fc.double({ min: 0.5, max: 0.99, noNaN: true }),
        (sampleSize, shareNonconforming, confidence) => {
          const factor = oneSidedToleranceFactor({
            sampleSize,
            coverage: 1 - shareNonconforming,
            confidence,
          });
          expectRelative(
            variablesAcceptanceProbability({ sampleSize, factor, shareNonconforming }),
            1 - confidence,
            1e-7,
          );
        },
      ),
      { seed, numRuns: 40 },
    );
  });

  test('acceptance rises with quality, and a known spread is the better knowledge', () => {
    fc.assert(
      fc.property(share, fc.double({ min: 0.5, max: 3, noNaN: true }), (shareNonconforming, factor) => {
        const plan = { sampleSize: 15, factor };
        const here = variablesAcceptanceProbability({ ...plan, shareNonconforming });
        const better = variablesAcceptanceProbability({
          ...plan,
          shareNonconforming: shareNonconforming / 2,
        });
        expect(better).toBeGreaterThanOrEqual(here);
        const known = variablesAcceptanceProbability({ ...plan, shareNonconforming, spread: 'known' });
        if (here > 0.9) expect(known).toBeGreaterThanOrEqual(here - 1e-12);
      }),
      { seed },
    );
  });

  test.each([
    // SciPy 1.17.1: quad over the chi density, for n, k, distance to the lower and to the upper limit.
    [10, 2, 3, 4, 0.9656929384296731],
    [2, 2, 3, 4, 0.8245644974948394],
    [30, 2.5, 4, 4, 0.9998961164515952],
    [200, 2, 2.3, 5, 0.9927475518857731],
    [5, 3, 1, 1, 0.00711961944014419],
    [3, 0.5, -0.2, 9, 0.1504350403201092],
  ])(
    'between two limits: n = %d, k = %d, %d and %d away',
    (sampleSize, factor, toLower, toUpper, expected) => {
      expectRelative(
        betweenLimitsAcceptanceProbability({ sampleSize, factor, toLower, toUpper }),
        expected,
        2e-10,
      );
    },
  );

  test('with one limit far away it is the probability with the other alone', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 100 }),
        fc.double({ min: 0.5, max: 4, noNaN: true }),
        fc.double({ min: 0.2, max: 5, noNaN: true }),
        (sampleSize, factor, toUpper) => {
          const one = variablesAcceptanceProbability({
            sampleSize,
            factor,
            shareNonconforming: 0.5 * erfcOf(toUpper),
          });
          const both = betweenLimitsAcceptanceProbability({ sampleSize, factor, toLower: 400, toUpper });
          expect(Math.abs(both - one)).toBeLessThan(1e-9);
        },
      ),
      { seed, numRuns: 60 },
    );
  });

  test('20000 simulated samples pass a two-sided tolerance interval as often as computed', () => {
    const normal = seededNormals(seed);
    const sampleSize = 20;
    const factor = twoSidedToleranceFactor({ sampleSize, coverage: 0.95, confidence: 0.9 });
    const [toLower, toUpper] = [3.2, 3.6];
    const runs = 20_000;
    let passed = 0;
    for (let run = 0; run < runs; run++) {
      const values = Array.from({ length: sampleSize }, normal);
      const mean = values.reduce((a, b) => a + b, 0) / sampleSize;
      const s = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (sampleSize - 1));
      if (mean - factor * s >= -toLower && mean + factor * s <= toUpper) passed++;
    }
    const exact = betweenLimitsAcceptanceProbability({ sampleSize, factor, toLower, toUpper });
    expect(Math.abs(passed / runs - exact)).toBeLessThan(4 * Math.sqrt((exact * (1 - exact)) / runs));
  });

  test('arguments out of range are named; limits that cross are never met', () => {
    expect(() =>
      variablesAcceptanceProbability({ sampleSize: 1, factor: 2, shareNonconforming: 0.1 }),
    ).toThrow('sampleSize is 1');
    expect(() => variablesAcceptanceProbability({ sampleSize: 5, factor: 2, shareNonconforming: 0 })).toThrow(
      'shareNonconforming is 0',
    );
    expect(() =>
      betweenLimitsAcceptanceProbability({ sampleSize: 5, factor: 0, toLower: 1, toUpper: 1 }),
    ).toThrow('factor is 0');
    expect(betweenLimitsAcceptanceProbability({ sampleSize: 5, factor: 1, toLower: 1, toUpper: -2 })).toBe(0);
    expect(() =>
      twoPointVariablesPlan({
        acceptableQuality: 0.1,
        rejectableQuality: 0.05,
        producerRisk: 0.05,
        consumerRisk: 0.1,
      }),
    ).toThrow('acceptableQuality is 0.1');
  });
});

/** erfc(x / root 2) by the continued fraction of the normal tail (Abramowitz and Stegun 26.2.14), or its series near 0. */
function erfcOf(x: number): number {
  if (x < 3) {
    let term = x;
    let sum = x;
    for (let n = 1; n < 120; n++) {
      term *= (x * x) / (2 * n + 1);
      sum += term;
    }
    return 1 - 2 * sum * Math.exp(-0.5 * x * x) * (1 / Math.sqrt(2 * Math.PI));
  }
  let fraction = x;
  for (let n = 80; n > 0; n--) fraction = x + n / fraction;
  return (2 * Math.exp(-0.5 * x * x)) / (Math.sqrt(2 * Math.PI) * fraction);
}

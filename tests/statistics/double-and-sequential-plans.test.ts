import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { acceptanceProbability, twoPointPlan } from '../../src/statistics/acceptance-plan.ts';
import { binomialCdf, hypergeometricCdf } from '../../src/statistics/distributions.ts';
import {
  curtailedAverageSampleNumber,
  type DoublePlan,
  operateDoublePlan,
  operateDoublePlanOnLot,
  twoPointDoublePlan,
} from '../../src/statistics/double-plan.ts';
import { binomialMasses, hypergeometricMasses } from '../../src/statistics/probability-mass.ts';
import { seededUniforms } from '../../src/statistics/seeded-generator.ts';
import {
  operateSequentialPlan,
  sequentialNumbers,
  sequentialPlan,
} from '../../src/statistics/sequential-plan.ts';
import { expectRelative } from './reference-values.ts';

const seed = 20260611;
const handbook: DoublePlan = { firstSize: 50, firstAcceptance: 2, secondSize: 100, secondAcceptance: 6 };

describe('probabilities of single counts', () => {
  test('add up to the lower tails of the library', () => {
    const share = fc.double({ min: 0.001, max: 0.999, noNaN: true });
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 300 }), share, fc.nat(), (trials, probability, pick) => {
        const count = pick % (trials + 1);
        const sum = binomialMasses(count, trials, probability).reduce((a, b) => a + b, 0);
        expect(Math.abs(sum - binomialCdf(count, trials, probability))).toBeLessThan(1e-11);
      }),
      { seed },
    );
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 200 }), fc.nat(), fc.nat(), fc.nat(), (lotSize, a, b, c) => {
        const lot = { lotSize, marked: a % (lotSize + 1), sampleSize: 1 + (b % lotSize) };
        const count = c % (lot.sampleSize + 1);
        const sum = hypergeometricMasses(count, lot).reduce((x, y) => x + y, 0);
        expect(Math.abs(sum - hypergeometricCdf(count, lot))).toBeLessThan(1e-10);
      }),
      { seed },
    );
  });

  test('keep their digits where the first of them underflows', () => {
    // SciPy 1.17.1, binom.pmf(500, 5000, 0.1) and hypergeom.pmf(2, 100, 10, 20).
    expectRelative(binomialMasses(500, 5000, 0.1)[500]!, 0.01880315050593768, 1e-11);
    expectRelative(
      hypergeometricMasses(2, { lotSize: 100, marked: 10, sampleSize: 20 })[2]!,
      0.3181706296100316,
      1e-11,
    );
  });
});

describe('double plans', () => {
  test('NIST/SEMATECH e-Handbook 6.2.4: n1 = 50, c1 = 2, n2 = 100, c2 = 6 at 6 %', () => {
    // The handbook: accepted by the first sample 0.416, rejected by it 0.029, average sample number 106.
    const found = operateDoublePlan(handbook, 0.06);
    expect(found.acceptedFirst.toFixed(3)).toBe('0.416');
    expect(found.rejectedFirst.toFixed(3)).toBe('0.029');
    expect(Math.abs(found.averageSampleNumber - 106)).toBeLessThan(0.6);
    // SciPy 1.17.1 by direct summation.
    expectRelative(found.acceptance, 0.4607474912730545, 1e-12);
    expectRelative(found.averageSampleNumber, 105.4829433538325, 1e-12);
  });

  test('Montgomery, Introduction to Statistical Quality Control, double sampling (from memory): n1 = 50, c1 = 1, n2 = 100, c2 = 3 at 5 %', () => {
    const plan: DoublePlan = { firstSize: 50, firstAcceptance: 1, secondSize: 100, secondAcceptance: 3 };
    const found = operateDoublePlan(plan, 0.05);
    // The book prints 0.279 for the first sample and 0.001 + 0.009 for the second.
    expect(found.acceptedFirst.toFixed(3)).toBe('0.279');
    expect((found.acceptance - found.acceptedFirst).toFixed(2)).toBe('0.01');
  });

  test('on a lot: by exact fractions, and near the binomial one for a large lot', () => {
    // 1 of 6 marked; draw 1, accept with 0; with 1 draw 2 more and accept with 1 in both: always accepted.
    const small: DoublePlan = { firstSize: 2, firstAcceptance: 0, secondSize: 2, secondAcceptance: 1 };
    const two = operateDoublePlanOnLot(small, { lotSize: 6, nonconforming: 2 });
    // First sample: none 6/15, one 8/15, both 1/15. With one left among 4, two drawn: none 1/2.
    expectRelative(two.acceptedFirst, 6 / 15, 1e-12);
    expectRelative(two.second, 8 / 15, 1e-12);
    expectRelative(two.acceptance, 6 / 15 + 8 / 30, 1e-12);
    const large = operateDoublePlanOnLot(handbook, { lotSize: 2_000_000, nonconforming: 120_000 });
    expect(large.acceptance).toBeCloseTo(operateDoublePlan(handbook, 0.06).acceptance, 4);
  });

  test('40000 simulated lots agree in acceptance and in both average sample numbers', () => {
    const uniform = seededUniforms(seed);
    const plan: DoublePlan = {
      firstSize: 20,
      firstAcceptance: 0,
      firstRejection: 3,
      secondSize: 30,
      secondAcceptance: 3,
    };
    const runs = 40_000;
    const p = 0.07;
    let accepted = 0;
    let units = 0;
    let curtailed = 0;
    for (let run = 0; run < runs; run++) {
      let found = 0;
      for (let unit = 0; unit < 20; unit++) if (uniform() < p) found++;
      units += 20;
      curtailed += 20;
      if (found === 0) accepted++;
      else if (found < 3) {
        let stopped = 0;
        for (let unit = 1; unit <= 30; unit++) {
          if (uniform() < p) found++;
          if (found > 3 && stopped === 0) stopped = unit;
        }
        units += 30;
        curtailed += stopped || 30;
        if (found <= 3) accepted++;
      }
    }
    const exact = operateDoublePlan(plan, p);
    expect(Math.abs(accepted / runs - exact.acceptance)).toBeLessThan(0.01);
    expect(Math.abs(units / runs - exact.averageSampleNumber)).toBeLessThan(0.3);
    expect(Math.abs(curtailed / runs - curtailedAverageSampleNumber(plan, p))).toBeLessThan(0.3);
    expect(curtailedAverageSampleNumber(plan, 0)).toBe(20);
  });

  test('the plan found keeps both risks, and inspects fewer units than the single plan on good lots', () => {
    const points = {
      acceptableQuality: 0.01,
      rejectableQuality: 0.05,
      producerRisk: 0.05,
      consumerRisk: 0.1,
    };
    for (const sizeRatio of [1, 2]) {
      const plan = twoPointDoublePlan({ ...points, sizeRatio });
      expect(operateDoublePlan(plan, 0.01).acceptance).toBeGreaterThanOrEqual(0.95);
      expect(operateDoublePlan(plan, 0.05).acceptance).toBeLessThanOrEqual(0.1);
      expect(operateDoublePlan(plan, 0.01).averageSampleNumber).toBeLessThan(twoPointPlan(points).sampleSize);
    }
    // NIST/SEMATECH e-Handbook 6.2.4 gives n1 = n2 = 108, c1 = 2, c2 = 4 from a Poisson table for the same points.
    const printed: DoublePlan = { firstSize: 108, firstAcceptance: 2, secondSize: 108, secondAcceptance: 4 };
    expect(operateDoublePlan(printed, 0.01).acceptance).toBeGreaterThan(0.94);
    expect(operateDoublePlan(printed, 0.05).acceptance).toBeLessThan(0.11);
  });

  test('probabilities add up, and acceptance falls with the share nonconforming', () => {
    const share = fc.double({ min: 0, max: 0.5, noNaN: true });
    fc.assert(
      fc.property(share, (p) => {
        const found = operateDoublePlan(handbook, p);
        expect(found.acceptedFirst + found.rejectedFirst + found.second).toBeCloseTo(1, 12);
        expect(operateDoublePlan(handbook, p + 0.01).acceptance).toBeLessThanOrEqual(
          found.acceptance + 1e-12,
        );
        expect(curtailedAverageSampleNumber(handbook, p)).toBeLessThanOrEqual(
          found.averageSampleNumber + 1e-9,
        );
      }),
      { seed },
    );
    expect(operateDoublePlan(handbook, 0).acceptance).toBe(1);
    expect(operateDoublePlan(handbook, 1).acceptance).toBe(0);
  });

  test('arguments out of range are named', () => {
    expect(() => operateDoublePlan({ ...handbook, firstAcceptance: 6 }, 0.1)).toThrow('firstAcceptance is 6');
    expect(() => operateDoublePlan({ ...handbook, firstRejection: 3 }, 0.1)).toThrow('firstRejection is 3');
    expect(() => operateDoublePlan({ ...handbook, firstRejection: 8 }, 0.1)).toThrow('firstRejection is 8');
    expect(() => operateDoublePlan(handbook, Number.NaN)).toThrow('shareNonconforming is NaN');
    expect(() => operateDoublePlanOnLot(handbook, { lotSize: 149, nonconforming: 1 })).toThrow(
      'lotSize is 149',
    );
  });
});

describe('sequential plans', () => {
  const handbookPoints = {
    acceptableQuality: 0.01,
    rejectableQuality: 0.1,
    producerRisk: 0.05,
    consumerRisk: 0.1,
  };

  test('NIST/SEMATECH e-Handbook 6.2.6 (from memory): lines -0.939 and 1.205 with slope 0.0397', () => {
    const plan = sequentialPlan(handbookPoints);
    expect(plan.acceptanceIntercept.toFixed(3)).toBe('0.939');
    expect(plan.rejectionIntercept.toFixed(3)).toBe('1.205');
    expect(plan.slope.toFixed(4)).toBe('0.0397');
    // The handbook's table: no acceptance before unit 24, rejection from 2 nonconforming.
    expect(sequentialNumbers(plan, 23).acceptance).toBeUndefined();
    expect(sequentialNumbers(plan, 24)).toEqual({ acceptance: 0, rejection: 3 });
    expect(sequentialNumbers(plan, 1).rejection).toBeUndefined();
    expect(sequentialNumbers(plan, 2).rejection).toBe(2);
  });

  test('Montgomery, Introduction to Statistical Quality Control, sequential sampling (from memory): 1.22, 1.57, 0.028', () => {
    const plan = sequentialPlan({ ...handbookPoints, rejectableQuality: 0.06 });
    expect([plan.acceptanceIntercept, plan.rejectionIntercept].map((h) => h.toFixed(2))).toEqual([
      '1.22',
      '1.57',
    ]);
    expect(plan.slope.toFixed(3)).toBe('0.028');
    // The book accepts at unit 44 with none, and rejects at unit 2 with 2 as the smallest.
    expect(sequentialNumbers(plan, 43).acceptance).toBeUndefined();
    expect(sequentialNumbers(plan, 44).acceptance).toBe(0);
    expect(sequentialNumbers(plan, 2).rejection).toBe(2);
  });

  test('without overshoot the risks are nearly those asked for, and never far above in sum', () => {
    const plan = sequentialPlan(handbookPoints);
    const good = operateSequentialPlan(plan, { truncation: 2000, shareNonconforming: 0.01 });
    const bad = operateSequentialPlan(plan, { truncation: 2000, shareNonconforming: 0.1 });
    // Wald, Sequential Analysis, 3.2: a' <= a / (1 - b), b' <= b / (1 - a), a' + b' <= a + b.
    expect(1 - good.acceptance).toBeLessThanOrEqual(0.05 / 0.9);
    expect(bad.acceptance).toBeLessThanOrEqual(0.1 / 0.95);
    expect(1 - good.acceptance + bad.acceptance).toBeLessThanOrEqual(0.15);
  });

  test('saves units against the single plan, on good lots and on bad ones', () => {
    const plan = sequentialPlan(handbookPoints);
    const { sampleSize } = twoPointPlan(handbookPoints);
    for (const shareNonconforming of [0.01, 0.1])
      expect(
        operateSequentialPlan(plan, { truncation: 3 * sampleSize, shareNonconforming }).averageSampleNumber,
      ).toBeLessThan(sampleSize);
  });

  test('30000 simulated runs agree with the exact acceptance and average sample number', () => {
    const plan = sequentialPlan(handbookPoints);
    const uniform = seededUniforms(seed);
    const truncation = 80;
    const p = 0.05;
    const runs = 30_000;
    let accepted = 0;
    let units = 0;
    for (let run = 0; run < runs; run++) {
      let found = 0;
      for (let unit = 1; unit <= truncation; unit++) {
        units++;
        if (uniform() < p) found++;
        const { acceptance = -1, rejection = Number.POSITIVE_INFINITY } = sequentialNumbers(plan, unit);
        if (found <= acceptance || (unit === truncation && found <= plan.slope * truncation)) {
          accepted++;
          break;
        }
        if (found >= rejection) break;
      }
    }
    const exact = operateSequentialPlan(plan, { truncation, shareNonconforming: p });
    expect(Math.abs(accepted / runs - exact.acceptance)).toBeLessThan(0.012);
    expect(Math.abs(units / runs - exact.averageSampleNumber)).toBeLessThan(0.4);
  });

  test('a plan cut off at its first unit is a single plan of one', () => {
    const plan = sequentialPlan(handbookPoints);
    expect(operateSequentialPlan(plan, { truncation: 1, shareNonconforming: 0.2 })).toEqual({
      acceptance: acceptanceProbability({ sampleSize: 1, acceptanceNumber: 0, shareNonconforming: 0.2 }),
      averageSampleNumber: 1,
    });
    expect(operateSequentialPlan(plan, { truncation: 50, shareNonconforming: 0 }).acceptance).toBe(1);
    expect(operateSequentialPlan(plan, { truncation: 50, shareNonconforming: 1 }).acceptance).toBe(0);
  });

  test('arguments out of range are named', () => {
    expect(() => sequentialPlan({ ...handbookPoints, acceptableQuality: 0.1 })).toThrow(
      'acceptableQuality is 0.1',
    );
    expect(() => sequentialPlan({ ...handbookPoints, producerRisk: 0.95 })).toThrow(
      'producerRisk + consumer',
    );
    expect(() => sequentialPlan({ ...handbookPoints, producerRisk: 0 })).toThrow('producerRisk is 0');
    expect(() =>
      operateSequentialPlan(sequentialPlan(handbookPoints), { truncation: 0, shareNonconforming: 0.1 }),
    ).toThrow('truncation is 0');
  });
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  acceptanceProbability,
  averageOutgoingQuality,
  lotAcceptanceProbability,
  smallestAttributePlan,
  smallestLotPlan,
  twoPointPlan,
} from '../../src/statistics/acceptance-plan.ts';
import { clopperPearsonLimits } from '../../src/statistics/clopper-pearson.ts';
import { binomialCdf, hypergeometricCdf, normalQuantile } from '../../src/statistics/distributions.ts';
import {
  largestToleranceRank,
  orderStatisticBound,
  rankConfidence,
  smallestSampleForRank,
} from '../../src/statistics/order-statistics.ts';
import {
  demonstratedConfidence,
  demonstratedReliability,
  successRunSampleSize,
} from '../../src/statistics/success-run.ts';
import { checkTopic, expectRelative, valueFrom } from './reference-values.ts';
import { seededUniforms } from './seeded-normals.ts';

const seed = 20260104;

describe('success run', () => {
  checkTopic({
    topic: 'success-run',
    expected: { total: 9, computed: 9 },
    compute: ({ inputs }) =>
      inputs.quantity === 'n'
        ? successRunSampleSize(inputs)
        : demonstratedReliability({ sampleSize: inputs.n, failures: 0, confidence: inputs.confidence }),
  });

  test('a plan that meets its confidence exactly is not raised by rounding', () => {
    expect(successRunSampleSize({ confidence: 0.75, reliability: 0.5 })).toBe(2);
    expect(successRunSampleSize({ confidence: 1 - 0.9 ** 7, reliability: 0.9 })).toBe(7);
    // C = 1 - P(X <= 1; 3, 0.5) = 0.5 exactly.
    expect(successRunSampleSize({ confidence: 0.5, reliability: 0.5, failures: 1 })).toBe(3);
  });

  test('59 without failure: upper failure rate 4.95 % (demonstration device)', () => {
    const reliability = demonstratedReliability({ sampleSize: 59, failures: 0, confidence: 0.95 });
    expect((100 * (1 - reliability)).toFixed(2)).toBe('4.95');
  });

  test('the size found is the smallest', () => {
    const share = fc.double({ min: 0.05, max: 0.995, noNaN: true });
    fc.assert(
      fc.property(share, share, fc.integer({ min: 0, max: 5 }), (confidence, reliability, failures) => {
        const size = successRunSampleSize({ confidence, reliability, failures });
        const risk = (n: number) => binomialCdf(failures, n, 1 - reliability);
        expect(risk(size)).toBeLessThanOrEqual((1 - confidence) * (1 + 1e-9));
        if (size > failures + 1) expect(risk(size - 1)).toBeGreaterThan((1 - confidence) * (1 - 1e-9));
        const demonstrated = demonstratedReliability({ sampleSize: size, failures, confidence });
        expect(demonstrated).toBeGreaterThanOrEqual(reliability * (1 - 1e-9));
        const backwards = demonstratedConfidence({ sampleSize: size, failures, reliability: demonstrated });
        expect(backwards).toBeCloseTo(confidence, 9);
      }),
      { seed },
    );
  });

  test('one, all', () => {
    expect(demonstratedReliability({ sampleSize: 3, failures: 3, confidence: 0.9 })).toBe(0);
    expect(demonstratedConfidence({ sampleSize: 3, failures: 3, reliability: 0.9 })).toBe(0);
  });

  test('arguments out of range are named', () => {
    expect(() => successRunSampleSize({ confidence: 95, reliability: 0.9 })).toThrow('confidence is 95');
    expect(() => successRunSampleSize({ confidence: 0.95, reliability: 1 })).toThrow('reliability is 1');
    expect(() => successRunSampleSize({ confidence: 0.95, reliability: 0.9, failures: -1 })).toThrow(
      'failures is -1',
    );
    expect(() => demonstratedReliability({ sampleSize: 5, failures: 6, confidence: 0.9 })).toThrow(
      'failures is 6',
    );
    expect(() => demonstratedReliability({ sampleSize: 5.5, failures: 0, confidence: 0.9 })).toThrow(
      'sampleSize is 5.5',
    );
  });
});

describe('acceptance sampling', () => {
  checkTopic({
    topic: 'acceptance-oc',
    expected: { total: 13, computed: 13 },
    compute: ({ inputs }) => {
      const { n: sampleSize, c: acceptanceNumber, N: lotSize, p } = inputs;
      const plan = { sampleSize, acceptanceNumber };
      const outgoing = (shareNonconforming: number) =>
        averageOutgoingQuality({ ...plan, lotSize, shareNonconforming });
      if (inputs.quantity === 'AOQ') return outgoing(p);
      if (inputs.quantity === 'AOQ %') return 100 * outgoing(p);
      if (inputs.quantity === 'incoming % at AOQL') {
        const grid = Array.from({ length: 9001 }, (_, i) => 0.01 + i * 1e-5);
        return 100 * grid.reduce((best, share) => (outgoing(share) > outgoing(best) ? share : best));
      }
      // The source's Poisson count of 0.1 defects per 100 units, taken as units with a defect.
      if (inputs.model === 'poisson')
        return 100 * acceptanceProbability({ ...plan, shareNonconforming: inputs.defects_per_100 / 100 });
      return acceptanceProbability({ ...plan, shareNonconforming: p });
    },
    roughR: {
      'acceptance-oc-018': [1e-3, 'R searched with a tolerance of 1e-4, this test on a grid of 1e-5'],
      'acceptance-oc-020': [1e-4, 'R computed the Poisson probability, this test the binomial one'],
    },
  });

  checkTopic({
    topic: 'acceptance-plan-design',
    expected: { total: 4, computed: 4 },
    compute: ({ inputs }) => {
      if (inputs.quantity === 'producer risk')
        return (
          1 -
          acceptanceProbability({
            sampleSize: inputs.n,
            acceptanceNumber: inputs.c,
            shareNonconforming: inputs.p,
          })
        );
      if (inputs.model === 'hypergeometric')
        return smallestLotPlan({
          lotSize: inputs.N,
          nonconforming: inputs.defectives,
          confidence: inputs.confidence,
          acceptanceNumber: inputs.c,
        }).sampleSize;
      const plan = twoPointPlan({
        acceptableQuality: inputs.aql,
        rejectableQuality: inputs.rql,
        producerRisk: inputs.alpha,
        consumerRisk: inputs.beta,
      });
      return [plan.sampleSize, plan.acceptanceNumber];
    },
  });

  test('hypergeometric probabilities by exact fractions: 1 of 3 marked among 10, 4 drawn', () => {
    // P(0) = C(7,4)/C(10,4) = 35/210, P(1) = 3 C(7,3)/C(10,4) = 105/210.
    const lot = { lotSize: 10, nonconforming: 3, sampleSize: 4 };
    expectRelative(lotAcceptanceProbability({ ...lot, acceptanceNumber: 0 }), 35 / 210, 1e-13);
    expectRelative(lotAcceptanceProbability({ ...lot, acceptanceNumber: 1 }), 140 / 210, 1e-13);
    expect(lotAcceptanceProbability({ ...lot, acceptanceNumber: 3 })).toBe(1);
  });

  test('the operating characteristic starts at 1, ends at 0 and falls', () => {
    const plan = { sampleSize: 50, acceptanceNumber: 2 };
    expect(acceptanceProbability({ ...plan, shareNonconforming: 0 })).toBe(1);
    expect(acceptanceProbability({ ...plan, shareNonconforming: 1 })).toBe(0);
    const share = fc.double({ min: 0.001, max: 0.4, noNaN: true });
    fc.assert(
      fc.property(share, (p) => {
        const here = acceptanceProbability({ ...plan, shareNonconforming: p });
        expect(acceptanceProbability({ ...plan, shareNonconforming: p + 0.001 })).toBeLessThan(here);
      }),
      { seed },
    );
  });

  test('a lot plan never needs more than the plan for an endless lot, and is the smallest', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 20, max: 800 }),
        fc.integer({ min: 2, max: 10 }),
        (lotSize, nonconforming) => {
          const required = { lotSize, nonconforming, confidence: 0.95, acceptanceNumber: 1 };
          const { sampleSize } = smallestLotPlan(required);
          const risk = (n: number) => hypergeometricCdf(1, { lotSize, marked: nonconforming, sampleSize: n });
          expect(sampleSize).toBeLessThanOrEqual(lotSize);
          if (sampleSize < lotSize) expect(risk(sampleSize)).toBeLessThanOrEqual(0.05 * (1 + 1e-9));
          expect(risk(sampleSize - 1)).toBeGreaterThan(0.05);
          const endless = { confidence: 0.95, reliability: 1 - nonconforming / lotSize, acceptanceNumber: 1 };
          expect(sampleSize).toBeLessThanOrEqual(smallestAttributePlan(endless).sampleSize);
        },
      ),
      { seed },
    );
  });

  test('arguments out of range are named', () => {
    const risks = { producerRisk: 0.05, consumerRisk: 0.1 };
    expect(() => twoPointPlan({ acceptableQuality: 0.1, rejectableQuality: 0.05, ...risks })).toThrow(
      'acceptableQuality is 0.1',
    );
    expect(() => twoPointPlan({ acceptableQuality: 0.01, rejectableQuality: 0.01001, ...risks })).toThrow(
      'more than 250000 units would be needed',
    );
    expect(() =>
      smallestLotPlan({ lotSize: 10, nonconforming: 11, confidence: 0.9, acceptanceNumber: 0 }),
    ).toThrow('nonconforming is 11');
    expect(() =>
      smallestLotPlan({ lotSize: 10, nonconforming: 1, confidence: 0.9, acceptanceNumber: 1 }),
    ).toThrow('acceptanceNumber is 1');
    expect(() =>
      lotAcceptanceProbability({ lotSize: 10, nonconforming: 1, sampleSize: 11, acceptanceNumber: 1 }),
    ).toThrow('sampleSize is 11');
    expect(() =>
      acceptanceProbability({ sampleSize: 10, acceptanceNumber: 1, shareNonconforming: 1.1 }),
    ).toThrow('shareNonconforming is 1.1');
  });
});

describe('Clopper-Pearson', () => {
  checkTopic({
    topic: 'clopper-pearson',
    expected: { total: 15, computed: 15 },
    compute: ({ inputs }) => {
      if (inputs.method === 'Wilson') return wilsonLower(inputs.p, inputs.n, inputs.confidence);
      const sides = inputs.side === 'two' ? 'both' : inputs.side;
      const limits = clopperPearsonLimits({
        count: inputs.x,
        sampleSize: inputs.n,
        confidence: inputs.confidence,
        sides,
      });
      const limit = (inputs.bound ?? inputs.side) === 'lower' ? limits.lower : limits.upper;
      return inputs.unit === '%' ? 100 * limit : limit;
    },
  });

  test('lies below the approximate limit of Wilson, which does not keep its confidence (named comparison only)', () => {
    const limits = clopperPearsonLimits({ count: 26, sampleSize: 200, confidence: 0.95, sides: 'lower' });
    expect(limits.lower).toBeLessThan(wilsonLower(0.13, 200, 0.95));
    // At a share of 0.02 one or more of 10 are seen in 18 % of samples, and each of them puts Wilson's limit above it.
    expect(wilsonLower(0.1, 10, 0.95)).toBeGreaterThan(0.02);
    expect(1 - binomialCdf(0, 10, 0.02)).toBeGreaterThan(0.15);
  });

  test('ends', () => {
    const none = clopperPearsonLimits({ count: 0, sampleSize: 10, confidence: 0.95, sides: 'both' });
    expect(none.lower).toBe(0);
    expectRelative(none.upper, 1 - 0.025 ** 0.1, 1e-13);
    const all = clopperPearsonLimits({ count: 10, sampleSize: 10, confidence: 0.95, sides: 'lower' });
    expect(all.upper).toBe(1);
    expectRelative(all.lower, 0.05 ** 0.1, 1e-13);
  });

  test('at each limit the binomial tail is the risk', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 400 }),
        fc.nat(),
        fc.double({ min: 0.5, max: 0.999, noNaN: true }),
        (n, pick, confidence) => {
          const count = 1 + (pick % (n - 1));
          const risk = (1 - confidence) / 2;
          const { lower, upper } = clopperPearsonLimits({ count, sampleSize: n, confidence, sides: 'both' });
          expectRelative(binomialCdf(count, n, upper), risk, 1e-9);
          // P(X >= count) at the lower limit, as a lower tail of the failures.
          expectRelative(binomialCdf(n - count, n, 1 - lower), risk, 1e-9);
          const oneSided = clopperPearsonLimits({ count, sampleSize: n, confidence, sides: 'upper' });
          expect(oneSided.upper).toBeLessThan(upper);
        },
      ),
      { seed },
    );
  });

  test('in 20000 simulated samples the interval holds the share at least as often as claimed', () => {
    const uniform = seededUniforms(seed);
    let held = 0;
    for (let run = 0; run < 20_000; run++) {
      const count = Array.from({ length: 25 }, uniform).filter((draw) => draw < 0.2).length;
      const { lower, upper } = clopperPearsonLimits({
        count,
        sampleSize: 25,
        confidence: 0.9,
        sides: 'both',
      });
      if (lower <= 0.2 && 0.2 <= upper) held++;
    }
    expect(held / 20_000).toBeGreaterThan(0.9);
    expect(held / 20_000).toBeLessThan(0.97);
  });

  test('arguments out of range are named', () => {
    expect(() => clopperPearsonLimits({ count: 3, sampleSize: 2, confidence: 0.9, sides: 'both' })).toThrow(
      'count is 3',
    );
    expect(() => clopperPearsonLimits({ count: 3, sampleSize: 5, confidence: 0, sides: 'both' })).toThrow(
      'confidence is 0',
    );
  });
});

describe('order statistics', () => {
  checkTopic({
    topic: 'nonparametric-sample-size',
    expected: { total: 16, computed: 16 },
    compute: ({ inputs }) => {
      const { n: sampleSize, coverage, confidence } = inputs;
      if (inputs.quantity.startsWith('largest index'))
        return largestToleranceRank({ sampleSize, coverage, confidence });
      // The maximum holds the coverage that a run without failure demonstrates.
      if (inputs.quantity === 'coverage of the maximum')
        return demonstratedReliability({ sampleSize, failures: 0, confidence });
      if (inputs.quantity === 'confidence of (min,max)')
        return rankConfidence({ sampleSize, coverage, rank: 2 });
      const rank = (inputs.lower_rank ?? 1) + (inputs.upper_rank ?? 1);
      return smallestSampleForRank({ coverage, confidence, rank });
    },
  });

  test('59 values: the smallest is a 95/95 bound (success-run theorem), 58 are too few', () => {
    const values = Array.from({ length: 59 }, (_, i) => 100 - i);
    const required = { coverage: 0.95, confidence: 0.95 };
    const lower = valueFrom(orderStatisticBound(values, { ...required, side: 'lower' }));
    expect(lower).toMatchObject({ count: 59, rank: 1, bound: 42 });
    expectRelative(lower.achievedConfidence, 1 - 0.95 ** 59, 1e-12);
    expect(orderStatisticBound(values, { ...required, side: 'upper' })).toMatchObject({
      value: { bound: 100 },
    });
    expect(orderStatisticBound(values.slice(1), { ...required, side: 'lower' })).toEqual({
      ok: false,
      problem: 'too-few-values',
      reason: '58 values, at least 59 needed',
    });
  });

  test('rank and sample size are inverse', () => {
    const share = fc.double({ min: 0.5, max: 0.99, noNaN: true });
    fc.assert(
      fc.property(share, share, fc.integer({ min: 1, max: 8 }), (coverage, confidence, rank) => {
        const sampleSize = smallestSampleForRank({ coverage, confidence, rank });
        expect(largestToleranceRank({ sampleSize, coverage, confidence })).toBeGreaterThanOrEqual(rank);
        if (sampleSize > rank)
          expect(largestToleranceRank({ sampleSize: sampleSize - 1, coverage, confidence })).toBeLessThan(
            rank,
          );
        expect(rankConfidence({ sampleSize, coverage, rank })).toBeGreaterThanOrEqual(confidence - 1e-9);
      }),
      { seed },
    );
  });

  test('in 20000 simulated samples of 46 from an exponential population, 90 % lie between the extremes as often as computed', () => {
    const uniform = seededUniforms(seed + 1);
    let held = 0;
    for (let run = 0; run < 20_000; run++) {
      const values = Array.from({ length: 46 }, () => -Math.log(uniform()));
      if (Math.exp(-Math.min(...values)) - Math.exp(-Math.max(...values)) >= 0.9) held++;
    }
    const claimed = rankConfidence({ sampleSize: 46, coverage: 0.9, rank: 2 });
    expect(Math.abs(held / 20_000 - claimed)).toBeLessThan(4 * Math.sqrt((claimed * (1 - claimed)) / 20_000));
  });
});

/**
 * The one-sided lower limit of Wilson's score interval (Journal of the American Statistical Association 22, 1927), as in
 * NIST/SEMATECH e-Handbook 7.2.4.1: an approximation, here for comparison only.
 */
function wilsonLower(share: number, sampleSize: number, confidence: number): number {
  const z = normalQuantile(confidence);
  const square = (z * z) / sampleSize;
  const spread = z * Math.sqrt((share * (1 - share)) / sampleSize + square / (4 * sampleSize));
  return (share + square / 2 - spread) / (1 + square);
}

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  arithmeticMean,
  describeSample,
  sampleMedian,
  sampleQuantile,
  sampleStandardDeviation,
  sumOfSquaredDeviations,
} from '../../src/statistics/descriptive.ts';
import { oneWayAnalysisOfVariance } from '../../src/statistics/one-way-analysis-of-variance.ts';
import { checkTopic, expectRelative, readStrd, valueFrom } from './reference-values.ts';

const seed = 20260101;

describe('NIST StRD univariate sets', () => {
  checkTopic({
    topic: 'strd-univariate',
    expected: { total: 17, computed: 17 },
    compute: ({ inputs }) => {
      const values = readStrd(inputs.file.replace('strd/', '')).flat();
      if (inputs.quantity === 'mean') return arithmeticMean(values);
      if (inputs.quantity === 'sd') return sampleStandardDeviation(values);
      return lagOneAutocorrelation(values);
    },
  });

  /** Certified standard deviations, with the significant digits to reach. */
  test.each([
    ['Lew.dat', 277.332168044316, 14],
    ['Lottery.dat', 291.699727470969, 14],
    ['Mavro.dat', 4.29123454003053e-4, 12],
    ['Michelso.dat', 7.90105478190518e-2, 13],
    ['NumAcc1.dat', 1, 15],
    ['NumAcc2.dat', 0.1, 14],
    // The decimals of these two are not exact in double precision: the input itself carries no more digits.
    ['NumAcc3.dat', 0.1, 9],
    ['NumAcc4.dat', 0.1, 8],
    ['PiDigits.dat', 2.86733906028871, 14],
  ] as const)('%s: standard deviation %d to %d digits', (file, certified, digits) => {
    expectRelative(sampleStandardDeviation(readStrd(file).flat()), certified, 10 ** -digits);
  });
});

describe('against exact rational arithmetic on the double-precision input (Python fractions)', () => {
  test.each([
    ['NumAcc3.dat', 0.1000000000349246],
    ['NumAcc4.dat', 0.10000000055879354],
  ])('%s: standard deviation', (file, exact) => {
    expectRelative(sampleStandardDeviation(readStrd(file).flat()), exact, 1e-14);
  });
});

describe('NIST StRD one-way analysis of variance', () => {
  checkTopic({
    topic: 'strd-anova',
    expected: { total: 11, computed: 11 },
    compute: ({ inputs }) => {
      const file = inputs.file.replace('strd/', '');
      const groups = file === 'SIRSTV.DAT' ? groupsOf(readStrd(file)) : smls(file);
      const result = valueFrom(oneWayAnalysisOfVariance(groups));
      return inputs.quantity === 'F' ? result.fRatio : result.within.meanSquare;
    },
    roughR: {
      'strd-anova-018': [2e-4, 'offset 1e12: R loses digits; see the exact value below'],
      'strd-anova-020': [3e-3, 'offset 1e12: R loses digits; see the exact value below'],
    },
  });

  /** Mean square within, by exact rational arithmetic on the double-precision input (Python fractions). */
  test.each([
    ['SMLS07.DAT', 0.010000543540747708],
    ['SMLS08.DAT', 0.010000543470142823],
    ['SMLS09.DAT', 0.010000543462733014],
  ])('%s: nothing is lost beyond what the input lost', (file, exact) => {
    expectRelative(valueFrom(oneWayAnalysisOfVariance(smls(file))).within.meanSquare, exact, 1e-14);
  });

  test.each(['SMLS01.DAT', 'SMLS04.DAT', 'SMLS07.DAT'])('the builder reproduces %s', (file) => {
    expect(smls(file)).toEqual(groupsOf(readStrd(file)));
  });

  test('p value: F(4, 20) = 1.18046237440255 (certified F) has p = 0.3494 (scipy.stats.f.sf)', () => {
    expect(valueFrom(oneWayAnalysisOfVariance(groupsOf(readStrd('SIRSTV.DAT')))).pValue).toBeCloseTo(
      P_SIRSTV,
      12,
    );
  });

  test('says why it cannot judge', () => {
    expect(oneWayAnalysisOfVariance([[1, 2, 3]])).toMatchObject({
      problem: 'too-few-values',
    });
    expect(oneWayAnalysisOfVariance([[1, 2, 3], []])).toMatchObject({
      problem: 'too-few-values',
    });
    expect(
      oneWayAnalysisOfVariance([
        [1, 1],
        [2, 2],
      ]),
    ).toMatchObject({ problem: 'no-spread' });
    expect(
      oneWayAnalysisOfVariance([
        [1, Number.NaN],
        [2, 3],
      ]),
    ).toMatchObject({ problem: 'non-finite-value' });
  });
});

describe('sample summary', () => {
  test('a sample worked by hand', () => {
    expect(valueFrom(describeSample([4, 1, 3, 2]))).toEqual({
      count: 4,
      mean: 2.5,
      standardDeviation: Math.sqrt(5 / 3),
      minimum: 1,
      maximum: 4,
      median: 2.5,
    });
  });

  test('quantile by definition 7: Hyndman & Fan; 1, 2, 4, 8, 16 at 0.4 is 2 + 0.6 x 2', () => {
    const values = [16, 1, 8, 2, 4];
    expect(valueFrom(sampleQuantile(values, 0.4))).toBeCloseTo(3.2, 14);
    expect(valueFrom(sampleQuantile(values, 0))).toBe(1);
    expect(valueFrom(sampleQuantile(values, 1))).toBe(16);
    expect(valueFrom(sampleMedian(values))).toBe(4);
  });

  test('equal values have no spread and no rounding in it', () => {
    expect(valueFrom(describeSample([0.1, 0.1, 0.1])).standardDeviation).toBe(0);
  });

  test('refuses what it cannot use', () => {
    expect(describeSample([1])).toEqual({
      ok: false,
      problem: 'too-few-values',
      reason: '1 value, at least 2 needed',
    });
    expect(describeSample([1, Number.NaN, 3])).toMatchObject({
      problem: 'non-finite-value',
      reason: 'value 2 of 3 is NaN',
    });
    expect(sampleMedian([])).toMatchObject({ problem: 'too-few-values' });
    expect(() => sampleQuantile([1], 1.5)).toThrow('probability is 1.5; it must lie between 0 and 1');
    expect(() => arithmeticMean([])).toThrow(RangeError);
    expect(() => sampleStandardDeviation([1])).toThrow(RangeError);
  });

  test('mean follows shift and scale, standard deviation ignores the shift', () => {
    const integers = fc.array(fc.integer({ min: -1000, max: 1000 }), {
      minLength: 2,
      maxLength: 40,
    });
    fc.assert(
      fc.property(
        integers,
        fc.integer({ min: -5000, max: 5000 }),
        fc.integer({ min: 1, max: 50 }),
        (values, shift, scale) => {
          const moved = values.map((value) => shift + scale * value);
          const [before, after] = [valueFrom(describeSample(values)), valueFrom(describeSample(moved))];
          expect(after.mean).toBeCloseTo(shift + scale * before.mean, 8);
          expect(after.standardDeviation).toBeCloseTo(scale * before.standardDeviation, 8);
          expect(after.median).toBeCloseTo(shift + scale * before.median, 8);
          expect(after.minimum).toBe(shift + scale * before.minimum);
        },
      ),
      { seed },
    );
  });

  test('order does not matter', () => {
    const values = fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), {
      minLength: 2,
      maxLength: 40,
    });
    fc.assert(
      fc.property(values, (sample) => {
        const [a, b] = [valueFrom(describeSample(sample)), valueFrom(describeSample(sample.toReversed()))];
        expect(Math.abs(a.mean - b.mean)).toBeLessThanOrEqual(1e-9);
        expect([a.minimum, a.median, a.maximum]).toEqual([b.minimum, b.median, b.maximum]);
        expect(a.minimum <= a.median && a.median <= a.maximum).toBe(true);
      }),
      { seed },
    );
  });
});

/** scipy.stats.f.sf(1.18046237440255, 4, 20), SciPy 1.17.1. */
const P_SIRSTV = 0.34944749340219294;

/** The definition that NIST's certified values use. */
function lagOneAutocorrelation(values: readonly number[]): number {
  const mean = arithmeticMean(values);
  let sum = 0;
  for (let i = 1; i < values.length; i++) sum += (values[i]! - mean) * (values[i - 1]! - mean);
  return sum / sumOfSquaredDeviations(values);
}

function groupsOf(rows: readonly (readonly number[])[]): number[][] {
  const groups = new Map<number, number[]>();
  for (const [group, value] of rows) groups.set(group!, [...(groups.get(group!) ?? []), value!]);
  return [...groups.values()];
}

/** Simon & Lesage's sets: nine treatments around .4, .3, .5, .3 ...; then one tenth down and up by turns. */
function smls(file: string): number[][] {
  const number = Number(file.slice(4, 6)) - 1;
  const whole = ['1', '1000000', '1000000000000'][Math.floor(number / 3)]!;
  const replicates = [21, 201, 2001][number % 3]!;
  return [4, 3, 5, 3, 5, 3, 5, 3, 5].map((middle) =>
    Array.from({ length: replicates }, (_, i) =>
      Number(`${whole}.${i === 0 ? middle : i % 2 ? middle - 1 : middle + 1}`),
    ),
  );
}

describe('over the whole range of numbers', () => {
  const values = [4.1, 5.2, 6.3, 4.9];
  test.each([-1000, -500, -200, 200, 500, 1000])('mean and standard deviation times 2^%i', (power) => {
    const scale = 2 ** power;
    const times = values.map((value) => value * scale);
    expect(arithmeticMean(times)).toBe(arithmeticMean(values) * scale);
    expect(sampleStandardDeviation(times)).toBe(sampleStandardDeviation(values) * scale);
  });
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { measurementBias, measurementLinearity } from '../../src/statistics/measurement-bias.ts';
import { expectRelative, readRows, valueFrom } from './reference-values.ts';
import { seededNormals } from './seeded-normals.ts';

const seed = 20260109;

const rowsOf = (name: string) =>
  readRows(name).map((row) => ({ reference: Number(row.reference), value: Number(row.value) }));

const aiag = rowsOf('linearity_aiag_5x12');

describe('bias', () => {
  test('AIAG linearity data: bias, standard error, t and p at each reference (Measurement Systems Analysis, 4th edition; figures as reprinted in a public worksheet)', () => {
    const { references } = valueFrom(measurementBias(aiag));
    const printed = references.map(({ reference, bias, standardDeviation, count, t, pValue }) => [
      reference,
      bias.toFixed(3),
      (standardDeviation / Math.sqrt(count)).toFixed(4),
      Math.abs(t).toFixed(2),
      pValue.toFixed(3),
    ]);
    expect(printed).toEqual([
      [2, '0.492', '0.0358', '13.73', '0.000'],
      [4, '0.125', '0.1292', '0.97', '0.354'],
      [6, '0.025', '0.0566', '0.44', '0.667'],
      [8, '-0.292', '0.0288', '10.14', '0.000'],
      [10, '-0.617', '0.0423', '14.56', '0.000'],
    ]);
  });

  test('AIAG bias data: 15 readings of a part of 6.00, bias 0.0067, t interval by hand (data from memory)', () => {
    const values = [5.8, 5.7, 5.9, 5.9, 6.0, 6.1, 6.0, 6.1, 6.4, 6.3, 6.0, 6.1, 6.2, 5.6, 6.0];
    const [only] = valueFrom(measurementBias(values.map((value) => ({ reference: 6, value })))).references;
    expect(only!.bias).toBeCloseTo(0.0067, 4);
    expect(only!.standardDeviation).toBeCloseTo(0.212, 3);
    // t(0.975, 14) = 2.144787 (any table of Student's t).
    const width = (2.144787 * only!.standardDeviation) / Math.sqrt(15);
    expect(only!.limits.upper).toBeCloseTo(only!.bias + width, 6);
    expect(only!.limits.lower).toBeCloseTo(only!.bias - width, 6);
  });

  test('limits for several references share the risk', () => {
    const five = valueFrom(measurementBias(aiag, 0.95)).references[0]!;
    const alone = valueFrom(
      measurementBias(
        aiag.filter((reading) => reading.reference === 2),
        0.99,
      ),
    ).references[0]!;
    expectRelative(five.limits.upper, alone.limits.upper, 1e-12);
  });

  test('limits hold for all references together at least as often as stated', () => {
    const normal = seededNormals(seed);
    let held = 0;
    const runs = 2000;
    for (let run = 0; run < runs; run++) {
      const readings = [1, 5, 10].flatMap((reference) =>
        Array.from({ length: 6 }, () => ({
          reference,
          value: reference + 0.1 + 0.02 * reference * normal(),
        })),
      );
      const { references } = valueFrom(measurementBias(readings, 0.9));
      if (references.every(({ limits }) => limits.lower <= 0.1 && 0.1 <= limits.upper)) held += 1;
    }
    // Bonferroni: at least 0.9; exactly (1 - 0.1 / 3)^3 = 0.9033 for independent references. Standard error 0.0067.
    expect(held / runs).toBeGreaterThan(0.9033 - 0.02);
    expect(held / runs).toBeLessThan(0.9033 + 0.02);
  });

  test('says why it cannot judge', () => {
    expect(measurementBias([])).toMatchObject({ reason: '0 readings, at least 2 needed' });
    expect(measurementBias([{ reference: 1, value: 1 }])).toMatchObject({
      reason: '1 reading, at least 2 needed',
    });
    expect(measurementBias(aiag.slice(0, 13))).toMatchObject({
      reason: '1 reading at reference 4, at least 2 needed',
    });
    expect(measurementBias(aiag.map(({ reference }) => ({ reference, value: 3 })))).toMatchObject({
      problem: 'no-spread',
      reason: 'all 12 readings at reference 2 are the same: the resolution hides the spread',
    });
    expect(measurementBias([...aiag, { reference: Number.NaN, value: 1 }])).toMatchObject({
      problem: 'non-finite-value',
      reason: 'reading 61 of 61 or its reference is not a finite number',
    });
    expect(() => measurementBias(aiag, 1)).toThrow('confidence is 1');
  });
});

describe('linearity', () => {
  test('AIAG linearity data: 0.737 - 0.132 x reference, standard errors, limits, R squared 71.43 %, s 0.240 (as above)', () => {
    const { slope, intercept, determination, residualStandardDeviation } = valueFrom(
      measurementLinearity(aiag),
    );
    const show = ({ estimate, standardError, limits, t }: typeof slope) => [
      estimate.toFixed(3),
      standardError.toFixed(4),
      limits.lower.toFixed(3),
      limits.upper.toFixed(3),
      t.toFixed(2),
    ];
    expect(show(intercept)).toEqual(['0.737', '0.0725', '0.591', '0.882', '10.16']);
    expect(show(slope)).toEqual(['-0.132', '0.0109', '-0.154', '-0.110', '-12.04']);
    expect((100 * determination).toFixed(2)).toBe('71.43');
    expect(residualStandardDeviation.toFixed(3)).toBe('0.240');
  });

  test('NIST StRD Norris, certified values: the slope of the bias is that of the readings less 1', () => {
    const norris = valueFrom(measurementLinearity(rowsOf('norris_ozone')));
    expectRelative(norris.intercept.estimate, -0.262323073774029, 1e-12);
    expectRelative(1 + norris.slope.estimate, 1.00211681802045, 1e-13);
    expectRelative(norris.intercept.standardError, 0.232818234301152, 1e-12);
    expectRelative(norris.slope.standardError, 0.429796848199937e-3, 1e-12);
    expectRelative(norris.residualStandardDeviation, 0.884796396144373, 1e-12);
  });

  test('the band is narrowest at the mean of the references and meets the intercept at 0', () => {
    const { at, intercept } = valueFrom(measurementLinearity(aiag));
    const width = (reference: number) => at(reference).limits.upper - at(reference).limits.lower;
    expect(width(6)).toBeLessThan(width(5.9));
    expect(width(6)).toBeLessThan(width(6.1));
    expectRelative(at(0).bias, intercept.estimate, 1e-12);
    expectRelative(at(0).limits.lower, intercept.limits.lower, 1e-12);
  });

  test('lack of fit: none for a line with the same scatter everywhere, found for a bend', () => {
    const scatter = [-0.1, 0, 0.1];
    const bent = [1, 2, 3, 4].flatMap((reference) =>
      scatter.map((e) => ({ reference, value: reference + (reference - 2.5) ** 2 + e })),
    );
    const straight = [1, 2, 3, 4].flatMap((reference) =>
      scatter.map((e) => ({ reference, value: 1.1 * reference + e })),
    );
    expect(valueFrom(measurementLinearity(bent)).lackOfFit?.pValue).toBeLessThan(1e-6);
    expect(valueFrom(measurementLinearity(straight)).lackOfFit?.pValue).toBeGreaterThan(0.9);
    // By hand: means 2.25, 0.25, 0.25, 2.25; about their mean 4; times 3 repeats 12, over 2; pure error 0.08 over 8.
    expectRelative(valueFrom(measurementLinearity(bent)).lackOfFit?.fRatio ?? 0, 6 / 0.01, 1e-9);
    const two = straight.filter((reading) => reading.reference < 3);
    expect(valueFrom(measurementLinearity(two)).lackOfFit).toBeUndefined();
  });

  test('shift of all readings moves the intercept alone; scale carries through', () => {
    const before = valueFrom(measurementLinearity(aiag));
    fc.assert(
      fc.property(fc.integer({ min: -1000, max: 1000 }), fc.integer({ min: 1, max: 100 }), (shift, scale) => {
        const after = valueFrom(
          measurementLinearity(
            aiag.map(({ reference, value }) => ({
              reference: scale * reference,
              value: scale * value + shift,
            })),
          ),
        );
        expect(after.slope.estimate).toBeCloseTo(before.slope.estimate, 9);
        expect(after.intercept.estimate).toBeCloseTo(scale * before.intercept.estimate + shift, 6);
      }),
      { seed },
    );
  });

  test('says why it cannot judge', () => {
    expect(measurementLinearity(aiag.slice(0, 12))).toMatchObject({
      reason: 'all references are the same; linearity needs at least 2',
    });
    expect(measurementLinearity(aiag.slice(0, 2))).toMatchObject({
      reason: '2 readings, at least 3 needed',
    });
    expect(
      measurementLinearity([0, 1, 2].map((reference) => ({ reference, value: reference }))),
    ).toMatchObject({
      problem: 'no-spread',
    });
    expect(measurementLinearity([...aiag, { reference: 1, value: Number.POSITIVE_INFINITY }])).toMatchObject({
      problem: 'non-finite-value',
    });
    expect(() => measurementLinearity(aiag, 0)).toThrow('confidence is 0');
  });
});

describe('what rounding leaves', () => {
  const at = (reference: number, ...values: readonly number[]) =>
    values.map((value) => ({ reference, value }));

  test('readings that cancel have no bias at all', () => {
    // 0.1 + 0.3 - 2 x 0.2 is 5.6e-17 in doubles.
    const found = measurementBias([...at(0.2, 0.1, 0.3), ...at(0.7, 0.6, 0.8)], 0.95);
    expect(found.ok && found.value.references.map((each) => each.bias)).toEqual([0, 0]);
    const real = measurementBias(at(10, 10.001, 10.002), 0.95);
    expect(real.ok && real.value.references[0]?.bias).toBeCloseTo(0.0015, 12);
  });

  test('readings on one line have no spread to judge a slope by', () => {
    const line = [1, 2, 3, 4].map((reference) => ({ reference, value: reference * 1.1 }));
    expect(measurementLinearity(line, 0.95)).toMatchObject({ ok: false, problem: 'no-spread' });
  });
});

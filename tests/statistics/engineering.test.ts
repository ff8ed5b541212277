import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ageingDuration, ageingFactor, equivalentRealTime } from '../../src/statistics/ageing.ts';
import {
  capability,
  capabilityIndices,
  ppConfidenceLimits,
  ppkConfidenceLimits,
} from '../../src/statistics/capability.ts';
import { normalCdf } from '../../src/statistics/distributions.ts';
import { linearStackup, productStackup } from '../../src/statistics/stackup.ts';
import { discoveryProbability, participantsToDiscover } from '../../src/statistics/usability.ts';
import { checkTopic, expectRelative, referencesOf, valueFrom } from './reference-values.ts';
import { seededUniforms } from './seeded-normals.ts';

const seed = 20260107;

describe('capability', () => {
  const noData =
    'the raw data are not in a public copy at hand; mean and standard deviation are used instead';
  /** The source's own figures: overall and within-subgroup standard deviation to 15 digits, mean exactly 7.08. */
  const overall = { mean: 7.08, standardDeviation: 1.85635681000733 };
  const within = { mean: 7.08, standardDeviation: 1.76268271711092 };
  const limits = { lower: 0, upper: 12 };

  checkTopic({
    topic: 'capability',
    expected: { total: 18, computed: 15 },
    compute: ({ inputs }) => {
      if (inputs.dataset === undefined) {
        const given = { mean: inputs.mean, standardDeviation: inputs.sd };
        const indices = capabilityIndices(given, { lower: inputs.lsl, upper: inputs.usl });
        return inputs.quantity === 'Cp' ? indices.pp : indices.ppk;
      }
      const [p, c] = [capabilityIndices(overall, limits), capabilityIndices(within, limits)];
      const confidence = 0.9;
      const quantities: Record<string, number | undefined> = {
        Pp: p.pp,
        Ppk: p.ppk,
        Ppl: p.ppl,
        'Pp upper 90% CI': ppConfidenceLimits({ pp: p.pp!, degreesOfFreedom: 99, confidence }).upper,
        'Ppk upper 90% CI': ppkConfidenceLimits({ ppk: p.ppk, sampleSize: 100, confidence }).upper,
        Cp: c.pp,
        Cpk: c.ppk,
        Cpl: c.ppl,
        'Cp lower 90% CI': ppConfidenceLimits({ pp: c.pp!, degreesOfFreedom: 80, confidence }).lower,
        'Cpk lower 90% CI': ppkConfidenceLimits({
          ppk: c.ppk,
          sampleSize: 100,
          degreesOfFreedom: 80,
          confidence,
        }).lower,
        'Cpk upper 90% CI': ppkConfidenceLimits({
          ppk: c.ppk,
          sampleSize: 100,
          degreesOfFreedom: 80,
          confidence,
        }).upper,
        'ppm > USL overall': 1e6 * p.shareOutside.above,
        'ppm > USL within': 1e6 * c.shareOutside.above,
      };
      return quantities[inputs.quantity];
    },
    notComputed: { 'capability-001': noData, 'capability-002': noData, 'capability-003': noData },
    // R used the exact d2, the source the table constant 2.326: a relative difference of 3e-5 in sigma.
    roughR: Object.fromEntries(
      ['012', '013', '014', '015', '017', '018'].map((n) => [
        `capability-${n}`,
        [5e-5, 'R value with the exact d2'] as const,
      ]),
    ),
  });

  test('from raw values, with one limit: the other indices are absent', () => {
    const result = valueFrom(capability([1, 2, 3], { upper: 5 }));
    expect(result).toEqual({
      count: 3,
      mean: 2,
      standardDeviation: 1,
      ppu: 1,
      ppk: 1,
      shareOutside: { below: 0, above: normalCdf(-3) },
    });
    expect(valueFrom(capability([1, 2, 3], { lower: -1, upper: 6 }))).toMatchObject({
      ppl: 1,
      ppk: 1,
      pp: 7 / 6,
    });
  });

  test('does not change with shift and scale; never above Pp', () => {
    const values = fc.array(fc.integer({ min: 0, max: 100 }), { minLength: 2, maxLength: 40 });
    fc.assert(
      fc.property(
        values.filter((sample) => new Set(sample).size > 1),
        fc.integer({ min: -50, max: 50 }),
        fc.integer({ min: 1, max: 20 }),
        (sample, shift, scale) => {
          const before = valueFrom(capability(sample, { lower: -10, upper: 110 }));
          const moved = sample.map((value) => shift + scale * value);
          const after = valueFrom(
            capability(moved, { lower: shift - 10 * scale, upper: shift + 110 * scale }),
          );
          expectRelative(after.ppk, before.ppk, 1e-9);
          expect(before.ppk).toBeLessThanOrEqual(before.pp! * (1 + 1e-12));
        },
      ),
      { seed },
    );
  });

  test('refuses', () => {
    expect(capability([1, 1], { upper: 2 })).toMatchObject({ problem: 'no-spread' });
    expect(capability([1], { upper: 2 })).toMatchObject({ problem: 'too-few-values' });
    expect(() => capability([1, 2], {})).toThrow('neither lower nor upper');
    expect(() => capability([1, 2], { lower: 3, upper: 3 })).toThrow('lower is 3');
    expect(() => capabilityIndices({ mean: 1, standardDeviation: 0 }, { upper: 2 })).toThrow(
      'standardDeviation is 0',
    );
  });
});

describe('accelerated ageing', () => {
  checkTopic({
    topic: 'ageing-q10',
    expected: { total: 4, computed: 4 },
    compute: ({ inputs }) => {
      const factor = ageingFactor({
        q10: inputs.q10,
        ageingTemperature: inputs.t_acc,
        storageTemperature: inputs.t_amb,
      });
      return inputs.quantity === 'factor'
        ? factor
        : ageingDuration({ realTimeDays: inputs.target_days, factor }).days;
    },
  });

  test('the demonstration device: 1095 days at 25, aged at 55: factor 8, 136.875 days, run 137', () => {
    const factor = ageingFactor({ q10: 2, ageingTemperature: 55, storageTemperature: 25 });
    expect(ageingDuration({ realTimeDays: 1095, factor })).toEqual({ days: 136.875, wholeDays: 137 });
    expect(equivalentRealTime({ chamberDays: 137, factor })).toBe(1096);
  });

  test('days and equivalent real time are inverse; whole days are enough and one fewer is not', () => {
    const temperature = fc.double({ min: 20, max: 70, noNaN: true });
    fc.assert(
      fc.property(temperature, fc.integer({ min: 1, max: 4000 }), (ageingTemperature, realTimeDays) => {
        const factor = ageingFactor({ q10: 2, ageingTemperature, storageTemperature: 23 });
        const { days, wholeDays } = ageingDuration({ realTimeDays, factor });
        expectRelative(equivalentRealTime({ chamberDays: days, factor }), realTimeDays, 1e-14);
        expect(equivalentRealTime({ chamberDays: wholeDays, factor })).toBeGreaterThanOrEqual(
          realTimeDays * (1 - 1e-11),
        );
        expect(equivalentRealTime({ chamberDays: wholeDays - 1, factor })).toBeLessThan(realTimeDays);
      }),
      { seed },
    );
  });

  test('a whole number of days is not raised by rounding', () => {
    const factor = ageingFactor({ q10: 2, ageingTemperature: 60, storageTemperature: 25 });
    expect(ageingDuration({ realTimeDays: 100 * factor, factor }).wholeDays).toBe(100);
  });

  test('arguments out of range are named', () => {
    expect(() => ageingFactor({ q10: 0, ageingTemperature: 55, storageTemperature: 25 })).toThrow('q10 is 0');
    expect(() => ageingFactor({ q10: 2, ageingTemperature: Number.NaN, storageTemperature: 25 })).toThrow(
      'ageingTemperature is NaN',
    );
    expect(() => ageingDuration({ realTimeDays: -1, factor: 8 })).toThrow('realTimeDays is -1');
    expect(() => equivalentRealTime({ chamberDays: 1, factor: 0 })).toThrow('factor is 0');
  });
});

describe('stack-ups', () => {
  checkTopic({
    topic: 'tolerance-stackup',
    expected: { total: 3, computed: 3 },
    compute: ({ inputs }) => {
      const term = (tolerance: number) => ({ nominal: 1, plus: tolerance, minus: tolerance });
      if (inputs.quantity === 'worst case') {
        const stack = linearStackup(inputs.tolerances.map(term));
        return stack.worstCase.upper - stack.nominal;
      }
      // Taken as standard deviations, the root of the sum of squares is the standard deviation of the stack.
      const deviations: number[] = inputs.sds ?? inputs.variances.map(Math.sqrt);
      const sigma = linearStackup(deviations.map(term)).rootSumSquare.halfWidth;
      if (inputs.quantity === 'P(interference)') return normalCdf(-inputs.mean_gap / sigma);
      return 1 - 2 * normalCdf(-inputs.half_width / sigma);
    },
  });

  describe('the demonstration device', () => {
    const bore = { nominal: 4, plus: 0.05, minus: 0.05 };
    const pitch = { nominal: 1.6, plus: 0.04, minus: 0.04 };

    test('volume per stroke 20.106, worst case 19.12 to 21.13, root sum square +/- 0.711', () => {
      const stack = productStackup([{ ...bore, exponent: 2 }, pitch], Math.PI / 4);
      expect(stack.nominal.toFixed(3)).toBe('20.106');
      expect(stack.worstCase.lower.toFixed(2)).toBe('19.12');
      expect(stack.worstCase.upper.toFixed(2)).toBe('21.13');
      expect(stack.rootSumSquare.halfWidth.toFixed(3)).toBe('0.711');
      expect(stack.rootSumSquare.lower.toFixed(2)).toBe('19.40');
      expect(stack.rootSumSquare.upper.toFixed(2)).toBe('20.82');
      expect(stack.contributions.map((share) => share.toFixed(3))).toEqual(['0.500', '0.500']);
    });

    test('25 strokes: 477.9 to 528.2', () => {
      const stack = productStackup([{ ...bore, exponent: 2 }, pitch], (25 * Math.PI) / 4);
      expect([stack.worstCase.lower.toFixed(1), stack.worstCase.upper.toFixed(1)]).toEqual([
        '477.9',
        '528.2',
      ]);
    });

    test('seal interference 0.10, 0.02 to 0.18', () => {
      const stack = linearStackup([
        { nominal: 4.1, plus: 0.03, minus: 0.03 },
        { ...bore, sensitivity: -1 },
      ]);
      expect(stack.nominal.toFixed(2)).toBe('0.10');
      expect([stack.worstCase.lower.toFixed(2), stack.worstCase.upper.toFixed(2)]).toEqual(['0.02', '0.18']);
      expect(stack.rootSumSquare.halfWidth).toBeCloseTo(Math.hypot(0.03, 0.05), 14);
    });
  });

  test('unequal deviations move the centre; a subtracted dimension turns them round', () => {
    const stack = linearStackup([{ nominal: 10, plus: 0.3, minus: 0.1, sensitivity: -2 }]);
    expect(stack.nominal).toBe(-20);
    expect(stack.worstCase.lower).toBeCloseTo(-20.6, 12);
    expect(stack.worstCase.upper).toBeCloseTo(-19.8, 12);
    expect(stack.rootSumSquare.centre).toBeCloseTo(-20.2, 12);
    expect(stack.rootSumSquare.halfWidth).toBeCloseTo(0.4, 12);
  });

  test('a divisor is a factor with exponent -1', () => {
    const stack = productStackup([
      { nominal: 48, plus: 0.3, minus: 0.3 },
      { nominal: 15, plus: 0.1, minus: 0.1, exponent: -1 },
    ]);
    expect(stack.nominal).toBeCloseTo(3.2, 12);
    expect(stack.worstCase.upper).toBeCloseTo(48.3 / 14.9, 12);
    expect(stack.worstCase.lower).toBeCloseTo(47.7 / 15.1, 12);
  });

  test('nothing built within tolerance leaves the worst case; the root of squares lies inside for centred ones', () => {
    const uniform = seededUniforms(seed);
    const dimension = fc.record({
      nominal: fc.double({ min: 1, max: 50, noNaN: true }),
      plus: fc.double({ min: 0, max: 0.5, noNaN: true }),
      minus: fc.double({ min: 0, max: 0.5, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(dimension, { minLength: 1, maxLength: 6 }), (dimensions) => {
        const terms = dimensions.map((entry, i) => ({
          ...entry,
          sensitivity: i % 2 ? -1.5 : 1,
          exponent: i % 2 ? -1 : 2,
        }));
        const linear = linearStackup(terms);
        const product = productStackup(terms, 0.7);
        const built = terms.map(({ nominal, plus, minus }) => nominal - minus + (plus + minus) * uniform());
        const sum = built.reduce((total, size, i) => total + terms[i]!.sensitivity * size, 0);
        const result = built.reduce((total, size, i) => total * size ** terms[i]!.exponent, 0.7);
        expect(sum).toBeGreaterThanOrEqual(linear.worstCase.lower - 1e-9);
        expect(sum).toBeLessThanOrEqual(linear.worstCase.upper + 1e-9);
        expect(result).toBeGreaterThanOrEqual(product.worstCase.lower * (1 - 1e-12));
        expect(result).toBeLessThanOrEqual(product.worstCase.upper * (1 + 1e-12));
        expect(linear.rootSumSquare.upper).toBeLessThanOrEqual(linear.worstCase.upper + 1e-9);
        const shares = linear.contributions.reduce((a, b) => a + b, 0);
        expect(linear.rootSumSquare.halfWidth === 0 ? 1 : shares).toBeCloseTo(1, 9);
      }),
      { seed },
    );
  });

  test('arguments out of range are named', () => {
    expect(() => linearStackup([])).toThrow('at least one dimension');
    expect(() => linearStackup([{ nominal: 1, plus: -0.1, minus: 0 }])).toThrow('plus is -0.1');
    expect(() => productStackup([{ nominal: 1, plus: 0, minus: 1 }])).toThrow('must stay above 0');
    expect(() => productStackup([{ nominal: Number.NaN, plus: 0, minus: 0 }])).toThrow('nominal is NaN');
  });
});

describe('usability', () => {
  const table = ['001', '002', '003', '004', '005'].map((n) => `usability-discovery-${n}`);
  checkTopic({
    topic: 'usability-discovery',
    expected: { total: 10, computed: 5 },
    compute: ({ inputs }) =>
      inputs.quantity === 'n'
        ? participantsToDiscover({ probability: inputs.p, goal: inputs.goal })
        : discoveryProbability({ probability: inputs.p, participants: inputs.n }),
    notComputed: Object.fromEntries(
      table.map((id) => [id, 'constants of an empirical table, not a formula']),
    ),
  });

  test('the empirical table constants (no formula gives them) rise with the number of users as the model does', () => {
    const rows = referencesOf('usability-discovery').filter((reference) => reference.agrees === null);
    expect(rows.map((row) => row.id)).toEqual(table);
    const means = rows.map((row) => (row.expected as readonly number[])[1]!);
    expect(means).toEqual(means.toSorted((a, b) => a - b));
    // With p = 0.31 (Nielsen & Landauer 1993) the model gives the table's mean at 5 users within 2 points.
    const model = 100 * discoveryProbability({ probability: 0.31, participants: 5 });
    expect(Math.abs(model - means[0]!)).toBeLessThan(2);
  });

  test('the number found is the smallest', () => {
    const share = fc.double({ min: 0.01, max: 0.99, noNaN: true });
    fc.assert(
      fc.property(share, share, (probability, goal) => {
        const participants = participantsToDiscover({ probability, goal });
        expect(discoveryProbability({ probability, participants })).toBeGreaterThanOrEqual(
          goal * (1 - 1e-11),
        );
        expect(discoveryProbability({ probability, participants: participants - 1 })).toBeLessThan(goal);
      }),
      { seed },
    );
  });

  test('ends and refusals', () => {
    expect(discoveryProbability({ probability: 0, participants: 10 })).toBe(0);
    expect(discoveryProbability({ probability: 1, participants: 1 })).toBe(1);
    expect(() => discoveryProbability({ probability: 1.2, participants: 1 })).toThrow('probability is 1.2');
    expect(() => discoveryProbability({ probability: 0.1, participants: 1.5 })).toThrow(
      'participants is 1.5',
    );
    expect(() => participantsToDiscover({ probability: 0.1, goal: 1 })).toThrow('goal is 1');
  });
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { criteriaFaults } from '../../src/evidence/risk-criteria-faults.ts';
import {
  estimateRisk,
  probabilityBand,
  probabilityOfHarm,
  type RiskCriteria,
} from '../../src/evidence/risk-estimate.ts';

/** Criteria without a fault: rising ends of bands below 1, the last one open, a limit for every severity that does not rise with it. */
const validCriteria: fc.Arbitrary<RiskCriteria> = fc
  .record({
    ends: fc.uniqueArray(fc.double({ min: 1e-12, max: 1, noNaN: true }), { maxLength: 7 }),
    severities: fc.integer({ min: 1, max: 7 }),
    limits: fc.array(fc.nat(), { minLength: 7, maxLength: 7 }),
    upTo: fc.nat(),
  })
  .map(({ ends, severities, limits, upTo }) => {
    const bands = [...[...ends].sort((a, b) => a - b), undefined].map((below, index) => ({
      band: `O${index + 1}`,
      ...(below === undefined ? {} : { below }),
    }));
    const falling = limits.map((limit) => limit % bands.length).sort((a, b) => b - a);
    const classes = Array.from({ length: severities }, (_, index) => `S${index + 1}`);
    return {
      severities: classes.map((name) => ({ class: name, name })),
      probability: { denominator: 'per use', bands },
      acceptable: Object.fromEntries(
        classes.map((name, index) => [name, bands[falling[index] ?? 0]?.band ?? '']),
      ),
      not_estimable: { acceptable_up_to: classes[upTo % classes.length] ?? '', statement: 'by severity' },
    };
  });

/** Bands that hold a probability, by the definition: from the end of the one before, up to, not including, its own. */
const holding = ({ probability: { bands } }: RiskCriteria, value: number): readonly string[] =>
  bands.flatMap(({ band, below }, index) => {
    const from = index === 0 ? 0 : (bands[index - 1]?.below ?? Number.NaN);
    return value >= from && (below === undefined || value < below) ? [band] : [];
  });

describe('the matrix of severity and probability', () => {
  test('has each point in exactly one band, and an answer for it', () => {
    fc.assert(
      fc.property(validCriteria, fc.double({ min: 0, max: 1, noNaN: true }), (criteria, value) => {
        expect(criteriaFaults({ device: { name: 'a', maker: 'b' }, risk: criteria })).toEqual([]);
        const bands = holding(criteria, value);
        expect(bands).toHaveLength(1);
        expect([probabilityBand(value, criteria)]).toEqual(bands);
        const rounded = holding(criteria, probabilityOfHarm({ p1: value, p2: 1 }) ?? Number.NaN);
        for (const { class: severity } of criteria.severities) {
          const estimate = estimateRisk(severity, { p1: value, p2: 1 }, criteria);
          expect(estimate).toMatchObject({ kind: 'by probability', severity, band: rounded[0] });
        }
      }),
    );
  });

  test('is half-open: the end of a band lies in the next one, the number before it does not', () => {
    fc.assert(
      fc.property(validCriteria, (criteria) => {
        const { bands } = criteria.probability;
        bands.forEach(({ band, below }, index) => {
          if (below === undefined) return;
          expect(probabilityBand(below, criteria)).toBe(bands[index + 1]?.band);
          expect(probabilityBand(justBelow(below), criteria)).toBe(band);
        });
      }),
    );
  });

  test('accepts less as the probability grows, never more', () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(validCriteria, share, share, (criteria, a, b) => {
        const accepted = (p1: number): boolean =>
          estimateRisk('S1', { p1, p2: 1 }, criteria)?.acceptable ?? false;
        if (accepted(Math.max(a, b))) expect(accepted(Math.min(a, b))).toBe(true);
      }),
    );
  });

  test('decides by severity alone where the probability cannot be estimated', () => {
    fc.assert(
      fc.property(validCriteria, (criteria) => {
        const classes = criteria.severities.map((each) => each.class);
        const last = classes.indexOf(criteria.not_estimable?.acceptable_up_to ?? '');
        expect(
          classes.map((name) => estimateRisk(name, { not_estimable: 'not counted' }, criteria)?.acceptable),
        ).toEqual(classes.map((_, index) => index <= last));
        const { not_estimable: _, ...without } = criteria;
        expect(estimateRisk('S1', { not_estimable: 'not counted' }, without)).toBeUndefined();
      }),
    );
  });
});

/** The greatest double below a positive one (IEEE 754: the bit patterns of positive numbers are in their order). */
const justBelow = (value: number): number => {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, value);
  view.setBigUint64(0, view.getBigUint64(0) - 1n);
  return view.getFloat64(0);
};

// The scales of the demonstration device: S4 up to O1 below 1e-6; RK-10 is 0.0002 x 0.01 = 2e-6, worked on paper.
const demonstration: RiskCriteria = {
  severities: ['S1', 'S4', 'S5'].map((name) => ({ class: name, name })),
  probability: {
    denominator: 'per use',
    bands: [{ band: 'O1', below: 0.000001 }, { band: 'O2', below: 0.00001 }, { band: 'O3' }],
  },
  acceptable: { S1: 'O3', S4: 'O1', S5: 'O1' },
};

test('a severity after control takes the place of that of the risk', () => {
  const after = { p1: 0.0002, p2: 0.01 };
  expect(estimateRisk('S5', after, demonstration)).toEqual({
    kind: 'by probability',
    severity: 'S5',
    probability: 0.000002,
    band: 'O2',
    acceptable: false,
  });
  expect(estimateRisk('S5', { ...after, severity: 'S1' }, demonstration)).toMatchObject({
    severity: 'S1',
    acceptable: true,
  });
  expect(estimateRisk('S5', { ...after, severity: 'S9' }, demonstration)).toBeUndefined();
});

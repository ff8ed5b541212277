import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { residueLimits } from '../../src/evidence/calculations/ethylene-oxide-limits.ts';
import { calculated, value } from './calculated.ts';

describe('sterilisation dose by half cycle', () => {
  const halfCycle = (more = '', acceptance = '') =>
    calculated(
      `kind: sterilisation-dose, approach: half-cycle, population: 1.2e6, bioburden: 100, half_cycle_exposure: 120, exposure: 240, half_cycles: 3, indicators: 60, indicators_with_growth: 0${more}`,
      acceptance,
    );

  test('60 indicators of 1.2 million without growth, full cycle twice the half: by hand', () => {
    const result = halfCycle();
    // log10(1.2e6) = 6.0792; -ln 0.05 / 60 = 0.049929; log10(1.2e6 / 0.049929) = 7.3808; twice that is 14.7617.
    expect(value(result, 'half_cycle_log_reduction').toFixed(4)).toBe('6.0792');
    expect(value(result, 'demonstrated_log_reduction').toFixed(4)).toBe('7.3808');
    expect(value(result, 'full_cycle_log_reduction').toFixed(4)).toBe('14.7617');
    // 100 x 10^-14.7617.
    expect(value(result, 'sterility_assurance_level')).toBeCloseTo(1.731e-13, 15);
    expect(result.verdict).toBe('pass');
  });

  test('the bioburden limit is where the level is just reached', () => {
    const limit = value(halfCycle(), 'bioburden_limit');
    const at = (bioburden: number) =>
      calculated(
        `kind: sterilisation-dose, approach: half-cycle, population: 1.2e6, bioburden: ${bioburden}, half_cycle_exposure: 120, exposure: 240, half_cycles: 3, indicators: 60, indicators_with_growth: 0`,
      ).verdict;
    expect(at(limit * 0.999)).toBe('pass');
    expect(at(limit * 1.001)).toBe('fail');
  });

  test.each([
    ['growth', ', confidence: 0.9', { indicators_with_growth: 1 }, 'fail', '1 of 60 indicators grew'],
    ['a full cycle that is too short', '', { exposure: 239 }, 'fail', '1.99 times the half cycle'],
    ['too few spores', '', { population: 5e5 }, 'undecided', '10⁶ needed'],
    ['two half cycles', '', { half_cycles: 2 }, 'undecided', '2 half cycles without growth, 3 in a row'],
    ['a bioburden beyond the limit', '', { bioburden: 1e12 }, 'fail', 'required 1.0 × 10⁻⁶'],
  ])('%s', (_, more, changed, verdict, words) => {
    const fields = {
      population: 1.2e6,
      bioburden: 100,
      half_cycle_exposure: 120,
      exposure: 240,
      half_cycles: 3,
      indicators: 60,
      indicators_with_growth: 0,
      ...changed,
    };
    const result = calculated(
      `kind: sterilisation-dose, approach: half-cycle, ${Object.entries(fields)
        .map(([name, figure]) => `${name}: ${figure}`)
        .join(', ')}${more}`,
    );
    expect(result.verdict).toBe(verdict);
    expect(result.reason).toContain(words);
  });

  test('with growth no figure is printed that holds for none', () => {
    const keys = (grown: number) =>
      calculated(
        `kind: sterilisation-dose, approach: half-cycle, population: 1.2e6, bioburden: 100, half_cycle_exposure: 120, exposure: 240, half_cycles: 3, indicators: 60, indicators_with_growth: ${grown}`,
      ).characteristics[0]?.values.map(({ key }) => key);
    expect(keys(1)).toEqual(['exposure_ratio']);
    expect(keys(0)).toContain('sterility_assurance_level');
  });

  test('without the number of half cycles nothing is decided', () => {
    const result = calculated(
      'kind: sterilisation-dose, approach: half-cycle, population: 1.2e6, bioburden: 100, half_cycle_exposure: 120, exposure: 240, indicators: 60, indicators_with_growth: 0',
    );
    expect(result.verdict).toBe('undecided');
    expect(result.reason).toContain('half_cycles does not state how many were run');
  });

  test('the acceptance can only be stricter', () => {
    const level = (upper: string) =>
      `{ characteristic: sterility assurance level, unit: "1", upper: ${upper} }`;
    expect(halfCycle('', level('1e-6')).verdict).toBe('pass');
    expect(halfCycle('', level('1e-14')).verdict).toBe('fail');
    expect(halfCycle('', '{ characteristic: level, unit: N, upper: 1 }').reason).toContain('has no unit');
    expect(halfCycle('', '{ characteristic: level, unit: "1", lower: 1 }').reason).toContain(
      'upper end only',
    );
  });

  test('without its inputs has no verdict', () => {
    expect(calculated('kind: sterilisation-dose').reason).toContain('calculation.approach is missing');
    const bare = calculated('kind: sterilisation-dose, approach: half-cycle');
    for (const name of ['population', 'bioburden', 'exposure', 'half_cycle_exposure', 'indicators'])
      expect(bare.reason).toContain(`calculation.${name} is missing`);
    expect(
      calculated(
        'kind: sterilisation-dose, approach: half-cycle, population: 1e6, bioburden: 1, exposure: 2, half_cycle_exposure: 1, indicators: 3, indicators_with_growth: 4',
      ).reason,
    ).toContain('indicators_with_growth must be at most 3');
  });
});

describe('sterilisation dose by decimal reduction', () => {
  const dose = (more: string) =>
    calculated(`kind: sterilisation-dose, approach: decimal-reduction, population: 1e6, ${more}`);

  test('D = 5, 60 min: 12 powers of ten; from 100 organisms to 1e-10', () => {
    const result = dose('bioburden: 100, exposure: 60, decimal_reduction_time: 5');
    expect(value(result, 'log_reduction')).toBeCloseTo(12, 12);
    expect(value(result, 'sterility_assurance_level')).toBeCloseTo(1e-10, 20);
    // 5 x log10(100 / 1e-6) = 40.
    expect(value(result, 'exposure_needed')).toBeCloseTo(40, 10);
    expect(result.verdict).toBe('pass');
    const short = dose('bioburden: 100, exposure: 39, decimal_reduction_time: 5');
    expect(short.verdict).toBe('fail');
    expect(short.characteristics[0]?.remedy).toBe('Expose for at least 40.00.');
  });

  test('D from a fraction-negative study', () => {
    const one = dose('bioburden: 1, exposure: 60, steps: [{ exposure: 30, replicates: 100, negative: 37 }]');
    // 30 / (6 - log10(ln(100 / 37))), as in tests/statistics/sterilisation.test.ts.
    expect(value(one, 'decimal_reduction_time')).toBeCloseTo(30 / (6 - Math.log10(0.9942522733438669)), 9);
    const several = dose(
      'bioburden: 1, exposure: 60, steps: [{ exposure: 24, replicates: 20, negative: 0 }, { exposure: 30, replicates: 20, negative: 10 }, { exposure: 36, replicates: 20, negative: 20 }]',
    );
    // Mean exposure 27 x 0.5 + 33 x 0.5 = 30.
    expect(Math.abs(value(several, 'decimal_reduction_time') - 30 / 6.2507)).toBeLessThan(1e-4);
    expect(several.characteristics[0]?.tables?.[0]?.rows.length).toBe(3);
  });

  test.each([
    ['no D', 'bioburden: 1, exposure: 60', 'decimal_reduction_time is missing'],
    [
      'D twice',
      'bioburden: 1, exposure: 60, decimal_reduction_time: 5, steps: [{ exposure: 30, replicates: 10, negative: 3 }]',
      'both decimal_reduction_time and steps',
    ],
    [
      'no growth at all',
      'bioburden: 1, exposure: 60, steps: [{ exposure: 30, replicates: 10, negative: 10 }]',
      'only a bound',
    ],
  ])('without sound inputs has no verdict: %s', (_, more, words) => {
    expect(dose(more)).toMatchObject({ verdict: 'undecided', reason: expect.stringContaining(words) });
  });
});

describe('residues of ethylene oxide', () => {
  const residue = (substance: string, period: string, amount: number, unit: string): string =>
    `{ substance: ${substance}, period: ${period}, amount: ${amount}, unit: ${unit} }`;
  const of = (contact: string, measured: readonly string[], more = '', acceptance = '') =>
    calculated(`kind: residues, contact: ${contact}, measured: [${measured.join(', ')}]${more}`, acceptance);
  const day = residue('ethylene oxide', 'first day', 0.6, 'mg');
  const surface = residue('ethylene oxide', 'surface', 4, 'ug/cm2');

  test('limited contact: 0.6 of 4 mg and 4 of 10 µg/cm² (ISO 10993-7:2008)', () => {
    const result = of('limited', [day, surface]);
    expect(value(result, 'largest_share')).toBeCloseTo(40, 10);
    expect(result.verdict).toBe('pass');
    expect(result.reason).toContain('ethylene oxide, surface: 4.000 µg/cm² of 10 µg/cm², 40.0 %');
  });

  test.each([
    ['just at the limit', residue('ethylene oxide', 'first day', 4, 'mg'), 'pass'],
    ['just above it', residue('ethylene oxide', 'first day', 4.001, 'mg'), 'fail'],
    ['in micrograms', residue('ethylene oxide', 'first day', 4001, 'ug'), 'fail'],
  ])('%s', (_, measured, verdict) => {
    expect(of('limited', [measured, surface]).verdict).toBe(verdict);
  });

  test('longer contact needs all limits of shorter contact too', () => {
    const missing = of('permanent', [day, surface]);
    expect(missing.verdict).toBe('undecided');
    expect(missing.reason).toContain('no ethylene oxide, first 30 days, which permanent contact needs');
    expect(missing.reason).toContain('no ethylene oxide, lifetime');
    const whole = of('permanent', [
      day,
      surface,
      residue('ethylene oxide', 'first 30 days', 61, 'mg'),
      residue('ethylene oxide', 'lifetime', 0.1, 'g'),
    ]);
    expect(whole.verdict).toBe('fail');
    expect(whole.reason).toContain('ethylene oxide, first 30 days');
  });

  test('ethylene chlorohydrin counts where it is measured, against 9 mg and 5 mg/cm²', () => {
    const both = [day, surface, residue('ethylene chlorohydrin', 'first day', 9.1, 'mg')];
    expect(of('limited', both).reason).toContain('no ethylene chlorohydrin, surface');
    const all = [...both, residue('ethylene chlorohydrin', 'surface', 1, 'mg/cm2')];
    expect(of('limited', all).verdict).toBe('fail');
    expect(of('limited', [day, surface]).characteristics[0]?.assumptions).toContainEqual(
      expect.objectContaining({ name: 'no ethylene chlorohydrin' }),
    );
  });

  test('several devices add up, small patients bear less, another record can show the surface', () => {
    expect(value(of('limited', [day, surface], ', devices: 5'), 'largest_share')).toBeCloseTo(75, 10);
    // 4 mg x 3.5 / 70 = 0.2 mg for a newborn.
    const small = of('limited', [day, surface], ', body_mass: 3.5');
    expect(value(small, 'residue_1')).toBeCloseTo(300, 9);
    expect(small.verdict).toBe('fail');
    // A heavier adult has no higher limit.
    expect(value(of('limited', [day, surface], ', body_mass: 140'), 'residue_1')).toBeCloseTo(15, 10);
    expect(of('limited', [day], ', irritation_shown_by: VR-17').verdict).toBe('pass');
    expect(of('limited', [day]).reason).toContain('or irritation_shown_by');
  });

  test('the acceptance can be stricter, never looser', () => {
    const share = (upper: number) => `{ characteristic: share, unit: "%", upper: ${upper} }`;
    expect(of('limited', [day, surface], '', share(50)).verdict).toBe('pass');
    expect(of('limited', [day, surface], '', share(39)).verdict).toBe('fail');
    expect(
      of('limited', [residue('ethylene oxide', 'first day', 5, 'mg'), surface], '', share(500)).verdict,
    ).toBe('fail');
  });

  test.each([
    [
      'a content in ppm',
      [residue('ethylene oxide', 'first day', 5, 'ppm'), surface],
      'must be multiplied by the mass',
    ],
    ['the same twice', [day, day, surface], 'is there twice'],
    [
      'a limit that does not count',
      [day, surface, residue('ethylene oxide', 'lifetime', 5, 'mg')],
      'has no limit for',
    ],
  ])('without sound inputs has no verdict: %s', (_, measured, words) => {
    expect(of('limited', measured)).toMatchObject({
      verdict: 'undecided',
      reason: expect.stringContaining(words),
    });
  });

  test('limits that nobody could look up are marked as from memory', () => {
    expect(
      residueLimits.filter((limit) => limit.provenance === 'from memory').map((limit) => limit.limit),
    ).toEqual([9, 60, 10_000]);
    const result = of('limited', [
      day,
      surface,
      residue('ethylene chlorohydrin', 'first day', 1, 'mg'),
      residue('ethylene chlorohydrin', 'surface', 1, 'mg/cm2'),
    ]);
    expect(result.characteristics[0]?.tables?.[0]?.rows.map((row) => row[4])).toContain('from memory');
    expect(result.characteristics[0]?.assumptions[0]?.detail).toContain('from memory');
  });
});

describe('bacterial endotoxin', () => {
  const of = (more: string, acceptance = '') => calculated(`kind: endotoxin, ${more}`, acceptance);
  const pool = 'contact: general, devices: 10, volume: 400';

  test('10 devices in 400 mL: 0.5 EU/mL is 20 EU on each (USP <161>)', () => {
    const result = of(`${pool}, concentration: 0.5`);
    expect(value(result, 'endotoxin')).toBe(20);
    expect(value(result, 'extract_limit')).toBe(0.5);
    expect(result.verdict).toBe('pass');
    expect(of(`${pool}, concentration: 0.501`).verdict).toBe('fail');
    expect(of(`contact: cerebrospinal fluid, devices: 10, volume: 400, concentration: 0.06`).verdict).toBe(
      'fail',
    );
    expect(of(`contact: cerebrospinal fluid, devices: 10, volume: 400, concentration: 0.05`).verdict).toBe(
      'pass',
    );
  });

  test('what is given by dose: K / M (USP <85>)', () => {
    const dose = 'contact: dose, threshold: 5, dose: 10';
    expect(value(of(`${dose}, concentration: 0.2`), 'limit')).toBe(0.5);
    expect(of(`${dose}, concentration: 0.6`).verdict).toBe('fail');
    expect(of('contact: dose, threshold: 5, concentration: 0.2').reason).toContain(
      'calculation.dose is missing',
    );
  });

  test('below the limit of detection is enough where that is below the limit, and undecided elsewhere', () => {
    expect(of(`${pool}, concentration: 0.05, below_detection: true`).verdict).toBe('pass');
    expect(of(`${pool}, concentration: 0.05, below_detection: true`).reason).toBe(
      'less than 2.000 EU/device, allowed 20 EU/device',
    );
    const blind = of(`${pool}, concentration: 0.6, below_detection: true`);
    expect(blind.verdict).toBe('undecided');
    expect(blind.reason).toContain('the test cannot see the limit');
  });

  test.each([
    ['diluted too far', ', dilution: 101, sensitivity: 0.005', 'at most 100.0 times allowed'],
    ['inhibited', ', spike_recovery: 40', '40 % of the spike recovered'],
    ['enhanced', ', spike_recovery: 230', '230 % of the spike recovered'],
  ])('is undecided when %s', (_, more, words) => {
    const result = of(`${pool}, concentration: 0.05${more}`);
    expect(result.verdict).toBe('undecided');
    expect(result.reason).toContain(words);
  });

  test('the acceptance can be stricter, never looser', () => {
    const limit = (upper: number, unit = 'EU/device') =>
      `{ characteristic: endotoxin, unit: ${unit}, upper: ${upper} }`;
    expect(of(`${pool}, concentration: 0.3`, limit(10)).verdict).toBe('fail');
    expect(of(`${pool}, concentration: 0.6`, limit(100)).verdict).toBe('fail');
    expect(of(`${pool}, concentration: 0.3`, limit(10, 'CFU/device')).reason).toContain(
      'must be in EU/device',
    );
  });
});

test('figures beyond all bounds are no reason to throw, and never a pass without ground', () => {
  const figure = fc.constantFrom('1e-300', '1e300', '1', '0.5', '7', '1e6');
  fc.assert(
    fc.property(figure, figure, figure, (a, b, c) => {
      for (const calculation of [
        `kind: sterilisation-dose, approach: decimal-reduction, population: ${a}, bioburden: ${b}, exposure: ${c}, decimal_reduction_time: ${a}`,
        `kind: sterilisation-dose, approach: half-cycle, population: ${a}, bioburden: ${b}, exposure: ${c}, half_cycle_exposure: ${b}, indicators: 3, indicators_with_growth: 0`,
        `kind: endotoxin, contact: general, devices: 7, volume: ${a}, concentration: ${b}, sensitivity: ${c}, dilution: 1`,
        `kind: endotoxin, contact: dose, threshold: ${a}, dose: ${b}, concentration: ${c}`,
        `kind: residues, contact: limited, body_mass: ${a}, measured: [{ substance: ethylene oxide, period: first day, amount: ${b}, unit: mg }, { substance: ethylene oxide, period: surface, amount: ${c}, unit: ug/cm2 }]`,
      ]) {
        const result = calculated(calculation);
        expect(result.reason).toBeTruthy();
        expect(result.reason).not.toMatch(/NaN|Infinity/);
        for (const { value: number } of result.characteristics[0]?.values ?? [])
          expect(Number.isNaN(number)).toBe(false);
      }
    }),
    { seed: 20260618, numRuns: 60 },
  );
});

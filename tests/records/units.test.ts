import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  isKnownUnit,
  unitCode,
  unitConverter,
  unitInBase,
  unitText,
  withUnit,
} from '../../src/records/units.ts';

const converted = (value: number, from: string, to: string): number | undefined =>
  unitConverter(from, to)?.(value);

describe('conversions', () => {
  // SI Brochure, 9th edition (2019): prefixes (table 7), °C (2.3.1), units with special names (table 4), litre, minute, hour, day (table 8).
  test.each([
    [1, 'mL', 'mm3', 1000],
    [0.5, 'cm3', 'mm3', 500],
    [1, 'L', 'cm3', 1000],
    [25, '°C', 'K', 298.15],
    [0, 'K', '°C', -273.15],
    [1, 'h', 's', 3600],
    [1, 'd', 'h', 24],
    [3, 'N.m', 'J', 3],
    [1, 'MPa', 'N/mm2', 1],
    [50, 'µm', 'mm', 0.05],
    [50, '%', '1', 0.5],
    [1, 'bar', 'kPa', 100],
  ])('%s %s in %s: %s by the SI Brochure', (value, from, to, expected) => {
    expect(converted(value, from, to)).toBeCloseTo(expected, 12);
  });

  // NIST Special Publication 811 (2008), appendix B.8: exact factors, or as many digits as it gives.
  test.each([
    [1, '[lbf_av]', 'N', 4.4482216152605],
    [1, 'lbf', 'N', 4.4482216152605],
    [1, '[in_i]', 'mm', 25.4],
    [1, 'kgf', 'N', 9.80665],
    [1, '[psi]', 'Pa', 6894.757293168],
    [1, '[lb_av]', 'kg', 0.45359237],
    [137, '[degF]', '°C', (137 - 32) / 1.8],
    [-40, '[degF]', 'Cel', -40],
  ])('%s %s in %s: %s by NIST SP 811', (value, from, to, expected) => {
    expect(Math.abs((converted(value, from, to) ?? 0) / expected - 1)).toBeLessThan(1e-9);
  });

  test('a seal strength per 15 mm is one per metre times 15 thousandths', () => {
    // Plain arithmetic: 1.5 N over 15 mm is 100 N over 1 m.
    expect(converted(1.5, 'N/15 mm', 'N/m')).toBeCloseTo(100, 10);
    expect(converted(0.1, 'N/mm', 'N/15mm')).toBeCloseTo(1.5, 12);
  });

  test.each([
    ['EU', 'CFU'],
    ['EU', '1'],
    ['EU/device', 'EU/mL'],
    ['EU/mL', 'CFU/mL'],
    ['N', 'mm'],
    ['N', 'N/15 mm'],
    ['mg', 'mL'],
    ['no such unit', 'N'],
    ['N', 'no such unit'],
    ['N', ''],
  ])('there is none from %s to %s', (from, to) => {
    expect(unitConverter(from, to)).toBeUndefined();
  });

  test('endotoxin units keep their name when the volume changes', () => {
    expect(converted(1, 'EU/mL', 'EU/L')).toBeCloseTo(1000, 9);
    expect(converted(7, '{EU}', 'EU')).toBe(7);
  });

  test('logarithmic units are not taken for straight lines', () => {
    expect(converted(2, 'B[W]', 'W')).toBeCloseTo(100, 9);
  });

  test('there and back is where it started', () => {
    const groups = [
      ['mm', 'um', 'm', '[in_i]', 'cm'],
      ['N', 'kN', 'mN', '[lbf_av]', 'kgf'],
      ['Cel', 'K', '[degF]'],
      ['mm3', 'mL', 'L', 'cm3'],
      ['s', 'min', 'h', 'd', 'wk'],
      ['Pa', 'kPa', 'MPa', '[psi]', 'mm[Hg]'],
    ];
    const pair = fc
      .constantFrom(...groups)
      .chain((group) => fc.tuple(fc.constantFrom(...group), fc.constantFrom(...group)));
    fc.assert(
      fc.property(pair, fc.double({ min: -1e6, max: 1e6, noNaN: true }), ([from, to], value) => {
        const there = unitConverter(from, to);
        const back = unitConverter(to, from);
        expect(there && back).toBeTruthy();
        // Offsets of temperatures leave an absolute error of some 1e-11 kelvin.
        expect(Math.abs((back?.(there?.(value) ?? 0) ?? 0) - value)).toBeLessThanOrEqual(
          1e-9 + Math.abs(value) * 1e-11,
        );
      }),
      { seed: 20260727, numRuns: 500 },
    );
  });
});

describe('names of units', () => {
  test.each([
    ['°C', 'Cel'],
    ['℃', 'Cel'],
    ['\u00b5m', 'um'],
    ['\u03bcm', 'um'],
    ['mm³', 'mm3'],
    ['N/15 mm', 'N/(15.mm)'],
    ['N/15mm', 'N/(15.mm)'],
    ['EU', '{EU}'],
    ['CFU/device', '{CFU}/{device}'],
    [' N ', 'N'],
    ['constructor', 'constructor'],
  ])('%s means %s', (written, code) => {
    expect(unitCode(written)).toBe(code);
    if (written !== 'constructor') expect(isKnownUnit(written)).toBe(true);
  });

  // Codes: UCUM 2.1, tables of prefixes and units; `{…}` is an annotation there.
  test.each([
    ['µg/device', 'ug/{device}', 'µg/device'],
    ['mg/device', 'mg/{device}', 'mg/device'],
    ['μg/mL', 'ug/mL', 'µg/mL'],
    ['EU/device', '{EU}/{device}', 'EU/device'],
    ['EU/mL', '{EU}/mL', 'EU/mL'],
    ['N/mm²', 'N/mm2', 'N/mm²'],
    ['cm³/min', 'cm3/min', 'cm³/min'],
    ['°C/min', 'Cel/min', '°C/min'],
    ['N·m', 'N.m', 'N·m'],
    ['kg·m/s²', 'kg.m/s2', 'kg·m/s²'],
    ['N/25 mm', 'N/(25.mm)', 'N/25 mm'],
    ['kΩ', 'kOhm', 'kΩ'],
    ['µmol/L', 'umol/L', 'µmol/L'],
    ['cm[H2O]', 'cm[H2O]', 'cm[H2O]'],
    ['10*3/uL', '10*3/uL', '10*3/µL'],
    ['[degF]', '[degF]', '°F'],
    ['[EU]', '[EU]', '[EU]'],
    ['weeks', 'wk', 'wk'],
    ['{stroke}', '{stroke}', 'stroke'],
  ])('%s is %s, printed %s', (written, code, printed) => {
    expect(unitCode(written)).toBe(code);
    expect(unitCode(code), 'a code is its own code').toBe(code);
    expect(isKnownUnit(written)).toBe(true);
    expect(unitText(written)).toBe(printed);
    expect(unitText(code)).toBe(printed);
  });

  test('a residue in µg for a device is held against a limit in mg for a device', () => {
    expect(converted(250, 'µg/device', 'mg/device')).toBeCloseTo(0.25, 12);
    expect(unitConverter('mg/device', 'mg/mL')).toBeUndefined();
    expect(unitConverter('mg/device', 'mg')).toBeUndefined();
  });

  test('are printed in the common form', () => {
    expect(unitText('Cel')).toBe('°C');
    expect(withUnit('20.1', 'mm3')).toBe('20.1 mm³');
    expect(withUnit(3, '1')).toBe('3');
    expect(isKnownUnit('furlongs')).toBe(false);
  });
});

describe('units in base units', () => {
  test.each([
    // SI Brochure, 9th edition: the newton is kg m s-2, the litre a cubic decimetre; UCUM counts mass in grams.
    ['mm', 1e-3, { m: 1 }],
    ['N', 1000, { g: 1, m: 1, s: -2 }],
    ['MPa', 1e9, { g: 1, m: -1, s: -2 }],
    ['mL', 1e-6, { m: 3 }],
    ['%', 0.01, {}],
    ['1', 1, {}],
    ['deg', Math.PI / 180, {}],
    ['rad', 1, {}],
    ['EU/mL', 1e6, { '{EU}': 1, m: -3 }],
    ['EU/device', 1, { '{EU}': 1, '{device}': -1 }],
    ['µm', 1e-6, { m: 1 }],
  ])('%s', (unit, factor, dimension) => {
    const found = unitInBase(unit);
    expect(found?.dimension).toEqual(dimension);
    expect(Math.abs((found?.factor ?? 0) / factor - 1)).toBeLessThan(1e-14);
  });

  test('offsets, scales, arbitrary units and words have none', () => {
    for (const unit of ['Cel', '°F', '[pH]', 'dB', '[iU]', 'furlongs', '{EU}/(mL.{device})'])
      expect(unitInBase(unit)).toBeUndefined();
  });

  test('agrees with the converter', () => {
    for (const [from, to] of [
      ['kN', 'N'],
      ['[psi]', 'kPa'],
      ['mg/mL', 'g/L'],
      ['N/15 mm', 'N/m'],
    ] as const) {
      const [a, b] = [unitInBase(from), unitInBase(to)];
      expect(a?.dimension).toEqual(b?.dimension);
      const ratio = (a?.factor ?? 0) / (b?.factor ?? 1);
      expect(Math.abs((unitConverter(from, to)?.(1) ?? 0) / ratio - 1)).toBeLessThan(1e-12);
    }
  });
});

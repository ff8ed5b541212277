import { describe, expect, test } from 'vitest';
import { keepTogether } from '../../src/writers/keep-together.ts';

const shown = (text: string): string => keepTogether(text).replaceAll('\u00a0', '~');

// ISO 80000-1:2022, 7.3.1 and 7.1.4: a space parts number and unit; both stand together (from memory).
describe('numbers and units on one line', () => {
  test.each([
    ['a gap of 8.0 mm at most', 'a gap of 8.0~mm at most'],
    ['for 72 h at 30 °C with 75 % RH', 'for 72~h at 30~°C with 75~% RH'],
    ['≥ 2.0 N/15 mm of the seal', '≥~2.0~N/15~mm of the seal'],
    ['17.0 to 23.0 mm³.', '17.0 to 23.0~mm³.'],
    ['45 ± 2 N', '45~±~2~N'],
    ['from 5 × 10⁻³ to 10⁻⁶ mol', 'from 5~×~10⁻³ to 10⁻⁶~mol'],
    ['at −3 °C or +0.05 mm', 'at −3~°C or +0.05~mm'],
    ['p < 0.0001', 'p <~0.0001'],
    ['P1 4 × 10⁻⁴, P2 0.05', 'P1~4~×~10⁻⁴, P2~0.05'],
    ['(12 µm)', '(12~µm)'],
    ['12.5 mg/mm³', '12.5~mg/mm³'],
  ])('%s', (plain, kept) => {
    expect(shown(plain)).toBe(kept);
  });

  test.each([
    'in 3 steps of 4 devices',
    'DO-03 mm',
    'VR-09 N is no number',
    'ISO 14971 and 8 samples',
    'x = y and a < b',
    'twice 2 men',
    'the 5 years of storage',
    '',
  ])('%s stays', (text) => {
    expect(keepTogether(text)).toBe(text);
  });

  test('takes time in proportion to the length of what nobody should write', () => {
    const begun = performance.now();
    keepTogether('9 '.repeat(100_000));
    keepTogether('9'.repeat(200_000));
    keepTogether('1.'.repeat(100_000));
    expect(performance.now() - begun).toBeLessThan(1500);
  });
});

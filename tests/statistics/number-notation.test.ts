import { describe, expect, test } from 'vitest';
import { plainNotation } from '../../src/document/plain-notation.ts';
import { printedNumber } from '../../src/statistics/number-notation.ts';

describe('numbers as printed', () => {
  // ISO 80000-1:2022, 7.3: the minus sign, the multiplication sign and powers of ten (from memory).
  test.each([
    ['-3', '−3'],
    ['-0.010000', '−0.010000'],
    ['1.2e-13', '1.2 × 10⁻¹³'],
    ['1.0e-6', '1.0 × 10⁻⁶'],
    ['1e-6', '10⁻⁶'],
    ['-4.01e+8', '−4.01 × 10⁸'],
    ['0.000001', '10⁻⁶'],
    ['0.0000250', '2.50 × 10⁻⁵'],
    ['1000000', '10⁶'],
    ['1500000', '1.5 × 10⁶'],
  ])('%s is printed as %s', (plain, printed) => {
    expect(printedNumber(plain)).toBe(printed);
  });

  test.each([
    '30',
    '0.0013',
    '0.90',
    '0.00000',
    '1234567',
    '2000',
    '2026-06-16',
    'DO-03',
    'L-001',
    '-',
    '1e',
    '',
    'not a number',
    '1,5',
  ])('%s stays', (text) => {
    expect(printedNumber(text)).toBe(text);
  });

  test('a cell of printed numbers goes back to the value for machines; words stay', () => {
    for (const value of [-3, 1.2e-13, 1e-6, 1000000, 1500000, 0.000001, -401000000, 0.5])
      expect(Number(plainNotation(printedNumber(String(value))))).toBe(value);
    expect(plainNotation('< 0.0001')).toBe('< 0.0001');
    for (const text of ['−', '− 3 N', 'about 10⁻⁶', '2026-06-16', 'DO-03', '10', '×'])
      expect(plainNotation(text)).toBe(text);
  });
});

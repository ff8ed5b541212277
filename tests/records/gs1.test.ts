import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { gs1CheckDigit, gtinProblem, isRealShortDate, readShortDate } from '../../src/records/gs1.ts';

describe('GS1 check digit', () => {
  test.each([
    ['GS1 Hong Kong, check digit calculator, worked example', '6291041500213'],
    ['GS1 India, "How to calculate the Check Digit", worked example', '8904000210037'],
    ['GS1 Sweden, "Så beräknas kontrollsiffran", worked example', '7300011000017'],
    ['GTIN-14 of GS1 examples in the range 950 (from memory)', '09501101530003'],
    ['GTIN-12, common example of a UPC-A symbol (from memory)', '036000291452'],
    ['GTIN-8, common example of an EAN-8 symbol (from memory)', '96385074'],
    ['demonstration device, unit (checked by hand)', '09520123456788'],
    ['demonstration device, carton (checked by hand)', '19520123456785'],
  ])('%s', (_, number) => {
    expect(gs1CheckDigit(number.slice(0, -1))).toBe(Number(number.at(-1)));
    expect(gtinProblem(number)).toBeUndefined();
  });

  test('the rule finds every single wrong digit', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 13, maxLength: 13 }),
        fc.integer({ min: 0, max: 12 }),
        fc.integer({ min: 1, max: 9 }),
        (digits, at, shift) => {
          const right = digits.join('');
          const wrong = digits.map((digit, index) => (index === at ? (digit + shift) % 10 : digit)).join('');
          expect(gs1CheckDigit(wrong)).not.toBe(gs1CheckDigit(right));
        },
      ),
    );
  });

  test('leading zeros make no difference, so the forms of a GTIN share their digit', () => {
    expect(gs1CheckDigit('03600029145')).toBe(gs1CheckDigit('0003600029145'));
  });

  test.each(['', '123', '0950110153000a', '095011015300034'])('"%s" is no GTIN', (text) => {
    expect(gtinProblem(text)).toEqual({ kind: 'form', expected: '8, 12, 13 or 14 digits' });
  });
});

describe('dates of six digits', () => {
  // YYMMDD with day 00 for a whole month: GS1 General Specifications, application identifiers 11 and 17 (from memory).
  test.each([
    ['290531', true],
    ['290500', true],
    ['280229', true],
    ['290229', false],
    ['000229', true],
    ['291301', false],
    ['290431', false],
    ['29053', false],
    ['2905311', false],
  ])('%s is a date: %s', (digits, real) => {
    expect(isRealShortDate(digits)).toBe(real);
  });

  // GS1 General Specifications: the century is that within 49 years before and 50 years after (from memory).
  test.each([
    ['290531', 2026, '2029-05-31', false],
    ['290500', 2026, '2029-05-31', true],
    ['280200', 2026, '2028-02-29', true],
    ['760101', 2026, '2076-01-01', false],
    ['770101', 2026, '1977-01-01', false],
    ['990101', 2026, '1999-01-01', false],
    ['050101', 2098, '2105-01-01', false],
  ])('%s near %i is %s', (digits, near, day, isWholeMonth) => {
    expect(readShortDate(digits, near)).toEqual({ day, isWholeMonth });
  });

  test('a date that does not exist is none', () => {
    expect(readShortDate('290231', 2026)).toBeUndefined();
  });
});

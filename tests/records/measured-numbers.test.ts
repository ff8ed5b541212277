import { describe, expect, test } from 'vitest';
import { measuredNumbersIn } from '../../src/records/measured-numbers.ts';
import { holdsWording, withoutWordings } from '../../src/records/plain-words.ts';
import { processorMilliseconds } from '../support/processor-time.ts';

describe('numbers with units', () => {
  test.each([
    ['17 to 23 mm³ at a squeeze', ['17', '23']],
    ['not over 25 N', ['25']],
    ['ready within 60 s or 1.5 min', ['60', '1.5']],
    ['9 of 10 surgeons', ['9', '10']],
    ['0,5 cm³, 99 % of all, 30 °C', ['0,5', '99', '30']],
    ['3 years of storage, 2 times', ['3', '2']],
    ['25 squeezes, section 4, 12 Harrow Lane, DGA-1, 2026-11-18, revision 1', []],
    ['5 Newfoundlands, 10 minus 3, 7 days', ['7']],
  ])('%s', (text, numbers) => {
    expect(measuredNumbersIn(text).map(({ number }) => number)).toEqual(numbers);
  });
});

describe('wordings in texts', () => {
  test('are found over lines and marks, and not within a longer word or number', () => {
    expect(holdsWording('It takes **25 N**\nor less.', '25 N or less')).toBe(true);
    expect(holdsWording('It takes 25 N or less', '5 N or less')).toBe(false);
    expect(holdsWording('It takes 1.5 N or less', '5 N or less')).toBe(false);
    expect(holdsWording('5 N or lesser', '5 N or less')).toBe(false);
    expect(holdsWording('anything', '  ')).toBe(false);
    expect(holdsWording('f(x) = [a|b] $', 'f(x) = [a|b] $')).toBe(true);
  });

  test('are blanked, the longest first, with all offsets as they were', () => {
    const text = 'Store at 10 to 30 °C. 10 to 30 °C';
    const left = withoutWordings(text, ['10 to 30 °C', 'Store at 10 to 30 °C']);
    expect(left).toBe(`${' '.repeat(20)}. ${' '.repeat(11)}`);
    expect(withoutWordings('3 years, 13 years', ['3 years'])).toBe('       , 13 years');
  });

  test('take time in proportion to long texts', () => {
    const start = processorMilliseconds();
    const text = '25 N or 3 to '.repeat(20_000);
    measuredNumbersIn(text);
    withoutWordings(text, ['25 N or 3 to 25 N or 4']);
    expect(processorMilliseconds() - start).toBeLessThan(5000);
  });
});

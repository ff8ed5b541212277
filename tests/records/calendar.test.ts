import { expect, test } from 'vitest';
import { isDateShaped, isRealDate } from '../../src/records/calendar.ts';

// Leap years of the Gregorian calendar: ISO 8601; 2000 was one, 1900 and 2100 are not.
test.each([
  ['2026-02-28', true],
  ['2026-02-29', false],
  ['2028-02-29', true],
  ['2000-02-29', true],
  ['1900-02-29', false],
  ['2100-02-29', false],
  ['2026-02-30', false],
  ['2026-04-31', false],
  ['2026-13-01', false],
  ['2026-00-10', false],
  ['2026-01-00', false],
  ['2026-12-31', true],
])('%s is a day: %s', (text, real) => {
  expect(isDateShaped(text)).toBe(true);
  expect(isRealDate(text)).toBe(real);
});

test.each(['2026-1-1', '26-01-01', '2026/01/01', 'soon', ''])('"%s" is not written as a date', (text) => {
  expect(isDateShaped(text)).toBe(false);
  expect(isRealDate(text)).toBe(false);
});

test('agrees with the calendar of JavaScript for every day of 1990 to 2040', () => {
  let days = 0;
  for (let year = 1990; year <= 2040; year += 1)
    for (let month = 1; month <= 12; month += 1)
      for (let day = 1; day <= 31; day += 1) {
        const text = `${year}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
        const date = new Date(Date.UTC(year, month - 1, day));
        expect(isRealDate(text), text).toBe(date.toISOString().startsWith(text));
        if (isRealDate(text)) days += 1;
      }
  expect(days).toBe(51 * 365 + 13);
});

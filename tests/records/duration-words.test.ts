import { describe, expect, test } from 'vitest';
import { dayAfter, daysOf, durationOf, durationsIn, sameDuration } from '../../src/records/duration-words.ts';

describe('lengths of time in words', () => {
  test.each([
    ['3 years', { count: 3, unit: 'year' }],
    ['36 months', { count: 36, unit: 'month' }],
    ['a three-year shelf life', { count: 3, unit: 'year' }],
    ['1095 days', { count: 1095, unit: 'day' }],
    ['1 year', { count: 1, unit: 'year' }],
  ])('%s', (text, duration) => {
    expect(durationOf(text)).toEqual(duration);
  });

  test.each(['3 yearly reviews', 'for years', '2.3 years of', 'version 13'])('none in "%s"', (text) => {
    expect(durationsIn(text)).toEqual([]);
  });

  test('three years are 36 months and, counted for ageing, 1095 days', () => {
    expect(sameDuration({ count: 3, unit: 'year' }, { count: 36, unit: 'month' })).toBe(true);
    expect(sameDuration({ count: 3, unit: 'year' }, { count: 1095, unit: 'day' })).toBe(true);
    expect(sameDuration({ count: 3, unit: 'year' }, { count: 35, unit: 'month' })).toBe(false);
    expect(daysOf({ count: 36, unit: 'month' })).toBe(1095);
  });

  test('days of the calendar', () => {
    expect(dayAfter('2026-06-01', { count: 3, unit: 'year' })).toBe('2029-06-01');
    expect(dayAfter('2024-02-29', { count: 1, unit: 'year' })).toBe('2025-02-28');
    expect(dayAfter('2026-01-12', { count: 137, unit: 'day' })).toBe('2026-05-29');
    expect(dayAfter('2026-02-30', { count: 1, unit: 'day' })).toBeUndefined();
  });
});

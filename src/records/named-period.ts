import { daysInMonth } from './calendar.ts';
import type { Period } from './period.ts';

const twoDigits = (value: number): string => String(value).padStart(2, '0');

const months = (year: string, first: number, count: number): Period => {
  const last = first + count - 1;
  return {
    from: `${year}-${twoDigits(first)}-01`,
    to: `${year}-${twoDigits(last)}-${twoDigits(daysInMonth(Number(year), last))}`,
  };
};

/**
 * First and last day of a period that is named in one of the usual ways: a year (2027), a half (2027-H1), a quarter
 * (2027-Q1) or a month (2027-01). Undefined for any other name.
 */
export const namedPeriod = (name: string): Period | undefined => {
  const [, year, part, number, month] = /^(\d{4})(?:-?([HQ])([1-4])|-(\d{2}))?$/i.exec(name.trim()) ?? [];
  if (year === undefined) return undefined;
  if (month !== undefined)
    return Number(month) >= 1 && Number(month) <= 12 ? months(year, Number(month), 1) : undefined;
  if (part === undefined) return months(year, 1, 12);
  const size = part.toUpperCase() === 'H' ? 6 : 3;
  const first = (Number(number) - 1) * size + 1;
  return first <= 12 ? months(year, first, size) : undefined;
};

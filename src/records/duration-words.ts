import { isRealDate, monthsLater } from './calendar.ts';
import { oncePerText } from './once-per-text.ts';

/** A length of time as people write it on labels. */
export interface Duration {
  readonly count: number;
  readonly unit: 'day' | 'month' | 'year';
}

const numbers: Readonly<Record<string, number>> = {
  one: 1,
  two: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  seven: 7,
  eight: 8,
  nine: 9,
  ten: 10,
};

const pattern =
  /(?<![\d.,])(\d{1,4}|one|two|three|four|five|six|seven|eight|nine|ten)[\s\u00a0-]{1,3}(day|month|year)s?\b/gi;

/** Lengths of time in a text, with their places: `3 years`, `36 months`, `three-year`. */
export const durationsIn = oncePerText(
  (text): readonly { readonly duration: Duration; readonly offset: number; readonly text: string }[] =>
    [...text.matchAll(pattern)].map((match) => ({
      duration: {
        count: numbers[(match[1] ?? '').toLowerCase()] ?? Number(match[1]),
        unit: (match[2] ?? '').toLowerCase() as Duration['unit'],
      },
      offset: match.index,
      text: match[0].replace(/\s+/g, ' '),
    })),
);

/** The length of time that a text consists of or starts with; undefined where it has none. */
export const durationOf = (text: string): Duration | undefined => durationsIn(text)[0]?.duration;

/** About how many days; a year has 365, as shelf lives are counted in accelerated ageing. */
export const daysOf = ({ count, unit }: Duration): number =>
  unit === 'day' ? count : unit === 'year' ? count * 365 : Math.round((count * 365) / 12);

/** Whether two lengths are the same: 3 years are 36 months. */
export const sameDuration = (a: Duration, b: Duration): boolean => {
  const months = ({ count, unit }: Duration): number | undefined =>
    unit === 'day' ? undefined : unit === 'year' ? count * 12 : count;
  const [left, right] = [months(a), months(b)];
  return left === undefined || right === undefined ? daysOf(a) === daysOf(b) : left === right;
};

/** ISO date of the day that lies a length of time after another. Undefined where the day is no day of the calendar. */
export const dayAfter = (day: string, { count, unit }: Duration): string | undefined => {
  if (!isRealDate(day)) return undefined;
  if (unit !== 'day') return monthsLater(day, unit === 'year' ? count * 12 : count);
  return new Date(Date.parse(`${day}T00:00:00Z`) + count * 86_400_000).toISOString().slice(0, 10);
};

/** Days from one ISO date to another. */
export const daysBetween = (from: string, to: string): number =>
  Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / 86_400_000);

/** An ISO date such as 2026-06-01. */
const isoDate = /^\d{4}-\d{2}-\d{2}$/;

/** The day after an ISO date; undefined where the text is no day of the calendar. */
export const dayAfter = (date: string): string | undefined => {
  const time = isoDate.test(date) ? Date.parse(`${date}T00:00:00Z`) : Number.NaN;
  return Number.isNaN(time) ? undefined : new Date(time + 86_400_000).toISOString().slice(0, 10);
};

/** First and last day of a period, both counted. */
export interface Period {
  readonly from: string;
  readonly to: string;
}

/** The first day of a period that none of the others holds; undefined where they cover it wholly. */
export const firstUncoveredDay = (period: Period, cover: readonly Period[]): string | undefined => {
  let day: string | undefined = period.from;
  while (day !== undefined && day <= period.to) {
    const now: string = day;
    const holding = cover.filter((each) => each.from <= now && each.to >= now);
    if (holding.length === 0) return now;
    const ends = holding.map((each) => each.to).sort();
    day = dayAfter(ends.at(-1) ?? now);
  }
  return undefined;
};

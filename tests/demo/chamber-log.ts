import { randomStream } from './pseudo-random.ts';

/** One run of the ageing chamber: the log holds a value for every second hour. */
export interface ChamberRun {
  readonly seed: number;
  /** First moment in the log, UTC, such as `2026-01-12T10:00Z`. */
  readonly start: string;
  readonly days: number;
  /** Entries on which the door had been open, with the temperature that was logged then. */
  readonly doorOpen: Readonly<Record<number, number>>;
}

/** The two runs that AN-21 tells of. The logger's clock is not put forward in summer. */
export const chamberRuns = {
  first: { seed: 2101, start: '2026-01-12T10:00Z', days: 137, doorOpen: { 441: 53.6, 1080: 54.1 } },
  second: { seed: 2102, start: '2026-05-30T10:00Z', days: 137, doorOpen: { 700: 53.9 } },
} as const satisfies Readonly<Record<string, ChamberRun>>;

const within = (value: number, low: number, high: number): number => Math.max(low, Math.min(high, value));

/** Moment, temperature in °C and relative humidity in per cent, as the logger writes them. */
export const chamberLog = ({ seed, start, days, doorOpen }: ChamberRun): readonly (readonly string[])[] => {
  const random = randomStream(seed);
  const first = Date.parse(start);
  let drift = 0;
  return Array.from({ length: days * 12 + 1 }, (_, entry) => {
    drift = 0.9 * drift + 0.05 * random.bell();
    const temperature = within(55.05 + drift + 0.08 * random.bell(), 54.5, 55.6);
    const humidity = within(18 + 1.3 * random.bell(), 14, 22);
    return [
      new Date(first + entry * 7_200_000).toISOString().slice(0, 16).replace('T', ' '),
      (doorOpen[entry] ?? temperature).toFixed(1),
      humidity.toFixed(0),
    ];
  });
};

import { randomStream } from './pseudo-random.ts';

/** What the invented bioburden counts must come to: a mean in whole counts and the largest of them. */
export const bioburdenPlan = {
  seed: 1401,
  count: 30,
  mean: 12,
  largest: 31,
  median: 10.9,
  logDeviation: 0.42,
};

/** e to the power of x as (1 + x/64)^64 by squaring, which is the same on every machine. */
const growth = (x: number): number => {
  let value = 1 + x / 64;
  for (let turn = 0; turn < 6; turn += 1) value *= value;
  return value;
};

/** Counts with a long tail to the right, as colony counts have, with the planned mean and largest count. */
export const bioburdenCounts = (): readonly number[] => {
  const { seed, count, mean, largest, median, logDeviation } = bioburdenPlan;
  for (let attempt = 0; attempt < 20_000; attempt += 1) {
    const random = randomStream(seed * 3001 + attempt);
    const counts = Array.from({ length: count }, () =>
      Math.round(median * growth(logDeviation * random.bell())),
    );
    const total = counts.reduce((sum, each) => sum + each, 0);
    if (total === mean * count && Math.max(...counts) === largest && Math.min(...counts) >= 4) return counts;
  }
  throw new Error('no counts found');
};

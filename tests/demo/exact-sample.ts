import { type RandomStream, randomStream } from './pseudo-random.ts';

/** What the invented readings of one characteristic must come to. */
export interface SamplePlan {
  readonly seed: number;
  readonly count: number;
  readonly mean: number;
  readonly standardDeviation: number;
  /** Decimals of the recorded readings. */
  readonly decimals: number;
  /** No reading lies below or above these, where given. */
  readonly smallest?: number;
  readonly largest?: number;
}

/**
 * Readings that look like measurements and whose mean and standard deviation (n - 1), computed from the recorded
 * decimals, are the planned ones: the mean exactly, the variance to within one squared step in the sum of squares.
 * All arithmetic is on whole steps of the last decimal. Samples with a lopsided or long-tailed shape are drawn again.
 */
export const exactSample = (plan: SamplePlan): readonly string[] => {
  for (let attempt = 0; attempt < 1000; attempt += 1) {
    const random = randomStream(plan.seed * 1009 + attempt);
    const steps = fitted(plan, random);
    if (steps && withinBounds(plan, steps) && looksBellShaped(steps))
      return steps.map((step) => (step / 10 ** plan.decimals).toFixed(plan.decimals));
  }
  throw new Error(`no sample found for seed ${plan.seed}`);
};

const fitted = (plan: SamplePlan, random: RandomStream): readonly number[] | undefined => {
  const { count, mean, standardDeviation, decimals } = plan;
  const scale = 10 ** decimals;
  const raw = Array.from({ length: count }, random.bell);
  const rawMean = raw.reduce((sum, value) => sum + value, 0) / count;
  const rawDeviation = Math.sqrt(raw.reduce((sum, value) => sum + (value - rawMean) ** 2, 0) / (count - 1));
  const steps = raw.map((value) =>
    Math.round((mean + ((value - rawMean) / rawDeviation) * standardDeviation) * scale),
  );
  const total = Math.round(mean * count * scale);
  let missing = total - steps.reduce((sum, step) => sum + step, 0);
  while (missing !== 0) {
    const index = random.whole(count);
    steps[index] = steps[index]! + Math.sign(missing);
    missing -= Math.sign(missing);
  }
  // Moving one step from one reading to another keeps the sum and changes the squares by an even number.
  const wanted = (count - 1) * (standardDeviation * scale) ** 2 + total ** 2 / count;
  let squares = steps.reduce((sum, step) => sum + step ** 2, 0);
  for (let turn = 0; turn < 200_000 && Math.abs(squares - wanted) > 1; turn += 1) {
    const [up, down] = [random.whole(count), random.whole(count)];
    const change = 2 * (steps[up]! - steps[down]!) + 2;
    if (up === down || Math.abs(squares + change - wanted) >= Math.abs(squares - wanted)) continue;
    steps[up] = steps[up]! + 1;
    steps[down] = steps[down]! - 1;
    squares += change;
  }
  return Math.abs(squares - wanted) <= 1 ? steps : undefined;
};

const withinBounds = ({ decimals, smallest, largest }: SamplePlan, steps: readonly number[]): boolean =>
  steps.every(
    (step) =>
      step >= (smallest ?? Number.NEGATIVE_INFINITY) * 10 ** decimals &&
      step <= (largest ?? Number.POSITIVE_INFINITY) * 10 ** decimals,
  );

/** Skewness within 0.5 and excess kurtosis within 1 of the normal distribution. */
const looksBellShaped = (steps: readonly number[]): boolean => {
  const mean = steps.reduce((sum, step) => sum + step, 0) / steps.length;
  const moment = (power: number): number =>
    steps.reduce((sum, step) => sum + (step - mean) ** power, 0) / steps.length;
  const variance = moment(2);
  return (
    Math.abs(moment(3) / (variance * Math.sqrt(variance))) < 0.5 &&
    Math.abs(moment(4) / (variance * variance) - 3) < 1
  );
};

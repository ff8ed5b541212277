import { stirlingCorrection } from './stirling-correction.ts';

/** P(N = count) for a Poisson count with this mean, through Stirling's formula with its correction, so that large terms cancel on paper. */
function poissonMass(count: number, mean: number): number {
  if (count === 0) return Math.exp(-mean);
  const away = (mean - count) / count;
  return (
    Math.exp(-count * (away - Math.log1p(away)) - stirlingCorrection(count)) / Math.sqrt(2 * Math.PI * count)
  );
}

/** P(N <= count) for a Poisson count with mean above 0; summed from the largest term outwards, the nearer tail. */
export function poissonLowerTail(count: number, mean: number): number {
  return mean > count ? sumDown(count, mean) : 1 - sumUp(count + 1, mean);
}

/** P(N >= count) for a Poisson count with mean above 0. 1 for a count of 0. */
export function poissonUpperTail(count: number, mean: number): number {
  if (count === 0) return 1;
  return mean < count ? sumUp(count, mean) : 1 - sumDown(count - 1, mean);
}

function sumDown(from: number, mean: number): number {
  let term = poissonMass(from, mean);
  let sum = 0;
  for (let at = from; at >= 0 && term > sum * 1e-17; at -= 1) {
    sum += term;
    term *= at / mean;
  }
  return sum;
}

function sumUp(from: number, mean: number): number {
  let term = poissonMass(from, mean);
  let sum = 0;
  for (let at = from; term > sum * 1e-17; at += 1) {
    sum += term;
    term *= mean / (at + 1);
  }
  return sum;
}

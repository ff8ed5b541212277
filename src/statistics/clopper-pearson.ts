import { requireCount, requireOpenProbability } from './argument-checks.ts';
import { betaQuantile } from './distributions.ts';

/** Limits of a share between 0 and 1. */
export interface ProportionLimits {
  readonly lower: number;
  readonly upper: number;
}

/**
 * Exact (Clopper-Pearson) confidence limits of a share of which `count` were seen in `sampleSize` trials, from beta
 * quantiles. `lower` and `upper` put all risk on one side, the other limit is then 0 or 1; `both` halves it. Throws a
 * RangeError on arguments out of range.
 *
 * Source: Clopper and Pearson, Biometrika 26 (1934); NIST/SEMATECH e-Handbook 7.2.4.1.
 */
export function clopperPearsonLimits({
  count,
  sampleSize,
  confidence,
  sides,
}: {
  readonly count: number;
  readonly sampleSize: number;
  readonly confidence: number;
  readonly sides: 'lower' | 'upper' | 'both';
}): ProportionLimits {
  requireCount('sampleSize', sampleSize, 1);
  requireCount('count', count, 0);
  if (count > sampleSize)
    throw new RangeError(`count is ${count}; it must not exceed sampleSize, ${sampleSize}`);
  requireOpenProbability('confidence', confidence);
  const risk = sides === 'both' ? (1 - confidence) / 2 : 1 - confidence;
  return {
    lower: sides === 'upper' ? 0 : lowerLimit(count, sampleSize, risk),
    // The upper limit is the mirror image: the lower limit of the share not seen.
    upper: sides === 'lower' ? 1 : 1 - lowerLimit(sampleSize - count, sampleSize, risk),
  };
}

function lowerLimit(count: number, sampleSize: number, risk: number): number {
  if (count === 0) return 0;
  if (count === sampleSize) return Math.exp(Math.log(risk) / sampleSize);
  return betaQuantile(risk, count, sampleSize - count + 1);
}

/** What a gauge study says of each source of variation, whatever the design of the study. */
import type { Interval } from './variance-interval.ts';

export interface GaugeReading {
  readonly part: string;
  readonly operator: string;
  readonly value: number;
}

export interface GaugeComponent {
  readonly variance: number;
  readonly standardDeviation: number;
  /** Variance in per cent of the total variance. */
  readonly percentContribution: number;
  /** Standard deviation in per cent of the total standard deviation. */
  readonly percentStudyVariation: number;
  /** Study width times standard deviation in per cent of the tolerance; only where a tolerance was given. */
  readonly percentTolerance?: number;
  /** Confidence limits, where the method gives them. */
  readonly limits?: {
    readonly variance: Interval;
    readonly standardDeviation: Interval;
    readonly percentTolerance?: Interval;
  };
}

export interface ComponentScale {
  readonly total: number;
  readonly tolerance?: number;
  readonly studyWidth: number;
}

/**
 * A source of variation in all the ways in which it is stated.
 *
 * Source: AIAG, Measurement Systems Analysis, 4th edition, gauge report: study variation = width x standard
 * deviation, per cent of the total and of the tolerance (from memory).
 */
export function gaugeComponent(
  variance: number,
  { total, tolerance, studyWidth }: ComponentScale,
  limits?: Interval,
): GaugeComponent {
  const standardDeviation = Math.sqrt(variance);
  const ofTolerance = (deviation: number, width: number): number => (100 * studyWidth * deviation) / width;
  const deviations = limits && { lower: Math.sqrt(limits.lower), upper: Math.sqrt(limits.upper) };
  return {
    variance,
    standardDeviation,
    percentContribution: (100 * variance) / total,
    percentStudyVariation: 100 * Math.sqrt(variance / total),
    ...(tolerance !== undefined && { percentTolerance: ofTolerance(standardDeviation, tolerance) }),
    ...(limits &&
      deviations && {
        limits: {
          variance: limits,
          standardDeviation: deviations,
          ...(tolerance !== undefined && {
            percentTolerance: {
              lower: ofTolerance(deviations.lower, tolerance),
              upper: ofTolerance(deviations.upper, tolerance),
            },
          }),
        },
      }),
  };
}

/**
 * Number of distinct categories, floor(sqrt 2 x part / gauge standard deviation): how many groups of parts the gauge
 * can tell apart.
 *
 * Source: AIAG, Measurement Systems Analysis, 4th edition (from memory).
 */
export function distinctCategories(partVariance: number, gaugeVariance: number): number {
  return Math.floor(Math.SQRT2 * Math.sqrt(partVariance / gaugeVariance));
}

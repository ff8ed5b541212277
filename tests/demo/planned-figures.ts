import type { SamplePlan } from './exact-sample.ts';
import type { GaugePlan } from './gauge-readings.ts';

const plan = (
  seed: number,
  count: number,
  mean: number,
  standardDeviation: number,
  decimals: number,
  bounds: { readonly smallest?: number; readonly largest?: number } = {},
): SamplePlan => ({ seed, count, mean, standardDeviation, decimals, ...bounds });

/** Invented samples of the demonstration device. */
export const samplePlans = {
  squeezeForceFresh: plan(101, 30, 19.6, 1.35, 2, { largest: 25 }),
  squeezeForceAged: plan(102, 30, 21.05, 1.42, 2, { largest: 25 }),
  openSpan: plan(201, 30, 63.1, 0.38, 2),
  padTravel: plan(202, 30, 6.04, 0.11, 2),
  volumePerStroke: plan(301, 30, 20.05, 0.62, 2, { smallest: 17, largest: 23 }),
  totalVolume: plan(401, 30, 501.3, 4.9, 2),
  residualVolume: plan(501, 30, 24.6, 1.4, 2, { largest: 30 }),
  backDrive: plan(701, 30, 88.4, 6.1, 2),
  tipDiameter: plan(801, 30, 5.006, 0.014, 3),
  reach: plan(802, 30, 45.04, 0.13, 2),
  retentionFresh: plan(901, 30, 51.8, 5.9, 2, { smallest: 30 }),
  retentionAged: plan(902, 30, 47.2, 5.9, 2, { smallest: 33 }),
  retentionAgedRevisionB: plan(903, 30, 52, 5.4, 2, { smallest: 30 }),
  bending: plan(1001, 30, 46, 5.2, 2, { smallest: 20 }),
  particlesFrom10: plan(1801, 10, 1840, 310, 0),
  particlesFrom25: plan(1802, 10, 148, 34, 0),
  sealStrength: plan(1901, 60, 2.61, 0.27, 2, { smallest: 1.5 }),
  sealStrengthFresh: plan(1902, 60, 2.8, 0.25, 2, { smallest: 1.5 }),
  timeToReady: plan(3001, 30, 41.2, 6.3, 1, { largest: 58 }),
  loadingTime: plan(3002, 30, 20.4, 3.1, 1, { largest: 29 }),
} as const;

/** Invented gauge studies of the demonstration device. */
export const gaugePlans: Readonly<Record<'force' | 'volume', GaugePlan>> = {
  force: { seed: 11, partMean: 19.6, partDeviation: 2, tolerance: 10.8, percentTolerance: 14.2 },
  volume: { seed: 12, partMean: 20.05, partDeviation: 1.3, tolerance: 6, percentTolerance: 18.6 },
};

interface PrintedFigure {
  readonly file: string;
  readonly column: string;
  readonly plan: SamplePlan;
  readonly perUnit?: 'maximum';
  readonly confidence: number;
  readonly reliability: number;
  /** Printed tolerance bounds. */
  readonly lower?: string;
  readonly upper?: string;
}

const figure = (
  file: string,
  column: string,
  sample: SamplePlan,
  reliability: number,
  bounds: { readonly lower?: string; readonly upper?: string; readonly perUnit?: 'maximum' },
): PrintedFigure => ({ file, column, plan: sample, confidence: 0.95, reliability, ...bounds });

/** What section 7 of the description of the demonstration device prints (invented; factors by ISO 16269-6). */
export const printedFigures: readonly PrintedFigure[] = [
  figure('VR-01', 'force', samplePlans.squeezeForceFresh, 0.95, { upper: '22.60', perUnit: 'maximum' }),
  figure('VR-01A', 'force', samplePlans.squeezeForceAged, 0.95, { upper: '24.20', perUnit: 'maximum' }),
  figure('VR-03', 'volume', samplePlans.volumePerStroke, 0.95, { lower: '18.47', upper: '21.63' }),
  figure('VR-05', 'residual', samplePlans.residualVolume, 0.9, { upper: '27.09' }),
  figure('VR-07', 'force', samplePlans.backDrive, 0.9, { lower: '77.56' }),
  figure('VR-09', 'force', samplePlans.retentionFresh, 0.99, { lower: '33.72' }),
  figure('VR-09A', 'force', samplePlans.retentionAged, 0.99, { lower: '29.12' }),
  figure('VR-09B', 'force', samplePlans.retentionAgedRevisionB, 0.99, { lower: '35.45' }),
  figure('VR-10', 'force', samplePlans.bending, 0.99, { lower: '30.07' }),
  figure('VR-19', 'strength', samplePlans.sealStrength, 0.99, { lower: '1.85' }),
];

import { biasPlot } from '../../src/figures/bias-plot.ts';
import { conditioningTree } from '../../src/figures/conditioning-tree.ts';
import type { Drawing } from '../../src/figures/drawing.ts';
import { gateBars } from '../../src/figures/gate-bars.ts';
import { groupPlot } from '../../src/figures/group-plot.ts';
import { histogram } from '../../src/figures/histogram.ts';
import { attributePlan, operatingCharacteristic } from '../../src/figures/operating-characteristic.ts';
import { probabilityPlot } from '../../src/figures/probability-plot.ts';
import { rateChart } from '../../src/figures/rate-chart.ts';
import { riskMap } from '../../src/figures/risk-map.ts';
import { runChart } from '../../src/figures/run-chart.ts';
import { contributorBars, shareBars } from '../../src/figures/share-bars.ts';

/** Twenty readings around 33, one of them below 30. */
export const readings: readonly number[] = [
  33.1, 32.4, 34.0, 31.2, 33.8, 32.9, 35.1, 30.6, 33.3, 34.4, 29.8, 32.1, 33.6, 31.9, 34.9, 32.6, 33.0, 31.5,
  33.9, 32.8,
];
export const mean = readings.reduce((sum, value) => sum + value, 0) / readings.length;
export const standardDeviation = Math.sqrt(
  readings.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (readings.length - 1),
);

const lower = { label: 'lower limit 30 N', value: 30 };
const upper = { label: 'upper limit 36 N', value: 36 };
const bound = { label: '95/99 lower tolerance bound 28.21 N', value: 28.21 };
const base = { characteristic: 'tip retention force', unit: 'N', values: readings, decimals: 2 };

/** Each figure on readings of a usual kind. */
export const sampleFigures = (
  values: readonly number[] = readings,
): Readonly<Record<string, Drawing | undefined>> => ({
  histogram: histogram({
    ...base,
    values,
    limits: [lower, upper],
    bounds: [bound],
    normal: { mean, standardDeviation },
  }),
  'probability plot': probabilityPlot({
    ...base,
    values,
    mean,
    standardDeviation,
    lower,
    upper,
    bounds: [bound],
    test: 'Anderson-Darling A² 0.312, p 0.532',
  }),
  'run chart': runChart({
    ...base,
    values,
    lower,
    lines: [{ label: `mean ${mean.toFixed(2)} N`, value: mean }],
  }),
  'operating characteristic': operatingCharacteristic({
    plans: [attributePlan(59, 0), attributePlan(93, 1)],
    upTo: 0.1,
    marks: [{ share: 0.05, label: '95 % reliability' }],
  }),
  'rate chart': rateChart({
    subject: 'seal defects, RK-01',
    periods: [
      { name: '2027-Q1', rate: 0.0008, lower: 0.0003, upper: 0.0016 },
      { name: '2027-Q2', rate: 0, lower: 0, upper: 0.0006 },
      { name: '2027-Q3', rate: 0.0011, lower: 0.0005, upper: 0.002 },
    ],
    marks: [{ label: 'end of band O3', value: 0.0018 }],
    confidence: '95 %',
  }),
  'group plot': groupPlot({
    characteristic: 'tip retention force',
    unit: 'N',
    decimals: 2,
    groups: [
      { name: 'fresh', values },
      { name: 'aged', values: values.map((value) => value - 2) },
    ],
  }),
  'gate bars': gateBars([
    { name: 'G1 design input', state: 'passed 2025-11-05', conditions: ['met', 'met', 'not met'] },
    { name: 'G2 transfer', state: 'planned 2026-12-18', conditions: ['met', 'for people to judge'] },
  ]),
  'risk map': riskMap({
    severities: ['S1', 'S2', 'S3'],
    bands: ['O1', 'O2', 'O3'],
    isAcceptable: (severity, band) => severity === 'S1' || band === 'O1',
    panels: [
      {
        title: 'Before control',
        risks: [
          { id: 'RK-01', severity: 'S3', band: 'O3' },
          { id: 'RK-02', severity: 'S3', band: 'O3' },
          { id: 'RK-03', severity: 'S2', band: undefined },
        ],
      },
      {
        title: 'After control',
        risks: [
          { id: 'RK-01', severity: 'S3', band: 'O1' },
          { id: 'RK-02', severity: 'S3', band: 'O1' },
          { id: 'RK-03', severity: 'S2', band: 'O1' },
        ],
      },
    ],
  }),
  'gauge components': shareBars({
    title: 'Components of variation',
    names: ['gauge', 'repeatability', 'reproducibility', 'part'],
    series: [
      { name: 'of total variance', shares: [3.6, 1, 2.6, 96.4] },
      { name: 'of study variation', shares: [19, 10, 16, 98.2] },
      { name: 'of tolerance', shares: [27, 14, 22.7, 140] },
    ],
    limit: { label: 'accepted up to 30 % of the tolerance', value: 30 },
  }),
  'contributor bars': contributorBars([
    { name: 'wall of DO-03', share: 12 },
    { name: 'bore', share: 61.3 },
    { name: 'spring rate', share: 26.7 },
  ]),
  'conditioning tree': conditioningTree({
    lots: 'L001, L002: 200 units',
    nodes: [
      { name: 'sterilised', step: 'sterilisation', units: 200, used: 200, depth: 0, draws: ['VR-01 30'] },
      {
        name: 'aged',
        step: 'accelerated ageing',
        units: 120,
        used: 100,
        depth: 1,
        when: '2026-01-12 to 2026-05-29',
        draws: ['VR-02 30', 'VR-03 again 30', 'VR-04 20', 'VR-05 29', 'VR-06 1', 'VR-07 10'],
      },
      { name: 'shipped <&>', step: 'transport', units: 10, used: 12, depth: 2, draws: ['VR-08 12'] },
      { name: 'shelf', step: 'real-time ageing', units: 50, used: 40, depth: 1, draws: [] },
    ],
  }),
  'bias plot': biasPlot({
    unit: 'N',
    decimals: 3,
    readings: [2, 6, 10].flatMap((reference) => [-0.03, 0, 0.03].map((bias) => ({ reference, bias }))),
    references: [2, 6, 10].map((reference) => ({ reference, bias: 0.01, lower: -0.05, upper: 0.07 })),
    line: [2, 10].map((reference) => ({ reference, bias: 0.01, lower: -0.01, upper: 0.03 })),
    accepted: 0.2,
  }),
});

import { normalQuantile } from '../statistics/distributions.ts';
import {
  bottomAxis,
  boundLook,
  type DrawnMark,
  leftAxis,
  limitLook,
  linearScale,
  type Plot,
  placeLabels,
  roundEnds,
  rowHeight,
  verticalMarks,
} from './axes.ts';
import { type Drawing, drawing, line, type Mark, numberText, point } from './drawing.ts';

export interface ProbabilityPlotInput {
  readonly characteristic: string;
  /** As printed; empty where there is none. */
  readonly unit: string;
  readonly values: readonly number[];
  readonly decimals: number;
  /** Of the line that the points would follow. */
  readonly mean: number;
  readonly standardDeviation: number;
  readonly lower?: Mark;
  readonly upper?: Mark;
  readonly bounds: readonly Mark[];
  /** The test of normality in words, for example `Anderson-Darling A² 0.312, p 0.532`. */
  readonly test?: string;
}

/** Shares of readings that the vertical axis names. */
const shares = [0.001, 0.01, 0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95, 0.99, 0.999];

/**
 * A normal probability plot: readings in order against the quantiles of the normal distribution at (i - 3/8) / (n + 1/4)
 * (Blom, Statistical Estimates and Transformed Beta Variables, 1958). Undefined where there is nothing to draw.
 */
export function probabilityPlot(input: ProbabilityPlotInput): Drawing | undefined {
  const { values, mean, standardDeviation, lower, upper, bounds, characteristic, unit, decimals, test } =
    input;
  const limits = [lower, upper].filter((mark) => mark !== undefined);
  const n = values.length;
  const ends = roundEnds([
    ...values,
    ...limits.map((mark) => mark.value),
    ...bounds.map((mark) => mark.value),
  ]);
  if (n < 2 || !ends || !(standardDeviation > 0) || !Number.isFinite(mean)) return undefined;
  const marks: readonly DrawnMark[] = [
    ...limits.map((mark) => ({ ...mark, look: limitLook })),
    ...bounds.map((mark) => ({ ...mark, look: boundLook })),
  ];
  const width = 640;
  const sides = { left: 58, right: width - 16 };
  const x = linearScale(ends[0], ends[1], sides.left, sides.right);
  const rows = placeLabels(marks, x, width);
  const top = 20 + rowHeight * Math.max(0, ...rows.map(({ row }) => row + 1));
  const plot: Plot = { ...sides, top, bottom: top + 280 };

  const scores = values
    .toSorted((one, other) => one - other)
    .map((value, index) => ({ value, score: normalQuantile((index + 1 - 0.375) / (n + 0.25)) }));
  const reach = Math.max(2.4, (scores.at(-1)?.score ?? 0) * 1.15);
  const y = linearScale(-reach, reach, plot.bottom, plot.top);
  const outside = (value: number): boolean =>
    (lower !== undefined && value < lower.value) || (upper !== undefined && value > upper.value);
  // The line is cut where it leaves the plot.
  const from = Math.max(-reach, (x.low - mean) / standardDeviation);
  const to = Math.min(reach, (x.high - mean) / standardDeviation);
  const show = (value: number): string => `${numberText(value, decimals)}${unit === '' ? '' : ` ${unit}`}`;
  const alternative = [
    `Normal probability plot of ${n} readings of ${characteristic}, from ${show(scores[0]?.value ?? 0)} to ${show(scores.at(-1)?.value ?? 0)}`,
    `line of mean ${show(mean)} and standard deviation ${show(standardDeviation)}`,
    ...(test === undefined ? [] : [test]),
    ...marks.map((mark) => mark.label),
  ].join('; ');
  return drawing(width, plot.bottom + 48, alternative, [
    leftAxis(
      y,
      plot,
      'share of readings below [%]',
      shares
        .filter((share) => Math.abs(normalQuantile(share)) <= reach)
        .map((share) => ({
          value: normalQuantile(share),
          text: String(Number((share * 100).toPrecision(6))),
        })),
    ),
    from < to
      ? line(
          x.at(mean + from * standardDeviation),
          y.at(from),
          x.at(mean + to * standardDeviation),
          y.at(to),
          { width: 1.5 },
        )
      : '',
    bottomAxis(x, plot, unit === '' ? characteristic : `${characteristic} [${unit}]`),
    verticalMarks(rows, x, plot),
    ...scores.map(({ value, score }) => point(x.at(value), y.at(score), outside(value))),
  ]);
}

import { bin, ticks } from 'd3-array';
import { normalDensity } from '../statistics/distributions.ts';
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
import { accent, bar, type Drawing, drawing, ink, type Mark, numberText, pale, polyline } from './drawing.ts';

export interface HistogramInput {
  /** What was measured, for the axis. */
  readonly characteristic: string;
  /** As printed; empty where there is none. */
  readonly unit: string;
  readonly values: readonly number[];
  readonly decimals: number;
  readonly limits: readonly Mark[];
  /** What was computed from the readings: bounds of tolerance or confidence. */
  readonly bounds: readonly Mark[];
  /** Mean and standard deviation of the normal curve that was fitted. */
  readonly normal?: { readonly mean: number; readonly standardDeviation: number };
}

/**
 * A histogram of readings with limits, bounds and the fitted curve. Classes have round edges, about as many as Sturges'
 * rule asks for (Journal of the American Statistical Association 21, 1926). Undefined where there is nothing to draw.
 */
export function histogram(input: HistogramInput): Drawing | undefined {
  const { values, limits, bounds, normal, characteristic, unit, decimals } = input;
  const ends = roundEnds([
    ...values,
    ...limits.map((mark) => mark.value),
    ...bounds.map((mark) => mark.value),
  ]);
  if (values.length === 0 || !ends) return undefined;
  const marks: readonly DrawnMark[] = [
    ...limits.map((mark) => ({ ...mark, look: limitLook })),
    ...bounds.map((mark) => ({ ...mark, look: boundLook })),
  ];
  const width = 640;
  const sides = { left: 58, right: width - 16 };
  const x = linearScale(ends[0], ends[1], sides.left, sides.right);
  const rows = placeLabels(marks, x, width);
  const top = 20 + rowHeight * Math.max(0, ...rows.map(({ row }) => row + 1));
  const plot: Plot = { ...sides, top, bottom: top + 240 };

  const classes = histogramClasses(values);
  const step = classes.step;
  const fit =
    normal && normal.standardDeviation > 0
      ? Array.from({ length: 121 }, (_, index): readonly [number, number] => {
          const value = x.low + ((x.high - x.low) * index) / 120;
          const density =
            normalDensity((value - normal.mean) / normal.standardDeviation) / normal.standardDeviation;
          return [value, density * values.length * step];
        })
      : [];
  const tallest = Math.max(...classes.list.map((each) => each.count), ...fit.map(([, count]) => count), 1);
  const yEnds = roundEnds([0, tallest * 1.02]) ?? [0, 1];
  const y = linearScale(0, yEnds[1], plot.bottom, plot.top);
  const bars = classes.list.map(({ from, to, count }) =>
    bar(x.at(from), y.at(count), x.at(to) - x.at(from), plot.bottom - y.at(count), {
      fill: pale,
      stroke: accent,
      width: 1,
    }),
  );
  return drawing(width, plot.bottom + 48, describe(input), [
    leftAxis(y, plot, 'readings in each class', wholeMarks(yEnds[1])),
    ...bars,
    fit.length > 0
      ? polyline(
          fit.map(([value, count]) => [x.at(value), y.at(count)]),
          { stroke: ink, width: 2 },
        )
      : '',
    bottomAxis(x, plot, unit === '' ? characteristic : `${characteristic} [${unit}]`),
    verticalMarks(rows, x, plot),
  ]);

  function describe({ values: all }: HistogramInput): string {
    const show = (value: number): string => `${numberText(value, decimals)}${unit === '' ? '' : ` ${unit}`}`;
    const smallest = all.reduce((one, other) => Math.min(one, other));
    const largest = all.reduce((one, other) => Math.max(one, other));
    return [
      `Histogram of ${all.length} reading${all.length === 1 ? '' : 's'} of ${characteristic}, from ${show(smallest)} to ${show(largest)}`,
      ...(normal
        ? [
            `fitted normal curve with mean ${show(normal.mean)} and standard deviation ${show(normal.standardDeviation)}`,
          ]
        : []),
      ...marks.map((mark) => mark.label),
    ].join('; ');
  }
}

/** Numbers of readings on the axis are whole. */
const wholeMarks = (high: number) =>
  ticks(0, high, 5)
    .filter(Number.isInteger)
    .map((value) => ({ value, text: String(value) }));

/** Classes with round edges that hold readings, from low to high, and how wide they are. Needs at least one value. */
export function histogramClasses(values: readonly number[]): {
  readonly step: number;
  readonly list: readonly { readonly from: number; readonly to: number; readonly count: number }[];
} {
  const low = values.reduce((one, other) => Math.min(one, other));
  const high = values.reduce((one, other) => Math.max(one, other));
  const wanted = Math.ceil(Math.log2(values.length)) + 1;
  const span = high - low || Math.abs(low) * 0.05 || 1;
  const edges = ticks(low - span / (2 * wanted), high + span / (2 * wanted), wanted + 1);
  const step = edges.length > 1 ? (edges.at(-1)! - edges[0]!) / (edges.length - 1) : span;
  const first = (edges[0] ?? low) - step;
  const inner = edges.length > 1 ? edges : [low - step / 2, low + step / 2];
  const groups = bin()
    .domain([first, inner.at(-1)! + step])
    .thresholds([...inner])([...values]);
  const list = groups.map((group) => ({ from: group.x0 ?? low, to: group.x1 ?? high, count: group.length }));
  return { step, list: list.filter((each) => each.count > 0) };
}

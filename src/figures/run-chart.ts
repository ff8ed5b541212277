import {
  bottomAxis,
  boundLook,
  type DrawnMark,
  horizontalMarks,
  leftAxis,
  limitLook,
  linearScale,
  type Plot,
  roundEnds,
} from './axes.ts';
import { type Drawing, drawing, type Mark, middle, numberText, point, polyline } from './drawing.ts';

export interface RunChartInput {
  readonly characteristic: string;
  /** As printed; empty where there is none. */
  readonly unit: string;
  /** In the order of the run. */
  readonly values: readonly number[];
  readonly decimals: number;
  readonly lower?: Mark;
  readonly upper?: Mark;
  /** Lines drawn dashed: mean, control limits. */
  readonly lines: readonly Mark[];
}

/** Readings in the order of the run, with limits and mean. Undefined where there is nothing to draw. */
export function runChart({
  characteristic,
  unit,
  values,
  decimals,
  lower,
  upper,
  lines,
}: RunChartInput): Drawing | undefined {
  const limits = [lower, upper].filter((mark) => mark !== undefined);
  const ends = roundEnds([
    ...values,
    ...limits.map((mark) => mark.value),
    ...lines.map((mark) => mark.value),
  ]);
  if (values.length === 0 || !ends) return undefined;
  const marks: readonly DrawnMark[] = [
    ...limits.map((mark) => ({ ...mark, look: limitLook })),
    ...lines.map((mark) => ({ ...mark, look: boundLook })),
  ];
  const width = 640;
  const plot: Plot = { left: 66, right: width - 160, top: 16, bottom: 256 };
  const y = linearScale(ends[0], ends[1], plot.bottom, plot.top);
  const x = linearScale(0, values.length + 1, plot.left, plot.right);
  const outside = (value: number): boolean =>
    (lower !== undefined && value < lower.value) || (upper !== undefined && value > upper.value);
  const show = (value: number): string => `${numberText(value, decimals)}${unit === '' ? '' : ` ${unit}`}`;
  const smallest = values.reduce((one, other) => Math.min(one, other));
  const largest = values.reduce((one, other) => Math.max(one, other));
  const beyond = values.filter(outside).length;
  const alternative = [
    `Run chart of ${values.length} reading${values.length === 1 ? '' : 's'} of ${characteristic} in the order of the file: smallest ${show(smallest)} at number ${values.indexOf(smallest) + 1}, largest ${show(largest)} at number ${values.indexOf(largest) + 1}`,
    ...marks.map((mark) => mark.label),
    ...(limits.length > 0 ? [`${beyond === 0 ? 'no reading' : beyond} outside the limits`] : []),
  ].join('; ');
  return drawing(width, plot.bottom + 48, alternative, [
    leftAxis(y, plot, unit === '' ? characteristic : `${characteristic} [${unit}]`),
    bottomAxis(x, plot, 'number of the reading, in the order of the file'),
    horizontalMarks(marks, y, plot),
    polyline(
      values.map((value, index) => [x.at(index + 1), y.at(value)]),
      { stroke: middle },
    ),
    ...values.map((value, index) => point(x.at(index + 1), y.at(value), outside(value))),
  ]);
}

import { bottomAxis, linearScale, type Plot, roundEnds } from './axes.ts';
import {
  type Drawing,
  diamond,
  drawing,
  fitted,
  line,
  numberText,
  point,
  quiet,
  rule,
  words,
} from './drawing.ts';

export interface GroupPlotInput {
  readonly characteristic: string;
  /** As printed; empty where there is none. */
  readonly unit: string;
  readonly decimals: number;
  /** The groups from top to bottom. */
  readonly groups: readonly { readonly name: string; readonly values: readonly number[] }[];
}

/** Rows over which the readings of a group are spread, so that equal ones stay visible. */
const lanes = 5;

/**
 * The readings of each group on a line of their own over one axis, with the mean of each as a diamond. Undefined where
 * there is nothing to draw.
 */
export function groupPlot({ characteristic, unit, decimals, groups }: GroupPlotInput): Drawing | undefined {
  const all = groups.flatMap((group) => group.values);
  const ends = roundEnds(all);
  if (!ends || groups.some((group) => group.values.length === 0)) return undefined;
  const width = 640;
  const height = 78;
  const plot: Plot = { left: 150, right: width - 20, top: 10, bottom: 10 + height * groups.length };
  const x = linearScale(ends[0], ends[1], plot.left, plot.right);
  const inUnit = unit === '' ? '' : ` ${unit}`;
  const meanOf = (values: readonly number[]): number =>
    values.reduce((sum, value) => sum + value, 0) / values.length;
  const show = (value: number): string => `${numberText(value, decimals)}${inUnit}`;
  const alternative = `${characteristic} by group: ${groups
    .map(
      ({ name, values }) =>
        `${name}, ${values.length} readings from ${show(Math.min(...values))} to ${show(Math.max(...values))}, mean ${show(meanOf(values))}`,
    )
    .join('; ')}`;
  return drawing(width, plot.bottom + 48, alternative, [
    bottomAxis(x, plot, `${characteristic}${unit === '' ? '' : ` [${unit}]`}`),
    ...groups.flatMap(({ name, values }, index) => {
      const y = plot.top + height * index + height / 2;
      const mean = meanOf(values);
      return [
        line(plot.left, y, plot.right, y, { stroke: rule }),
        words(plot.left - 12, y - 2, fitted(name, plot.left - 20), { anchor: 'end', bold: true }),
        words(plot.left - 12, y + 14, `n ${values.length}`, { anchor: 'end', fill: quiet, size: 12 }),
        ...values.map((value, place) => point(x.at(value), y - 16 + ((place % lanes) * 32) / (lanes - 1))),
        line(x.at(mean), y - 26, x.at(mean), y + 26, { width: 1.5 }),
        diamond(x.at(mean), y),
      ];
    }),
  ]);
}

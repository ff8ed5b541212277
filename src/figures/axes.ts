import { nice, tickIncrement, ticks } from 'd3-array';
import {
  alarm,
  escapeXml,
  fitted,
  fontSize,
  type LineLook,
  line,
  type Mark,
  numberText,
  px,
  quiet,
  rule,
  textWidth,
  words,
} from './drawing.ts';

/** Maps values to pixels. */
export interface Scale {
  readonly low: number;
  readonly high: number;
  readonly at: (value: number) => number;
}

export function linearScale(low: number, high: number, from: number, to: number): Scale {
  return { low, high, at: (value) => from + ((value - low) / (high - low)) * (to - from) };
}

/**
 * Round ends that hold all values; undefined where a value is not finite, or they lie so far apart or so close
 * together that no axis can tell them.
 */
export function roundEnds(values: readonly number[]): readonly [number, number] | undefined {
  if (values.length === 0 || !values.every(Number.isFinite)) return undefined;
  let low = values.reduce((one, other) => Math.min(one, other));
  let high = values.reduce((one, other) => Math.max(one, other));
  if (high === low) {
    const room = low === 0 ? 1 : Math.abs(low) * 0.05;
    low -= room;
    high += room;
  }
  const span = high - low;
  // The steps of an axis need a few digits more than the values themselves.
  const smallest = Math.max(1e-280, Math.max(Math.abs(low), Math.abs(high)) * 1e-12);
  if (!Number.isFinite(span) || span <= smallest) return undefined;
  const [start, end] = nice(low - span * 0.04, high + span * 0.04, 10);
  return Number.isFinite(end - start) ? [start, end] : undefined;
}

/** Where an axis has its marks, and the decimals they need. */
export function tickMarks(
  scale: Pick<Scale, 'low' | 'high'>,
  count: number,
): readonly { readonly value: number; readonly text: string }[] {
  const step = tickIncrement(scale.low, scale.high, count);
  const size = step < 0 ? 1 / -step : step;
  const decimals = Math.max(0, -Math.floor(Math.log10(size) + 1e-9));
  const large = Math.max(Math.abs(scale.low), Math.abs(scale.high)) >= 1e7 || decimals > 6;
  return ticks(scale.low, scale.high, count).map((value) => ({
    value,
    text: large
      ? value === 0
        ? '0'
        : value.toPrecision(4).replace(/\.?0+(?=e|$)/, '')
      : numberText(value, decimals),
  }));
}

/** The place of the plot within the drawing. */
export interface Plot {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** The horizontal axis below the plot, with its name. */
export function bottomAxis(scale: Scale, { left, right, bottom }: Plot, name: string): string {
  const marks = tickMarks(scale, 7);
  return (
    line(left, bottom, right, bottom, { stroke: quiet }) +
    marks
      .map(
        ({ value, text }) =>
          line(scale.at(value), bottom, scale.at(value), bottom + 5, { stroke: quiet }) +
          words(scale.at(value), bottom + 19, text, { anchor: 'middle', fill: quiet }),
      )
      .join('') +
    words((left + right) / 2, bottom + 38, fitted(name, right - left), { anchor: 'middle' })
  );
}

/** The vertical axis left of the plot, with rules across it and its name. */
export function leftAxis(
  scale: Scale,
  plot: Plot,
  name: string,
  marks: readonly { readonly value: number; readonly text: string }[] = tickMarks(scale, 5),
): string {
  const { left, right, top, bottom } = plot;
  const x = 16;
  const y = (top + bottom) / 2;
  return (
    marks
      .map(
        ({ value, text }) =>
          line(left, scale.at(value), right, scale.at(value), { stroke: rule }) +
          words(left - 8, scale.at(value) + 4, text, { anchor: 'end', fill: quiet }),
      )
      .join('') +
    `<text x="${x}" y="${px(y)}" text-anchor="middle" transform="rotate(-90 ${x} ${px(y)})">${escapeXml(fitted(name, bottom - top + 40))}</text>`
  );
}

/** A mark with the look of its line. */
export interface DrawnMark extends Mark {
  readonly look: LineLook;
}

/** Limits are solid and heavy, bounds and means dashed. */
export const limitLook: LineLook = { stroke: alarm, width: 2 };
export const boundLook: LineLook = { width: 2, dash: '7 4' };

/** Where the label of a mark stands: in which row above the plot, counted from below, and the middle of it. */
export interface PlacedMark {
  readonly mark: DrawnMark;
  readonly row: number;
  readonly x: number;
  readonly from: number;
  readonly to: number;
}

/** Beyond this number of marks their labels stay in the middle: trying every place would take too long. */
const mostTried = 5;

/**
 * Places labels of marks on the horizontal axis so that no two of them overlap, as few lines as can be pass through the
 * label of another mark, and labels stand low and in the middle of their line where nothing speaks against it.
 */
export function placeLabels(marks: readonly DrawnMark[], scale: Scale, width: number): readonly PlacedMark[] {
  const ascending = marks.toSorted((one, other) => one.value - other.value);
  const sides: readonly number[] = marks.length > mostTried ? [0] : [0, -1, 1];
  let best: readonly PlacedMark[] = [];
  let lowest = Number.POSITIVE_INFINITY;
  for (const order of [ascending, ascending.toReversed()])
    for (let code = 0; code < sides.length ** marks.length; code += 1) {
      const placed = place(
        order.map((mark, index) => ({
          mark,
          side: sides[Math.floor(code / sides.length ** index) % sides.length] ?? 0,
        })),
        scale,
        width,
      );
      const cost = costOf(placed, scale);
      if (cost < lowest) {
        lowest = cost;
        best = placed;
      }
    }
  return best;
}

/** Each label in the lowest row that has room; side -1 ends it at its line, 1 starts it there, 0 centres it. */
function place(
  order: readonly { readonly mark: DrawnMark; readonly side: number }[],
  scale: Scale,
  width: number,
): readonly PlacedMark[] {
  const placed: PlacedMark[] = [];
  for (const { mark, side } of order) {
    const half = textWidth(mark.label) / 2 + 5;
    const wanted = scale.at(mark.value) + side * (half - 8);
    const x = Math.min(width - half, Math.max(half, wanted));
    const [from, to] = [x - half, x + half];
    let row = 0;
    while (placed.some((each) => each.row === row && each.from < to && from < each.to)) row += 1;
    placed.push({ mark, row, x, from, to });
  }
  return placed;
}

/** Lines through labels of lower rows weigh most, then rows, then labels beside their line. */
const costOf = (placed: readonly PlacedMark[], scale: Scale): number =>
  placed.reduce((sum, { mark, row, x }) => {
    const at = scale.at(mark.value);
    const crossed = placed.filter((each) => each.row < row && each.from < at && at < each.to).length;
    return sum + 1000 * crossed + 50 * row + Math.abs(x - at) / 10;
  }, 0);

export const rowHeight = fontSize + 5;

/** Lines across the plot from labels above it, each row of labels on its own height. */
export function verticalMarks(rows: readonly PlacedMark[], scale: Scale, { top, bottom }: Plot): string {
  const lines = rows.map(({ mark, row }) =>
    line(scale.at(mark.value), top - 4 - row * rowHeight, scale.at(mark.value), bottom, mark.look),
  );
  const labels = rows.map(({ mark, row, x }) =>
    words(x, top - 8 - row * rowHeight, mark.label, { anchor: 'middle', ground: true }),
  );
  return lines.join('') + labels.join('');
}

/** Lines across the plot at heights, each with its label at the right end, moved apart where they are too close. */
export function horizontalMarks(marks: readonly DrawnMark[], scale: Scale, plot: Plot): string {
  const sorted = marks.toSorted((one, other) => scale.at(one.value) - scale.at(other.value));
  let last = Number.NEGATIVE_INFINITY;
  const labels = sorted.map((mark) => {
    const y = Math.max(last + rowHeight, scale.at(mark.value) + 4);
    last = y;
    return words(plot.right + 8, y, fitted(mark.label, 150));
  });
  return (
    sorted
      .map((mark) => line(plot.left, scale.at(mark.value), plot.right, scale.at(mark.value), mark.look))
      .join('') + labels.join('')
  );
}

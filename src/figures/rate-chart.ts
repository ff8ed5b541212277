import { leftAxis, linearScale, type Plot, roundEnds } from './axes.ts';
import {
  accent,
  alarm,
  type Drawing,
  diamond,
  drawing,
  fitted,
  fontSize,
  line,
  type Mark,
  textWidth,
  words,
} from './drawing.ts';

export interface RateInPeriod {
  readonly name: string;
  /** Events per use, with exact bounds. */
  readonly rate: number;
  readonly lower: number;
  readonly upper: number;
}

export interface RateChartInput {
  /** What is counted, for the alternative text. */
  readonly subject: string;
  readonly periods: readonly RateInPeriod[];
  /** What the rates are held against. */
  readonly marks: readonly Mark[];
  /** Confidence of each bound, as printed. */
  readonly confidence: string;
}

/** The most room that the labels beside the plot may take. */
const mostBeside = 200;

/** Rates are drawn as events in so many uses, so that the axis has readable numbers. */
const scaleOf = (largest: number): { readonly factor: number; readonly words: string } => {
  const power = Math.min(9, Math.max(2, Math.ceil(-Math.log10(largest)) + 1));
  const factor = 10 ** power;
  return { factor, words: `events in ${String(factor).replace(/\B(?=(\d{3})+$)/g, ' ')} uses` };
};

/**
 * The rate of each period with its exact bounds, in the order of time, and the marks that it is held against. Undefined
 * where there is nothing to draw.
 */
export function rateChart({ subject, periods, marks, confidence }: RateChartInput): Drawing | undefined {
  const largest = Math.max(...periods.map((period) => period.upper), ...marks.map((mark) => mark.value), 0);
  if (periods.length === 0 || !(largest > 0) || !Number.isFinite(largest)) return undefined;
  const { factor, words: unit } = scaleOf(largest);
  const ends = roundEnds([0, largest * factor]);
  if (!ends) return undefined;
  const width = 640;
  // Labels of the marks stand beside the plot: within it the last period may lie where they would.
  const beside = Math.min(
    mostBeside,
    Math.max(0, ...marks.map((mark) => textWidth(mark.label, fontSize) + 8)),
  );
  const plot: Plot = { left: 66, right: width - 16 - beside, top: 16, bottom: 246 };
  const y = linearScale(0, ends[1], plot.bottom, plot.top);
  const step = (plot.right - plot.left) / periods.length;
  const show = (rate: number): string => String(Number((rate * factor).toPrecision(3)));
  const alternative = `${subject}, ${unit}, each bound with ${confidence} confidence: ${periods
    .map((each) => `${each.name} ${show(each.rate)} (${show(each.lower)} to ${show(each.upper)})`)
    .join(', ')}${marks.map((mark) => `; ${mark.label}`).join('')}`;
  // More names than there is room for are thinned out.
  const every = Math.max(1, Math.ceil(46 / step));
  return drawing(width, plot.bottom + 40, alternative, [
    leftAxis(y, plot, unit),
    line(plot.left, plot.bottom, plot.right, plot.bottom),
    ...marks.flatMap((mark) => {
      const at = y.at(mark.value * factor);
      return [
        line(plot.left, at, plot.right, at, { stroke: alarm, dash: '7 4', width: 1.5 }),
        words(plot.right + 6, at + 4, fitted(mark.label, mostBeside), { ground: true }),
      ];
    }),
    ...periods.flatMap((period, index) => {
      const x = plot.left + (index + 0.5) * step;
      const [low, high] = [y.at(period.lower * factor), y.at(period.upper * factor)];
      return [
        line(x, low, x, high, { stroke: accent, width: 1.5 }),
        line(x - 5, low, x + 5, low, { stroke: accent, width: 1.5 }),
        line(x - 5, high, x + 5, high, { stroke: accent, width: 1.5 }),
        diamond(x, y.at(period.rate * factor)),
        ...(index % every === 0
          ? [words(x, plot.bottom + 18, fitted(period.name, step * every - 4), { anchor: 'middle' })]
          : []),
      ];
    }),
  ]);
}

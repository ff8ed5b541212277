import { linearScale, type Plot, roundEnds, tickMarks } from './axes.ts';
import {
  accent,
  alarm,
  bar,
  type Drawing,
  drawing,
  fitted,
  line,
  middle,
  numberText,
  pale,
  rule,
  textWidth,
  words,
} from './drawing.ts';

/** A measure by which things are compared, in per cent. */
export interface ShareSeries {
  /** What the shares are of, for example `of the tolerance`. */
  readonly name: string;
  readonly shares: readonly number[];
}

export interface ShareBarsInput {
  /** What the figure is, for the alternative text. */
  readonly title: string;
  /** The things compared, from top to bottom. */
  readonly names: readonly string[];
  readonly series: readonly ShareSeries[];
  /** A limit in per cent that a line marks. */
  readonly limit?: { readonly label: string; readonly value: number };
}

/** From pale to dark, so that they differ in grey too; the dark outline keeps them apart from the ground. */
const fills = [pale, middle, accent] as const;

/** Lying bars with the number at the end of each: components of a gauge. Undefined where there is nothing to draw. */
export function shareBars({ title, names, series, limit }: ShareBarsInput): Drawing | undefined {
  const all = [...series.flatMap((each) => each.shares), ...(limit ? [limit.value] : [])];
  const ends = roundEnds([0, ...all]);
  if (names.length === 0 || series.length === 0 || !ends) return undefined;
  const width = 640;
  const thick = series.length === 1 ? 18 : 13;
  const group = series.length * thick + 14;
  const legendRows = series.length > 1 ? 1 : 0;
  const top = 12 + 22 * legendRows + (limit ? 20 : 0);
  const plot: Plot = { left: 190, right: width - 56, top, bottom: top + group * names.length + 4 };
  const x = linearScale(0, Math.max(1e-6, ends[1]), plot.left, plot.right);
  const legendAt = (index: number): number => plot.left - 180 + index * 210;
  const text = (share: number): string => `${numberText(share, 1)} %`;
  const alternative = [
    `${title}: ${names.map((name, index) => `${name} ${series.map((each) => (series.length > 1 ? `${text(each.shares[index] ?? 0)} ${each.name}` : text(each.shares[index] ?? 0))).join(', ')}`).join('; ')}`,
    ...(limit ? [limit.label] : []),
  ].join('; ');
  return drawing(width, plot.bottom + 28, alternative, [
    ...(series.length > 1
      ? series.map(
          (each, index) =>
            bar(legendAt(index), 8, 18, 12, { fill: fills[index % 3] ?? pale, stroke: accent }) +
            words(legendAt(index) + 26, 19, fitted(`% ${each.name}`, 180)),
        )
      : []),
    ...tickMarks(x, 5).map(
      ({ value, text: mark }) =>
        line(x.at(value), plot.top, x.at(value), plot.bottom, { stroke: rule }) +
        words(x.at(value), plot.bottom + 18, `${mark} %`, { anchor: 'middle' }),
    ),
    ...names.flatMap((name, row) => {
      const y = plot.top + row * group + 8;
      return [
        words(plot.left - 10, y + (series.length * thick) / 2 + 4, fitted(name, 172), { anchor: 'end' }),
        ...series.map((each, index) =>
          bar(plot.left, y + index * thick, x.at(each.shares[row] ?? 0) - plot.left, thick - 1, {
            fill: fills[index % 3] ?? pale,
            stroke: accent,
          }),
        ),
      ];
    }),
    ...(limit
      ? [
          line(x.at(limit.value), plot.top - 4, x.at(limit.value), plot.bottom, {
            stroke: alarm,
            width: 2,
            dash: '7 4',
          }),
          words(Math.min(plot.right, x.at(limit.value)), plot.top - 8, limit.label, {
            anchor: x.at(limit.value) > (plot.left + plot.right) / 2 ? 'end' : 'start',
          }),
        ]
      : []),
    ...names.flatMap((_, row) => {
      const y = plot.top + row * group + 8;
      return series.map((each, index) => {
        const share = each.shares[row] ?? 0;
        const label = text(share);
        const lane = y + index * thick;
        const room = textWidth(label, 12) + 3;
        const end = x.at(share) + 3;
        // A label that the line of the limit would run through stands behind the line.
        const start =
          limit && x.at(limit.value) > end - 3 && x.at(limit.value) < end + room + 3
            ? x.at(limit.value) + 3
            : end;
        return (
          bar(start, lane, room, thick - 1, { fill: '#ffffff' }) +
          words(start + 2, lane + thick / 2 + 4, label, { size: 12 })
        );
      });
    }),
    line(plot.left, plot.top, plot.left, plot.bottom),
  ]);
}

export interface Contributor {
  readonly name: string;
  /** Share of the variance of the result, in per cent. */
  readonly share: number;
}

/** Shares of the contributors to a result, the largest on top. Undefined where there is nothing to draw. */
export function contributorBars(contributors: readonly Contributor[]): Drawing | undefined {
  const sorted = contributors.toSorted((one, other) => other.share - one.share);
  return shareBars({
    title: 'Share of each contributor in the variance of the result',
    names: sorted.map((each) => each.name),
    series: [{ name: 'share', shares: sorted.map((each) => each.share) }],
  });
}

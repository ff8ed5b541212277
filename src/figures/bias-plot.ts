import {
  bottomAxis,
  type DrawnMark,
  horizontalMarks,
  leftAxis,
  limitLook,
  linearScale,
  type Plot,
  roundEnds,
} from './axes.ts';
import {
  type Drawing,
  diamond,
  drawing,
  line,
  middle,
  numberText,
  point,
  polyline,
  quiet,
} from './drawing.ts';

interface BiasWithLimits {
  readonly reference: number;
  readonly bias: number;
  readonly lower: number;
  readonly upper: number;
}

export interface BiasPlotInput {
  /** As printed; empty where there is none. */
  readonly unit: string;
  readonly decimals: number;
  readonly readings: readonly { readonly reference: number; readonly bias: number }[];
  readonly references: readonly BiasWithLimits[];
  /** The fitted line and its band, from the lowest reference to the highest. */
  readonly line?: readonly BiasWithLimits[];
  /** Largest accepted bias in either direction. */
  readonly accepted: number;
}

/**
 * Bias over reference: single readings (to the left of their reference, so that none is hidden), their means with limits,
 * the fitted line with its band, and what is accepted.
 * Undefined where there is nothing to draw.
 */
export function biasPlot({
  unit,
  decimals,
  readings,
  references,
  line: fit = [],
  accepted,
}: BiasPlotInput): Drawing | undefined {
  const xEnds = roundEnds(references.map((each) => each.reference));
  const yEnds = roundEnds([
    ...readings.map((each) => each.bias),
    ...references.flatMap((each) => [each.lower, each.upper]),
    accepted,
    -accepted,
  ]);
  if (references.length === 0 || !xEnds || !yEnds) return undefined;
  const width = 640;
  const plot: Plot = { left: 66, right: width - 130, top: 16, bottom: 286 };
  const x = linearScale(xEnds[0], xEnds[1], plot.left, plot.right);
  const y = linearScale(yEnds[0], yEnds[1], plot.bottom, plot.top);
  const inUnit = unit === '' ? '' : ` ${unit}`;
  const show = (value: number): string => numberText(value, decimals);
  const marks: readonly DrawnMark[] = [
    { label: `accepted ${accepted}${inUnit}`, value: accepted, look: limitLook },
    { label: 'no bias', value: 0, look: { stroke: quiet } },
    { label: `accepted -${accepted}${inUnit}`, value: -accepted, look: limitLook },
  ];
  const along = (pick: (each: BiasWithLimits) => number) =>
    fit.map((each): readonly [number, number] => [x.at(each.reference), y.at(pick(each))]);
  const alternative = [
    `Bias at ${references.length} reference${references.length === 1 ? '' : 's'}: ${references.map((each) => `${show(each.bias)}${inUnit} (${show(each.lower)} to ${show(each.upper)}) at ${each.reference}${inUnit}`).join(', ')}`,
    `accepted up to ${accepted}${inUnit} in either direction`,
    ...(fit.length > 0
      ? [
          `fitted line from ${show(fit[0]?.bias ?? 0)}${inUnit} to ${show(fit.at(-1)?.bias ?? 0)}${inUnit} over the range`,
        ]
      : []),
  ].join('; ');
  return drawing(width, plot.bottom + 48, alternative, [
    leftAxis(y, plot, `bias${unit === '' ? '' : ` [${unit}]`}`),
    bottomAxis(x, plot, `reference${unit === '' ? '' : ` [${unit}]`}`),
    horizontalMarks(marks, y, plot),
    ...(fit.length > 0
      ? [
          polyline(
            along((each) => each.lower),
            { dash: '5 4', stroke: middle },
          ),
          polyline(
            along((each) => each.upper),
            { dash: '5 4', stroke: middle },
          ),
          polyline(
            along((each) => each.bias),
            { width: 2 },
          ),
        ]
      : []),
    ...readings.map((each) => point(x.at(each.reference) - 11, y.at(each.bias))),
    ...references.flatMap((each) => {
      const at = x.at(each.reference);
      return [
        line(at, y.at(each.lower), at, y.at(each.upper), { width: 1.5 }),
        line(at - 4, y.at(each.lower), at + 4, y.at(each.lower), { width: 1.5 }),
        line(at - 4, y.at(each.upper), at + 4, y.at(each.upper), { width: 1.5 }),
        diamond(at, y.at(each.bias)),
      ];
    }),
  ]);
}

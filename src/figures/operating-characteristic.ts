import { acceptanceProbability } from '../statistics/acceptance-plan.ts';
import {
  bottomAxis,
  leftAxis,
  linearScale,
  type Plot,
  placeLabels,
  roundEnds,
  rowHeight,
  verticalMarks,
} from './axes.ts';
import {
  accent,
  type Drawing,
  diamond,
  drawing,
  fitted,
  line,
  numberText,
  polyline,
  quiet,
  words,
} from './drawing.ts';

/** A plan and the probability with which it accepts. */
export interface OperatingPlan {
  readonly name: string;
  /** Probability of acceptance at a share of failing units, both from 0 to 1. */
  readonly acceptance: (failingShare: number) => number;
}

export interface OperatingCharacteristicInput {
  readonly plans: readonly OperatingPlan[];
  /** Largest share of failing units on the axis, above 0, at most 1. */
  readonly upTo: number;
  /** Points that the plan is meant to hold: share of failing units, and what it is called. */
  readonly marks: readonly { readonly share: number; readonly label: string }[];
}

/** The plan that accepts with at most `accept` failures among `sampleSize` units of a large population (binomial). */
export function attributePlan(sampleSize: number, accept: number): OperatingPlan {
  const counted = (count: number, name: string): string => `${count} ${name}${count === 1 ? '' : 's'}`;
  return {
    name: `${counted(sampleSize, 'unit')}, ${counted(accept, 'failure')} allowed`,
    acceptance: (failingShare) =>
      acceptanceProbability({ sampleSize, acceptanceNumber: accept, shareNonconforming: failingShare }),
  };
}

/** Lines of plans differ by dashes as well as by the name at their legend. */
const dashes = [undefined, '8 4', '3 3', '10 3 2 3'] as const;

const markLook = { stroke: quiet, width: 1, dash: '2 3' };

/** Operating characteristic: how likely a plan passes lots of each quality. Undefined where there is nothing to draw. */
export function operatingCharacteristic({
  plans,
  upTo,
  marks,
}: OperatingCharacteristicInput): Drawing | undefined {
  const ends = roundEnds([0, upTo * 100]);
  if (plans.length === 0 || !ends || !(upTo > 0 && upTo <= 1)) return undefined;
  const width = 640;
  const high = Math.min(100, ends[1]);
  const sides = { left: 58, right: width - 16 };
  const x = linearScale(0, high, sides.left, sides.right);
  const shown = marks.filter((mark) => mark.share * 100 <= high);
  const rows = placeLabels(
    shown.map(({ share, label }) => ({ label, value: share * 100, look: markLook })),
    x,
    width,
  );
  const top = 22 + 20 * plans.length + rowHeight * Math.max(0, ...rows.map(({ row }) => row + 1));
  const plot: Plot = { ...sides, top, bottom: top + 240 };
  const y = linearScale(0, 100, plot.bottom, plot.top);
  const curve = (plan: OperatingPlan) =>
    Array.from({ length: 121 }, (_, index): readonly [number, number] => {
      const share = (high * index) / 120;
      return [x.at(share), y.at(100 * plan.acceptance(share / 100))];
    });
  const percent = (share: number, decimals: number): string => `${numberText(share * 100, decimals)} %`;
  const at = (plan: OperatingPlan): string =>
    shown
      .map(
        ({ share }) =>
          `${percent(plan.acceptance(share), 1)} at ${Number((share * 100).toPrecision(6))} % failing`,
      )
      .join(', ');
  const named = plans.map((plan) =>
    shown.length > 0 ? `${plan.name}: accepted with ${at(plan)}` : plan.name,
  );
  const alternative = [
    `Operating characteristic, probability of acceptance for up to ${numberText(high, 1)} % failing units`,
    ...named,
    ...shown.map(({ label }) => label),
  ].join('; ');
  return drawing(width, plot.bottom + 48, alternative, [
    leftAxis(y, plot, 'probability of acceptance [%]'),
    bottomAxis(x, plot, 'failing units in the population [%]'),
    verticalMarks(rows, x, plot),
    ...plans.flatMap((plan, index) => {
      const dash = dashes[index % dashes.length];
      const look = { stroke: accent, width: 2, ...(dash === undefined ? {} : { dash }) };
      const legend = 16 + 20 * index;
      return [
        polyline(curve(plan), look),
        line(plot.left, legend, plot.left + 44, legend, look),
        words(plot.left + 52, legend + 4, fitted(named[index] ?? plan.name, 510)),
        ...shown.map(({ share }) => diamond(x.at(share * 100), y.at(100 * plan.acceptance(share)))),
      ];
    }),
  ]);
}

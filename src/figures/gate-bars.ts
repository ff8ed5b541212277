import {
  accent,
  alarm,
  bar,
  type Drawing,
  drawing,
  fitted,
  pale,
  quiet,
  textWidth,
  words,
} from './drawing.ts';

/** How one condition of a gate stands. */
export type ConditionMark = 'met' | 'not met' | 'for people to judge';

export interface GateBar {
  /** The gate, for example `G1 design input`. */
  readonly name: string;
  /** What stands behind it, for example `passed 2025-11-06`. */
  readonly state: string;
  /** One for each condition, in the order of the plan. */
  readonly conditions: readonly ConditionMark[];
}

/** From dark to white, so that they differ in grey; what is not met is crossed by its outline as well. */
const looks: Readonly<
  Record<ConditionMark, { readonly fill: string; readonly stroke: string; readonly dash?: string }>
> = {
  met: { fill: accent, stroke: accent },
  'not met': { fill: '#ffffff', stroke: alarm, dash: '3 2' },
  'for people to judge': { fill: pale, stroke: quiet },
};

const marks = ['met', 'not met', 'for people to judge'] as const;

/** A box for each condition of each gate, met ones first. Undefined where there is nothing to draw. */
export function gateBars(gates: readonly GateBar[]): Drawing | undefined {
  const most = Math.max(0, ...gates.map((gate) => gate.conditions.length));
  if (most === 0) return undefined;
  const width = 640;
  const [left, right] = [212, width - 108];
  const step = Math.min(44, (right - left) / most);
  const row = 40;
  const top = 34;
  const counted = (gate: GateBar, mark: ConditionMark): number =>
    gate.conditions.filter((each) => each === mark).length;
  const sums = (gate: GateBar): string =>
    marks.flatMap((mark) => (counted(gate, mark) > 0 ? [`${counted(gate, mark)} ${mark}`] : [])).join(', ');
  const alternative = `Conditions by gate: ${gates.map((gate) => `${gate.name} (${gate.state}): ${sums(gate)}`).join('; ')}`;
  let legendAt = left;
  const legend = marks.map((mark) => {
    const at = legendAt;
    legendAt += 26 + textWidth(mark) + 20;
    return bar(at, 8, 16, 12, { width: 1.5, ...looks[mark] }) + words(at + 22, 19, mark);
  });
  return drawing(width, top + row * gates.length + 8, alternative, [
    ...legend,
    ...gates.flatMap((gate, index) => {
      const y = top + index * row;
      const sorted = marks.flatMap((mark) => gate.conditions.filter((each) => each === mark));
      return [
        words(left - 12, y + 17, fitted(gate.name, left - 20), { anchor: 'end', bold: true }),
        words(left - 12, y + 32, fitted(gate.state, left - 20, 12), { anchor: 'end', size: 12, fill: quiet }),
        ...sorted.map((mark, at) =>
          bar(left + at * step, y + 6, step - 4, 24, { width: 1.5, ...looks[mark] }),
        ),
        words(right + 8, y + 22, `${counted(gate, 'met')} of ${gate.conditions.length} met`, { bold: true }),
      ];
    }),
  ]);
}

import { fixed } from '../evidence/number-text.ts';
import { histogramClasses } from '../figures/histogram.ts';
import { characterBar } from './character-plot.ts';

/** A value with a name: a limit or a bound. */
export interface NamedMark {
  readonly label: string;
  readonly value: number;
}

/** More empty classes than this one after the other are told rather than drawn. */
const mostEmpty = 3;

/** Decimals that the edges of classes need. */
const decimalsOfStep = (step: number): number => {
  for (let decimals = 0; decimals < 12; decimals += 1)
    if (Math.abs(step * 10 ** decimals - Math.round(step * 10 ** decimals)) < 1e-6) return decimals;
  return 12;
};

/**
 * A histogram that lies: one line a class, from low to high, with limits and bounds as lines between them where they
 * belong. A mark within a class stands below it where it is in its upper half. Empty where there is nothing to draw.
 */
export const characterHistogram = (values: readonly number[], marks: readonly NamedMark[]): string => {
  if (values.length === 0) return '';
  const { step, list } = histogramClasses(values);
  // Readings from one end of all numbers to the other have no classes.
  if (!list.every(({ from, to }) => Number.isFinite(from) && Number.isFinite(to))) return '';
  const most = Math.max(...list.map(({ count }) => count));
  const decimals = Math.max(decimalsOfStep(step), ...list.map(({ from }) => decimalsOfStep(from)));
  const show = (value: number): string => fixed(value, Math.min(decimals, 9));
  const width = Math.max(...list.flatMap(({ from, to }) => [show(from).length, show(to).length]));
  const name = (from: number, to: number): string =>
    `${show(from).padStart(width)} to ${show(to).padStart(width)}`;
  const blank = ' '.repeat(2 * width + 4);
  const markLine = ({ label }: NamedMark): string => `${blank} |-- ${label}`;
  const waiting = [...marks].sort((a, b) => a.value - b.value);
  const lines: string[] = [];
  const marksBelow = (value: number): void => {
    while ((waiting[0]?.value ?? Number.POSITIVE_INFINITY) < value) {
      const mark = waiting.shift();
      if (mark) lines.push(markLine(mark));
    }
  };
  for (const [index, { from, to, count }] of list.entries()) {
    const before = list[index - 1]?.to ?? from;
    const empty = Math.round((from - before) / step);
    if (empty > mostEmpty) {
      marksBelow(before + step / 2);
      lines.push(`${blank} |   (${empty} classes without readings)`);
    } else
      for (let each = 0; each < empty; each += 1) {
        const start = before + each * step;
        marksBelow(start + step / 2);
        lines.push(`${name(start, start + step)} |`);
      }
    marksBelow((from + to) / 2);
    lines.push(`${name(from, to)} |${characterBar(count, most)} ${count}`);
  }
  marksBelow(Number.POSITIVE_INFINITY);
  return lines.join('\n');
};

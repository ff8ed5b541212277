/** Figures drawn with characters, for terminals: as wide as fits 80 columns behind the indent of a block of code. */

export interface CharacterCurve {
  /** One character that draws the curve. */
  readonly sign: string;
  /** Height from 0 to 1 at a place on the axis. */
  readonly at: (x: number) => number;
}

export interface CharacterCurves {
  readonly curves: readonly CharacterCurve[];
  /** Right end of the axis, above 0. */
  readonly upTo: number;
  /** Places marked by an upright line of dots, from 0 to `upTo`. */
  readonly marks: readonly number[];
  /** An end of the axis as text. */
  readonly axisText: (x: number) => string;
  readonly axisName: string;
}

const columns = 65;
/** Lines above the axis: one for each step of 0.05. */
const steps = 20;

/** Curves between 0 and 1 over an axis that starts at 0. Where curves meet, `*` stands for all of them. */
export const characterCurves = ({ curves, upTo, marks, axisText, axisName }: CharacterCurves): string => {
  const grid = Array.from({ length: steps + 1 }, () => Array.from({ length: columns }, () => ' '));
  const columnOf = (x: number): number => Math.round((x / upTo) * (columns - 1));
  for (const mark of marks.filter((x) => x >= 0 && x <= upTo))
    for (const row of grid) row[columnOf(mark)] = ':';
  for (let column = 0; column < columns; column += 1) {
    const drawn = new Set<number>();
    for (const { sign, at } of curves) {
      const height = Math.min(1, Math.max(0, at((upTo * column) / (columns - 1))));
      const row = steps - Math.round(height * steps);
      const cells = grid[row];
      if (cells) cells[column] = drawn.has(row) ? '*' : sign;
      drawn.add(row);
    }
  }
  const label = (row: number): string => (row % 4 === 0 ? (1 - row / steps).toFixed(1) : '   ');
  const left = axisText(0);
  const right = axisText(upTo);
  const middle = axisText(upTo / 2);
  const half = Math.floor(columns / 2);
  const ends = `${left.padEnd(half - Math.floor(middle.length / 2))}${middle}`;
  return [
    ...grid.map((row, index) => `${label(index)} |${row.join('').trimEnd()}`),
    `    +${'-'.repeat(columns)}`,
    `     ${ends}${right.padStart(columns - ends.length)}`,
    `     ${axisName}`,
  ].join('\n');
};

/** Columns of the longest bar. */
const longestBar = 40;

/** A bar as long as its count deserves, where the largest count is `most`. A count above 0 has at least one sign. */
export const characterBar = (count: number, most: number): string =>
  '#'.repeat(count === 0 ? 0 : Math.max(1, Math.round((count / Math.max(most, 1)) * longestBar)));

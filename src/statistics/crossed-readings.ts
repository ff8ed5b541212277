import { type DataProblem, dataProblem } from './data-problem.ts';
import type { GaugeReading } from './gauge-components.ts';

/** Readings of a balanced design in which every operator measured every part. */
export interface Crossing {
  /** By part, then operator: the repeats. */
  readonly cells: readonly (readonly (readonly number[])[])[];
  readonly parts: number;
  readonly operators: number;
  readonly repeats: number;
}

/**
 * Sorts readings by part and operator. Every operator must have measured every part equally often, at least twice; at
 * least two parts and two operators.
 *
 * Source: no formula; it sorts readings.
 */
export function crossedReadings(readings: readonly GaugeReading[]): Crossing | DataProblem {
  const partNames = [...new Set(readings.map((reading) => reading.part))];
  const operatorNames = [...new Set(readings.map((reading) => reading.operator))];
  const byCell = new Map<string, number[]>();
  const key = (part: string, operator: string) => JSON.stringify([part, operator]);
  for (const { part, operator, value } of readings) {
    const cell = byCell.get(key(part, operator));
    if (cell) cell.push(value);
    else byCell.set(key(part, operator), [value]);
  }
  if (partNames.length < 2) return dataProblem('too-few-values', '1 part, at least 2 needed');
  if (operatorNames.length < 2) return dataProblem('too-few-values', '1 operator, at least 2 needed');
  const cells = partNames.map((part) =>
    operatorNames.map((operator) => byCell.get(key(part, operator)) ?? []),
  );
  const repeats = mostUsual(cells.flatMap((row) => row.map((cell) => cell.length)));
  for (const [p, row] of cells.entries())
    for (const [o, cell] of row.entries())
      if (cell.length !== repeats)
        return dataProblem(
          'unbalanced',
          `operator ${operatorNames[o]} measured part ${partNames[p]} ${times(cell.length)}, not ${times(repeats)} as most`,
        );
  if (repeats < 2) return dataProblem('too-few-values', '1 repeat per part and operator, at least 2 needed');
  return { cells, parts: partNames.length, operators: operatorNames.length, repeats };
}

/**
 * The count that most have, the largest of several; what is odd about a design is held against it.
 *
 * Source: definition of the mode.
 */
export function mostUsual(counts: readonly number[]): number {
  const tally = new Map<number, number>();
  for (const count of counts) tally.set(count, (tally.get(count) ?? 0) + 1);
  return [...tally].reduce((one, other) =>
    other[1] > one[1] || (other[1] === one[1] && other[0] > one[0]) ? other : one,
  )[0];
}

/**
 * `never`, `once`, `3 times`
 *
 * Source: no formula; a wording.
 */
export function times(count: number): string {
  return count === 0 ? 'never' : count === 1 ? 'once' : `${count} times`;
}

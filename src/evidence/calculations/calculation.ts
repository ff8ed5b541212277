import type { TraceGraph } from '../../graph/trace-graph.ts';
import type { RecordOf } from '../../records/record.ts';
import type { Cell, DataTable } from '../../records/table.ts';
import type { AcceptanceLimits, CharacteristicEvidence, NamedValue } from '../result.ts';

export interface CalculationInput {
  readonly analysis: RecordOf<'analysis'>;
  readonly graph: TraceGraph;
  /** Limits of the analysis' acceptance; the calculation judges the one that it computes. */
  readonly limits: readonly AcceptanceLimits[];
  /** The raw data, where the record names a file below `data` and it can be read. */
  readonly table?: DataTable;
}

/** An input that is missing or wrong: field below `calculation`, or cell of the raw data, and what is expected. */
export interface InputProblem {
  readonly path: readonly (string | number)[];
  readonly message: string;
  readonly cell?: Cell;
}

export type CalculationOutcome =
  | { readonly ok: true; readonly characteristics: readonly CharacteristicEvidence[] }
  | { readonly ok: false; readonly problems: readonly InputProblem[] };

/** A calculation that an analysis record names in `calculation.kind`. */
export interface Calculation {
  readonly name: string;
  readonly title: string;
  readonly basis: string;
  readonly explain: string;
  readonly calculate: (input: CalculationInput) => CalculationOutcome;
}

/** Reads a finite number below `calculation`, noting a problem where it is missing. */
export const numberAt = (
  fields: Readonly<Record<string, unknown>>,
  name: string,
  problems: InputProblem[],
): number => {
  const value = fields[name];
  if (typeof value === 'number' && Number.isFinite(value)) return value;
  problems.push({
    path: [name],
    message: value === undefined ? `calculation.${name} is missing` : `calculation.${name} is not a number`,
  });
  return Number.NaN;
};

/** Reads a number below `calculation` that may be left out, noting a problem where it is no finite number. */
export const optionalNumberAt = (
  fields: Readonly<Record<string, unknown>>,
  name: string,
  problems: InputProblem[],
): number | undefined => (fields[name] === undefined ? undefined : numberAt(fields, name, problems));

/** Notes a problem unless a number that was read lies in the range that `words` describe. */
export const requireThat = (holds: boolean, name: string, words: string, problems: InputProblem[]): void => {
  if (!holds && !problems.some((problem) => problem.path[0] === name))
    problems.push({ path: [name], message: `calculation.${name} must be ${words}` });
};

/** Reads one of several words below `calculation`; the first where it may be left out. */
export const choiceAt = <Word extends string>(
  fields: Readonly<Record<string, unknown>>,
  name: string,
  words: readonly [Word, ...Word[]],
  problems: InputProblem[],
  needed = false,
): Word => {
  const value = fields[name];
  if (value === undefined && !needed) return words[0];
  const known = words.find((word) => word === value);
  if (known === undefined)
    problems.push({
      path: [name],
      message: `calculation.${name} is ${value === undefined ? 'missing' : `"${String(value)}"`}; it must be one of ${words.join(', ')}`,
    });
  return known ?? words[0];
};

/** Makes a named value of a calculation. */
export const namedValue = (
  key: string,
  label: string,
  value: number,
  unit: string,
  decimals: number,
): NamedValue => ({ key, label, value, unit, decimals });

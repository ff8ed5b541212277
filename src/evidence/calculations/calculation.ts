import type { TraceGraph } from '../../graph/trace-graph.ts';
import type { RecordOf } from '../../records/record.ts';
import type { AcceptanceLimits, CharacteristicEvidence } from '../result.ts';

export interface CalculationInput {
  readonly analysis: RecordOf<'analysis'>;
  readonly graph: TraceGraph;
  /** Limits of the analysis' acceptance; the calculation judges the one that it computes. */
  readonly limits: readonly AcceptanceLimits[];
}

/** An input that is missing or wrong: field below `calculation`, and what is expected. */
export interface InputProblem {
  readonly path: readonly (string | number)[];
  readonly message: string;
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

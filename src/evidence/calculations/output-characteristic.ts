import type { TraceGraph } from '../../graph/trace-graph.ts';
import type { InputProblem } from './calculation.ts';

/** A toleranced characteristic of a design output. */
export interface OutputCharacteristic {
  /** `DO-01 bore diameter`. */
  readonly name: string;
  readonly nominal: number;
  readonly plus: number;
  readonly minus: number;
  readonly unit: string;
}

/**
 * The characteristic that a term names by `output` and `characteristic`; undefined, with a problem noted at `path`, where
 * there is none.
 */
export const outputCharacteristic = (
  graph: TraceGraph,
  term: Readonly<Record<string, unknown>>,
  path: readonly (string | number)[],
  problems: InputProblem[],
): OutputCharacteristic | undefined => {
  const output = graph.recordOf('design-output', String(term['output']));
  const characteristic = output?.fields.characteristics?.find(
    (known) => known.name === term['characteristic'],
  );
  if (!output)
    problems.push({
      path: [...path, 'output'],
      message: `there is no design output ${String(term['output'])}`,
    });
  else if (!characteristic)
    problems.push({
      path: [...path, 'characteristic'],
      message: `${output.id} has no characteristic "${String(term['characteristic'])}"; it has: ${(output.fields.characteristics ?? []).map((known) => known.name).join(', ')}`,
    });
  if (!output || !characteristic) return undefined;
  return {
    name: `${output.id} ${characteristic.name}`,
    nominal: characteristic.nominal,
    plus: characteristic.plus ?? 0,
    minus: characteristic.minus ?? 0,
    unit: characteristic.unit ?? '1',
  };
};

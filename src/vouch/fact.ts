import type { EvidenceResult } from '../evidence/result.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import type { Project } from '../records/project.ts';
import type { RawData } from './raw-data.ts';

/** Something that a record says and that a step of the walk shows. */
export interface Fact {
  readonly name: string;
  readonly value: string;
}

export interface FactInputs {
  readonly graph: TraceGraph;
  readonly project: Project;
  readonly evidence: ReadonlyMap<string, EvidenceResult>;
  readonly rawData: ReadonlyMap<string, RawData>;
}

/** A fact, or none where there is nothing to say. */
export const fact = (name: string, value: string | undefined): readonly Fact[] =>
  value === undefined || value === '' ? [] : [{ name, value }];

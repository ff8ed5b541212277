import type { TraceGraph } from '../graph/trace-graph.ts';
import type { TechnicalRecord } from '../records/record.ts';
import type { EvidenceResult } from './result.ts';

/** The result that people wrote down, and where it stands. */
export interface StatedResult {
  readonly record: TechnicalRecord;
  readonly result: 'pass' | 'fail' | undefined;
  readonly path: readonly string[];
}

/** What the record behind an evaluation states; undefined where the record is retired. */
export const statedResult = (graph: TraceGraph, evidence: EvidenceResult): StatedResult | undefined => {
  const { record: id } = evidence;
  const carrier =
    graph.recordOf('verification-record', id) ??
    graph.recordOf('validation-record', id) ??
    graph.recordOf('analysis', id);
  const stated: StatedResult | undefined = carrier
    ? { record: carrier, result: carrier.fields.result, path: ['result'] }
    : studyResult(graph, id);
  return stated?.record.status === 'retired' ? undefined : stated;
};

const studyResult = (graph: TraceGraph, id: string): StatedResult | undefined => {
  const method = graph.recordOf('test-method', id);
  return method
    ? { record: method, result: method.fields.study?.result, path: ['study', 'result'] }
    : undefined;
};

import type { TraceGraph } from '../graph/trace-graph.ts';
import type { RecordOf } from '../records/record.ts';

/**
 * The record from which a document was compiled. A document with `for_each` has the id of its record and that of the
 * record it was written for.
 */
export const documentRecord = (graph: TraceGraph, id: string): RecordOf<'document'> | undefined =>
  graph
    .recordsOf('document')
    .find((record) => record.id === id || (record.fields.for_each && id.startsWith(`${record.id}-`)));

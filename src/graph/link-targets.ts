import type { TechnicalRecord } from '../records/record.ts';
import type { TraceGraph } from './trace-graph.ts';

/** True where a record has links of a name, all their targets exist and all are retired. */
export const allTargetsRetired = (graph: TraceGraph, record: TechnicalRecord, field: string): boolean => {
  const links = record.links.filter((link) => link.field === field);
  return links.length > 0 && links.every((link) => graph.record(link.to)?.status === 'retired');
};

import type { TechnicalRecord } from '../records/record.ts';
import { reach } from './reach.ts';
import type { TraceGraph } from './trace-graph.ts';

/** A need or a risk that rests on a record, with the shortest chain of ids from the record up to it. */
export interface UpstreamClaim {
  readonly claim: TechnicalRecord;
  readonly chain: readonly string[];
}

const upward = new Set(['reports', 'verifies', 'validates', 'derives_from']);
const claimTypes = new Set(['user-need', 'risk']);

/** User needs and risks that a record of a result speaks for, over its protocol and design inputs. */
export const upstreamClaims = (graph: TraceGraph, id: string): readonly UpstreamClaim[] => {
  const reached = reach(graph, id, 'up', (link) => upward.has(link.field));
  return reached.ids.flatMap((other) => {
    const claim = graph.record(other);
    return claim && claimTypes.has(claim.type)
      ? [{ claim, chain: [id, ...reached.pathTo(other).map((link) => link.to)] }]
      : [];
  });
};

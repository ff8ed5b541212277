import type { Standing } from '../graph/standing.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';

/** A record that is named as evidence and shows nothing for now, with why. */
export interface UnprovenEvidence {
  readonly id: string;
  /** For a message: `VR-09A failed`. */
  readonly says: string;
}

/**
 * Those of the records named as evidence that have not passed. Records of types that have no standing, such as
 * materials and outputs, are left to people. A retired record is no evidence, and neither is a missing one: that is
 * the business of the checks of links.
 */
export const unprovenEvidence = (
  ids: readonly string[],
  { graph, standing }: { readonly graph: TraceGraph; readonly standing: ReadonlyMap<string, Standing> },
): readonly UnprovenEvidence[] =>
  ids.flatMap((id): readonly UnprovenEvidence[] => {
    const record = graph.record(id);
    if (!record) return [];
    if (record.status === 'retired') return [{ id, says: `${id} is retired` }];
    const found = standing.get(id);
    if (!found || found.state === 'passed') return [];
    return [{ id, says: found.state === 'in doubt' ? `${id} is in doubt` : found.reason }];
  });

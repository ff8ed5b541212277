import type { TraceGraph } from '../graph/trace-graph.ts';

/** Ids from a record over what it rests on to another one, both ends included. */
export type ReliancePath = readonly string[];

/**
 * Everything that a record rests on, nearest first, each with a shortest path. Links are followed from what answers
 * to what is answered, but for those that carry no reliance. Ids that no record has any more are reached, too.
 */
export const relianceOf = (graph: TraceGraph, id: string): ReadonlyMap<string, ReliancePath> => {
  const paths = new Map<string, ReliancePath>([[id, [id]]]);
  const queue = [id];
  for (let at = 0; at < queue.length; at += 1) {
    const from = queue[at] as string;
    for (const link of graph.record(from)?.links ?? []) {
      if (!link.relies || paths.has(link.to)) continue;
      paths.set(link.to, [...(paths.get(from) ?? []), link.to]);
      queue.push(link.to);
    }
  }
  paths.delete(id);
  return paths;
};

import type { TraceGraph } from '../graph/trace-graph.ts';
import type { WrittenLink } from '../records/record.ts';

/** Ids from a record over what it rests on to another one, both ends included. */
export type ReliancePath = readonly string[];

/**
 * Types through which a change is not followed: a unit stays as it was drawn whatever the drawing answers to. Once
 * the drawing itself changes, what rests on it is touched.
 */
const endsAt: ReadonlySet<string> = new Set(['design-output']);

/**
 * Everything that a record rests on, nearest first, each with a shortest path. Links are followed from what answers
 * to what is answered, but for those that carry no reliance. Ids that no record has any more are reached, too.
 */
export const relianceOf = (
  graph: TraceGraph,
  id: string,
  follow: (link: WrittenLink) => boolean = () => true,
): ReadonlyMap<string, ReliancePath> => {
  const paths = new Map<string, ReliancePath>([[id, [id]]]);
  const queue = [id];
  for (let at = 0; at < queue.length; at += 1) {
    const from = queue[at] as string;
    const record = graph.record(from);
    if (from !== id && endsAt.has(record?.type ?? '')) continue;
    for (const link of record?.links ?? []) {
      if (!link.relies || !follow(link) || paths.has(link.to)) continue;
      paths.set(link.to, [...(paths.get(from) ?? []), link.to]);
      queue.push(link.to);
    }
  }
  paths.delete(id);
  return paths;
};

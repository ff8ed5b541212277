import type { Link, TraceGraph } from './trace-graph.ts';

/** What can be reached from a record, nearest first. */
export interface Reached {
  readonly ids: readonly string[];
  /** A shortest path to a reached record, as links; empty for any other. */
  pathTo(id: string): readonly Link[];
}

/**
 * Everything that can be reached from a record. `down` follows links against their direction (from what is answered
 * to what answers), `up` along it. Paths are put together when asked for: all of a long chain would take its square.
 */
export const reach = (
  graph: TraceGraph,
  start: string,
  direction: 'up' | 'down',
  follow: (link: Link) => boolean = () => true,
): Reached => {
  const lastLink = new Map<string, Link | undefined>([[start, undefined]]);
  const queue = [start];
  for (let at = 0; at < queue.length; at += 1) {
    const id = queue[at] as string;
    for (const link of direction === 'up' ? graph.linksFrom(id) : graph.linksTo(id)) {
      const other = direction === 'up' ? link.to : link.from;
      if (!follow(link) || lastLink.has(other)) continue;
      lastLink.set(other, link);
      queue.push(other);
    }
  }
  return {
    ids: queue.slice(1),
    pathTo: (id) => {
      const path: Link[] = [];
      for (let link = lastLink.get(id); link; link = lastLink.get(direction === 'up' ? link.from : link.to))
        path.push(link);
      return path.reverse();
    },
  };
};

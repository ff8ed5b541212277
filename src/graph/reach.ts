import type { Link, TraceGraph } from './trace-graph.ts';

/**
 * Everything that can be reached from a record, with the shortest path to it as links. `down` follows links
 * against their direction (from what is answered to what answers), `up` along it.
 */
export const reach = (
  graph: TraceGraph,
  start: string,
  direction: 'up' | 'down',
  follow: (link: Link) => boolean = () => true,
): ReadonlyMap<string, readonly Link[]> => {
  const paths = new Map<string, readonly Link[]>([[start, []]]);
  const queue = [start];
  for (let at = 0; at < queue.length; at += 1) {
    const id = queue[at] as string;
    const path = paths.get(id) ?? [];
    for (const link of direction === 'up' ? graph.linksFrom(id) : graph.linksTo(id)) {
      const other = direction === 'up' ? link.to : link.from;
      if (!follow(link) || paths.has(other)) continue;
      paths.set(other, [...path, link]);
      queue.push(other);
    }
  }
  paths.delete(start);
  return paths;
};

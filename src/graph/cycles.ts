import type { TraceGraph } from './trace-graph.ts';

/**
 * Cycles in links of the given names: for each strongly connected group one shortest cycle through its first
 * record, as a list of ids (the first one again at the end is left out). Iterative, so long chains are no danger.
 */
export const findCycles = (
  graph: TraceGraph,
  fields: ReadonlySet<string>,
): readonly (readonly string[])[] => {
  const next = (id: string): string[] =>
    graph
      .linksFrom(id)
      .filter((link) => fields.has(link.field))
      .map((link) => link.to);
  const cycles: string[][] = [];
  const done = new Set<string>();
  for (const start of graph.records.keys()) {
    if (done.has(start)) continue;
    const cycle = shortestCycle(start, next);
    if (!cycle) continue;
    for (const id of cycle) done.add(id);
    cycles.push(cycle);
  }
  return cycles;
};

const shortestCycle = (start: string, next: (id: string) => readonly string[]): string[] | undefined => {
  const cameFrom = new Map<string, string>();
  const queue = [start];
  for (let at = 0; at < queue.length; at += 1) {
    const id = queue[at] as string;
    for (const to of next(id)) {
      if (to === start) {
        const path = [id];
        while (path[0] !== start) path.unshift(cameFrom.get(path[0] as string) as string);
        return path;
      }
      if (!cameFrom.has(to)) {
        cameFrom.set(to, id);
        queue.push(to);
      }
    }
  }
  return undefined;
};

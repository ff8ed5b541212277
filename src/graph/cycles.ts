import { strongComponents } from './strong-components.ts';
import type { TraceGraph } from './trace-graph.ts';

/**
 * Cycles in links of the given names: for each strongly connected group one shortest cycle through its first
 * record, as a list of ids (the first one again at the end is left out), in order of id.
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
  const groupOf = new Map<string, ReadonlySet<string>>();
  for (const group of strongComponents(graph.records.keys(), next)) {
    const members = new Set(group);
    for (const id of group) groupOf.set(id, members);
  }
  const cycles: string[][] = [];
  const done = new Set<ReadonlySet<string>>();
  for (const start of graph.records.keys()) {
    const group = groupOf.get(start);
    if (!group || done.has(group)) continue;
    done.add(group);
    const cycle = shortestCycle(start, (id) => next(id).filter((to) => group.has(to)));
    if (cycle) cycles.push(cycle);
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
        const back = [id];
        for (let last = id; last !== start; back.push(last)) last = cameFrom.get(last) as string;
        return back.reverse();
      }
      if (!cameFrom.has(to)) {
        cameFrom.set(to, id);
        queue.push(to);
      }
    }
  }
  return undefined;
};

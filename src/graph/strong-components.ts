/**
 * Strongly connected groups of a directed graph: nodes that reach each other (Tarjan, SIAM Journal on Computing 1,
 * 1972). Each group comes after all groups that it leads to. Iterative, so long chains are no danger. Targets that
 * are not among the nodes are passed over.
 */
export const strongComponents = (
  nodes: Iterable<string>,
  next: (id: string) => readonly string[],
): readonly (readonly string[])[] => {
  const known = new Set(nodes);
  const index = new Map<string, number>();
  const lowest = new Map<string, number>();
  const open: string[] = [];
  const isOpen = new Set<string>();
  const groups: string[][] = [];
  const enter = (id: string): { id: string; targets: readonly string[]; at: number } => {
    index.set(id, index.size);
    lowest.set(id, index.size - 1);
    open.push(id);
    isOpen.add(id);
    return { id, targets: next(id), at: 0 };
  };
  const lower = (id: string, to: number): void => {
    lowest.set(id, Math.min(lowest.get(id) ?? to, to));
  };
  for (const root of known) {
    if (index.has(root)) continue;
    const path = [enter(root)];
    for (let step = path.at(-1); step; step = path.at(-1)) {
      const target = step.targets[step.at];
      step.at += 1;
      if (target !== undefined) {
        if (!known.has(target)) continue;
        const seen = index.get(target);
        if (seen === undefined) path.push(enter(target));
        else if (isOpen.has(target)) lower(step.id, seen);
        continue;
      }
      path.pop();
      const own = lowest.get(step.id) ?? 0;
      const caller = path.at(-1);
      if (caller) lower(caller.id, own);
      if (own !== index.get(step.id)) continue;
      const group: string[] = [];
      for (let id = open.pop(); id !== undefined; id = open.pop()) {
        isOpen.delete(id);
        group.push(id);
        if (id === step.id) break;
      }
      groups.push(group);
    }
  }
  return groups;
};

import type { Neighbourhood } from '../document/site.ts';
import { fitted } from '../figures/drawing.ts';
import { compareIds } from '../graph/trace-graph.ts';
import type { TechnicalRecord } from '../records/record.ts';
import type { SiteContext } from './site-context.ts';

const nodeWidth = 160;
const nodeHeight = 42;
const columnGap = 48;
const rowGap = 10;
/** Most nodes in one column; what has no room is counted. */
const mostNodes = 8;

interface Placed {
  readonly id: string;
  readonly parents: ReadonlySet<string>;
}

/**
 * A record between what it answers to, on the left, and what answers to it, on the right; two steps each way. The lists
 * below it say the same in words.
 */
export const neighbourhood = (record: TechnicalRecord, context: SiteContext): Neighbourhood => {
  const { graph, standing, evidence, recordPaths } = context;
  const seen = new Set([record.id]);
  const next = (ids: readonly string[], direction: 'out' | 'in'): readonly Placed[] => {
    const found = new Map<string, Set<string>>();
    for (const id of ids) {
      const links = direction === 'out' ? graph.linksFrom(id) : graph.linksTo(id);
      for (const link of links) {
        const other = direction === 'out' ? link.to : link.from;
        if (seen.has(other) || graph.record(other)?.status === 'retired') continue;
        const parents = found.get(other);
        if (parents) parents.add(id);
        else found.set(other, new Set([id]));
      }
    }
    for (const id of found.keys()) seen.add(id);
    return [...found].map(([id, parents]) => ({ id, parents })).sort((a, b) => compareIds(a.id, b.id));
  };
  const shownOf = (placed: readonly Placed[]): readonly string[] =>
    placed.slice(0, placed.length > mostNodes ? mostNodes - 1 : mostNodes).map(({ id }) => id);
  const left = next([record.id], 'out');
  const right = next([record.id], 'in');
  const columns: readonly { readonly placed: readonly Placed[]; readonly side: -1 | 0 | 1 }[] = [
    { placed: next(shownOf(left), 'out'), side: -1 as const },
    { placed: left, side: -1 as const },
    { placed: [{ id: record.id, parents: new Set<string>() }], side: 0 as const },
    { placed: right, side: 1 as const },
    { placed: next(shownOf(right), 'in'), side: 1 as const },
  ].filter((column) => column.placed.length > 0);
  const tallest = Math.max(...columns.map(({ placed }) => Math.min(mostNodes, placed.length)));
  const heightPx = tallest * (nodeHeight + rowGap) + rowGap;
  const places = new Map<string, { readonly x: number; readonly y: number }>();
  const nodes = columns.flatMap(({ placed }, column) => {
    const shown = shownOf(placed);
    const count = Math.min(mostNodes, placed.length);
    const top = (heightPx - count * (nodeHeight + rowGap) + rowGap) / 2;
    const x = column * (nodeWidth + columnGap) + 2;
    const at = (index: number) => ({ x, y: top + index * (nodeHeight + rowGap) });
    for (const [index, id] of shown.entries()) places.set(id, at(index));
    return [
      ...shown.map((id, index): Neighbourhood['nodes'][number] => {
        const other = graph.record(id);
        const state = standing.get(id)?.state ?? evidence.get(id)?.verdict;
        const path = recordPaths.get(id);
        return {
          id,
          ...(path === undefined ? {} : { path }),
          label: id,
          title: fitted(other?.title ?? '', nodeWidth - 20, 12),
          ...(state === undefined ? {} : { state }),
          ...at(index),
          ...(id === record.id ? { isCentre: true as const } : {}),
        };
      }),
      ...(placed.length > shown.length
        ? [
            {
              id: `more-${column}`,
              label: `${placed.length - shown.length} more`,
              title: column === 0 || column === columns.length - 1 ? '' : 'listed below',
              ...at(shown.length),
            },
          ]
        : []),
    ];
  });
  const edges = columns.flatMap(({ placed, side }) =>
    placed.flatMap(({ id, parents }) =>
      [...parents].flatMap((parent): Neighbourhood['edges'] => {
        const [a, b] = [places.get(id), places.get(parent)];
        if (!a || !b) return [];
        const middle = nodeHeight / 2;
        // Drawn from left to right: what is answered to, then what answers.
        const [from, to] = side === -1 ? [a, b] : [b, a];
        return [{ from: { x: from.x + nodeWidth, y: from.y + middle }, to: { x: to.x, y: to.y + middle } }];
      }),
    ),
  );
  return {
    kind: 'neighbourhood',
    alternative: `${record.id} with what it names on the left and what names it on the right; the same is listed below.`,
    widthPx: columns.length * (nodeWidth + columnGap) - columnGap + 4,
    heightPx,
    nodeWidth,
    nodeHeight,
    nodes,
    edges,
  };
};

import type { Grid, GridRow, SitePart } from '../document/site.ts';
import { compareIds } from '../graph/trace-graph.ts';
import type { TechnicalRecord } from '../records/record.ts';
import { text } from '../views/cells.ts';
import { neighbourhood } from './neighbourhood.ts';
import { mark, type SiteContext } from './site-context.ts';

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** Links of a record both ways: what it names, and what names it, by relation. */
export const linkParts = (record: TechnicalRecord, context: SiteContext): readonly SitePart[] => {
  const { graph, standing, evidence } = context;
  const rowsOf = (
    links: readonly { readonly id: string; readonly relation: string }[],
  ): readonly GridRow[] => {
    const byRelation = new Map<string, Set<string>>();
    for (const { id, relation } of links) {
      const known = byRelation.get(relation);
      if (known) known.add(id);
      else byRelation.set(relation, new Set([id]));
    }
    return [...byRelation].flatMap(([relation, ids]) =>
      [...ids].sort(compareIds).map((id): GridRow => {
        const other = graph.record(id);
        const state = standing.get(id)?.state ?? evidence.get(id)?.verdict;
        return {
          cells: [
            [text(capital(relation))],
            [{ kind: 'record-reference', id }, text(` ${other?.title ?? ''}`)],
            [text(graph.types.get(other?.type ?? '')?.title ?? other?.type ?? '')],
            [state === undefined ? mark(other?.status ?? '') : mark(state)],
          ],
        };
      }),
    );
  };
  const out = rowsOf(graph.linksFrom(record.id).map(({ to, relation }) => ({ id: to, relation })));
  const into = rowsOf(graph.linksTo(record.id).map(({ from, inverse }) => ({ id: from, relation: inverse })));
  if (out.length + into.length === 0)
    return [{ kind: 'words', children: [text('No record names it, and it names none.')] }];
  const grid = (id: string, caption: string, rows: readonly GridRow[]): readonly Grid[] =>
    rows.length === 0
      ? []
      : [
          {
            kind: 'grid',
            id: `${id}-${record.id}`,
            caption,
            ...(rows.length > 30 ? {} : { isPlain: true }),
            whenEmpty: '',
            columns: [
              { title: 'Relation', width: 20, groups: true },
              { title: 'Record', width: 44 },
              { title: 'Kind', width: 20, isChoice: true },
              { title: 'Stands', width: 16, isChoice: true },
            ],
            rows,
          },
        ];
  return [
    neighbourhood(record, context),
    ...grid('names', `What ${record.id} names`, out),
    ...grid('named', `What names ${record.id}`, into),
  ];
};

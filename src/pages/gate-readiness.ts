import type { GridRow, SitePart } from '../document/site.ts';
import { text } from '../views/cells.ts';
import { mark, pageLink, type SiteContext } from './site-context.ts';

/** A gate as a design plan writes it, as far as this page reads it. */
interface Gate {
  readonly name?: unknown;
  readonly gate?: unknown;
  readonly stage?: unknown;
  readonly planned?: unknown;
  readonly date?: unknown;
  readonly needs?: unknown;
}

const asText = (value: unknown): string | undefined =>
  typeof value === 'string' || typeof value === 'number' ? String(value) : undefined;

/** Readiness by gate, where a record of the file plans gates. */
export const gateParts = (context: SiteContext): readonly SitePart[] => {
  const rows = [...context.graph.records.values()].flatMap((record): readonly GridRow[] => {
    const gates = record.status === 'retired' ? undefined : record.fields['gates'];
    if (!Array.isArray(gates)) return [];
    return (gates as readonly Gate[]).map((gate) => ({
      cells: [
        [text(asText(gate.name) ?? asText(gate.gate) ?? asText(gate.stage) ?? 'gate')],
        [text(asText(gate.planned) ?? asText(gate.date) ?? '–')],
        [pageLink(context.recordPaths.get(record.id) ?? '', text(`${record.id} ${record.title}`))],
        [mark(record.status)],
      ],
    }));
  });
  if (rows.length === 0) return [];
  return [
    {
      kind: 'section',
      id: 'gates',
      title: 'Gates',
      parts: [
        {
          kind: 'grid',
          id: 'gates',
          caption: 'Gates of the design plan',
          isPlain: true,
          whenEmpty: '',
          columns: [
            { title: 'Gate', width: 30 },
            { title: 'Planned', width: 16 },
            { title: 'Plan', width: 36 },
            { title: 'Status of the plan', width: 18 },
          ],
          rows,
        },
      ],
    },
  ];
};

import type { Block, Cell, Inline, Table } from '../document/model.ts';
import { cell, onLines, reference, text } from './cells.ts';

/** Pieces that the parts of the change impact report share. */

export const heading = (title: string): Block => ({ kind: 'heading', level: 1, children: [text(title)] });
export const paragraph = (...children: readonly Inline[]): Block => ({ kind: 'paragraph', children });

/** A path as `VR-09 › VP-09 › DI-09`. */
export const pathOf = (path: readonly string[]): readonly Inline[] =>
  path.flatMap((id, index) =>
    index === 0 ? [reference(id)] : [text(' › ', { tone: 'quiet' }), reference(id)],
  );

/** Reasons, each with the way that leads to the change. */
export const reasonLines = (
  reasons: readonly { readonly text: string; readonly path: readonly string[] }[],
): readonly Inline[] =>
  onLines(
    reasons.flatMap((reason) => [
      [text(reason.text)],
      ...(reason.path.length > 1 ? [[text('by ', { tone: 'quiet' }), ...pathOf(reason.path)]] : []),
    ]),
  );

/** A record by id and title, on two lines. */
export const named = (id: string, title: string): Cell => cell(...onLines([[reference(id)], [text(title)]]));

type Columns = Table['columns'];
type Rows = readonly (readonly Cell[])[];

export const table = (caption: string, columns: Columns, rows: Rows): Table => ({
  kind: 'table',
  caption,
  columns,
  rows: rows.map((cells) => ({ cells })),
});

/** A section with one table, or with a sentence where there is nothing to list. */
export const section = <Item>(
  { title, none, caption }: { readonly title: string; readonly none: string; readonly caption: string },
  list: readonly Item[],
  columns: Columns,
  row: (item: Item) => readonly Cell[],
): readonly Block[] => [
  heading(title),
  list.length === 0 ? paragraph(text(none)) : table(caption, columns, list.map(row)),
];

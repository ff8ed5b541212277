import type { Block, Cell, Inline, Table } from '../document/model.ts';
import { reference, text } from './cells.ts';

/** Small constructors for the reports of vouch. */

/** A paragraph of its pieces. */
export const paragraph = (...children: readonly Inline[]): Block => ({ kind: 'paragraph', children });
/** A heading; with a record's id it is the record's anchor. */
export const heading = (level: 1 | 2, title: string, recordId?: string): Block => ({
  kind: 'heading',
  level,
  children: [text(title)],
  ...(recordId === undefined ? {} : { recordId }),
});

/** A table with a caption. */
export const table = (
  caption: string,
  columns: Table['columns'],
  rows: readonly (readonly Cell[])[],
): Table => ({
  kind: 'table',
  caption,
  columns,
  rows: rows.map((cells) => ({ cells })),
});

/** Ids in a row: `DI-01, DI-02`. */
export const commaIds = (ids: readonly string[]): readonly Inline[] =>
  ids.flatMap((id, index) => (index === 0 ? [reference(id)] : [text(', '), reference(id)]));

/** Ids as a way: `UN-01 › DI-01`. */
export const pathOf = (ids: readonly string[]): readonly Inline[] =>
  ids.flatMap((id, index) => (index === 0 ? [reference(id)] : [text(' › '), reference(id)]));

import type { Block, Table } from './model.ts';

/** All tables of a document in order, also those on landscape pages and in quotes. */
export const tablesOf = (blocks: readonly Block[]): readonly Table[] =>
  blocks.flatMap((block): readonly Table[] => {
    if (block.kind === 'table') return [block];
    if (block.kind === 'landscape' || block.kind === 'quote') return tablesOf(block.blocks);
    return [];
  });

/** A table that gets a file of its own, with the name that it is known by in the document. */
export interface NamedTable {
  readonly name: string;
  readonly table: Table;
}

/**
 * Tables that the text names. One with a caption stands alone; those without a caption that share an anchor are parts of
 * one table, told apart by headings on paper, and are joined. Other tables without a caption are asides.
 */
export const namedTablesOf = (blocks: readonly Block[]): readonly NamedTable[] => {
  const tables = tablesOf(blocks);
  const captioned = tables.filter(({ caption }) => caption !== undefined);
  const parts = new Map<string, Table>();
  for (const table of tables) {
    if (table.caption !== undefined || table.anchor === undefined) continue;
    const known = parts.get(table.anchor);
    parts.set(table.anchor, known ? { ...known, rows: [...known.rows, ...table.rows] } : table);
  }
  return [
    ...captioned.map((table, index) => ({ name: table.anchor ?? `table-${index + 1}`, table })),
    ...[...parts].map(([name, table]) => ({ name, table })),
  ];
};

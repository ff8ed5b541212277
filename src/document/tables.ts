import type { Block, Table } from './model.ts';

/** All tables of a document in order, also those on landscape pages and in quotes. */
export const tablesOf = (blocks: readonly Block[]): readonly Table[] =>
  blocks.flatMap((block): readonly Table[] => {
    if (block.kind === 'table') return [block];
    if (block.kind === 'landscape' || block.kind === 'quote') return tablesOf(block.blocks);
    return [];
  });

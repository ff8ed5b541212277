import type { Block, Document, Table } from './model.ts';

/** Counts headings, tables and figures in the order in which they stand: one set per pass over a document. */
export interface Counters {
  /**
   * The number of the next heading and the level it is shown at: a heading is never more than one level below the
   * one before it, since readers by ear and contents lists rely on it.
   */
  readonly heading: (level: number) => {
    readonly level: number;
    readonly number: string;
  };
  /** Number of the next captioned table. */
  readonly table: () => number;
  /** Number of the next figure. */
  readonly figure: () => number;
}

/** New counters, all at nought. */
export function createCounters(): Counters {
  let numbers: number[] = [];
  let tables = 0;
  let figures = 0;
  return {
    heading(level) {
      const shown = Math.max(1, Math.min(level, numbers.length + 1));
      const above = numbers.slice(0, shown);
      numbers = [...above.slice(0, shown - 1), (above[shown - 1] ?? 0) + 1];
      return { level: shown, number: numbers.join('.') };
    },
    table() {
      tables += 1;
      return tables;
    },
    figure() {
      figures += 1;
      return figures;
    },
  };
}

/** A place that cross-references can name. */
interface Target {
  readonly kind: 'section' | 'table' | 'figure';
  /** As printed in running text: `section 3.1`, `Table 2`, `Figure 1`. */
  readonly label: string;
}

/** All that can be linked to in one document. */
export interface Targets {
  /** By anchor; where an anchor is given twice the first holds. */
  readonly anchors: ReadonlyMap<string, Target>;
  /** Records that open a heading, paragraph or table row. */
  readonly recordIds: ReadonlySet<string>;
  /** Records that open a heading: links lead there, and not to a row of an index before it. */
  readonly headedRecordIds: ReadonlySet<string>;
}

/** Finds the places that links may point to and numbers them. */
export function findTargets(document: Pick<Document, 'blocks'>): Targets {
  const anchors = new Map<string, Target>();
  const recordIds = new Set<string>();
  const headedRecordIds = new Set<string>();
  const counters = createCounters();
  const put = (anchor: string | undefined, target: Target) => {
    if (anchor !== undefined && !anchors.has(anchor)) anchors.set(anchor, target);
  };
  forEachBlock(document.blocks, (block, nested) => {
    if ('recordId' in block && block.recordId !== undefined) recordIds.add(block.recordId);
    if (block.kind === 'heading' && block.recordId !== undefined) headedRecordIds.add(block.recordId);
    if (block.kind === 'heading' && !nested) {
      put(block.anchor, {
        kind: 'section',
        label: `section ${counters.heading(block.level).number}`,
      });
    } else if (block.kind === 'table' && isDrawn(block)) {
      if (block.caption !== undefined)
        put(block.anchor, {
          kind: 'table',
          label: `Table ${counters.table()}`,
        });
      for (const row of block.rows) {
        // A row without cells of its own has no place for a mark.
        if (row.recordId !== undefined && row.cells.length > 0) recordIds.add(row.recordId);
      }
    } else if (block.kind === 'figure') {
      put(block.anchor, {
        kind: 'figure',
        label: `Figure ${counters.figure()}`,
      });
    }
  });
  return { anchors, recordIds, headedRecordIds };
}

/** Whether a table is shown at all: one without columns has nothing to show and gets no number. */
export function isDrawn(table: Table): boolean {
  return table.columns.length > 0;
}

/**
 * Visits every block in reading order, the ones within others too.
 *
 * @param visit gets the block and whether it stands within a list, quote or notice, where headings have no number
 */
export function forEachBlock(
  blocks: readonly Block[],
  visit: (block: Block, nested: boolean) => void,
  nested = false,
): void {
  for (const block of blocks) {
    visit(block, nested);
    if (block.kind === 'landscape') forEachBlock(block.blocks, visit, nested);
    else if (block.kind === 'quote' || block.kind === 'notice') forEachBlock(block.blocks, visit, true);
    else if (block.kind === 'list') for (const item of block.items) forEachBlock(item.blocks, visit, true);
  }
}

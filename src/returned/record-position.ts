import type { Nearness } from './review-marks.ts';

/** Where the record of a mark is known only at the end of its table row. */
interface Waiting {
  readonly cell: number;
  readonly settle: (bookmark: string | undefined, nearness: Nearness) => void;
}

interface Row {
  cells: number;
  /** Records named in the row, by bookmark or by link, with the cell in which they stand. */
  readonly named: { readonly cell: number; readonly bookmark: string; readonly isBookmark: boolean }[];
  readonly waiting: Waiting[];
}

/** Follows through a document which record the reader is at. */
export interface RecordPosition {
  readonly bookmarkStarts: (id: string, name: string) => void;
  readonly bookmarkEnds: (id: string) => void;
  readonly linkTo: (anchor: string) => void;
  readonly rowStarts: () => void;
  readonly rowEnds: () => void;
  readonly cellStarts: () => void;
  /** Asks for the record here; the answer may come at the end of the table row. */
  readonly ask: (settle: Waiting['settle']) => void;
}

const isRecord = (name: string): boolean => name.startsWith('rec_');

/**
 * The order of the rules: the record whose bookmark is open; the record named in the same cell, then in the same row,
 * bookmarks before links; the record that was closed last.
 */
export const followRecords = (): RecordPosition => {
  const open = new Map<string, string>();
  const rows: Row[] = [];
  let lastClosed: string | undefined;
  const innermost = (): string | undefined => [...open.values()].at(-1);
  const name = (bookmark: string, isBookmark: boolean): void => {
    const row = rows.at(-1);
    row?.named.push({ cell: row.cells, bookmark, isBookmark });
  };
  return {
    bookmarkStarts: (id, bookmark) => {
      if (!isRecord(bookmark)) return;
      open.set(id, bookmark);
      name(bookmark, true);
    },
    // LibreOffice writes a bookmark over several paragraphs as two starts of one name and ends only one of them.
    bookmarkEnds: (id) => {
      const bookmark = open.get(id);
      if (bookmark === undefined) return;
      for (const [each, other] of [...open]) if (other === bookmark) open.delete(each);
      lastClosed = bookmark;
    },
    linkTo: (anchor) => {
      if (isRecord(anchor)) name(anchor, false);
    },
    rowStarts: () => {
      rows.push({ cells: 0, named: [], waiting: [] });
    },
    cellStarts: () => {
      const row = rows.at(-1);
      if (row) row.cells += 1;
    },
    rowEnds: () => {
      const row = rows.pop();
      if (!row) return;
      const outer = rows.at(-1);
      for (const { cell, settle } of row.waiting) {
        const candidates = [...row.named].sort(
          (a, b) =>
            Number(b.cell === cell) - Number(a.cell === cell) || Number(b.isBookmark) - Number(a.isBookmark),
        );
        const found = candidates[0]?.bookmark;
        if (found !== undefined) settle(found, 'row');
        else if (outer) outer.waiting.push({ cell: outer.cells, settle });
        else settle(lastClosed, lastClosed === undefined ? 'none' : 'after');
      }
    },
    ask: (settle) => {
      const here = innermost();
      if (here !== undefined) return settle(here, 'within');
      const row = rows.at(-1);
      if (row) row.waiting.push({ cell: row.cells, settle });
      else settle(lastClosed, lastClosed === undefined ? 'none' : 'after');
    },
  };
};

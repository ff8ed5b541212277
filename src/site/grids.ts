import { csvField } from '../writers/csv/csv-field.ts';
import { onOneLine, type RowData, wordsOfCell } from './cell-words.ts';
import { rowOf } from './grid-cells.ts';
import { rowsToShow } from './grid-rows.ts';
import { asksForViews, type GridKeys, type GridState, stateFromHash, stateToHash } from './grid-state.ts';
import { addTools, type Column, type Tools } from './grid-tools.ts';
import { showWindow } from './grid-window.ts';

/** Tables with fewer rows need no tools; they can still be sorted. */
const fewestForTools = 6;

/** More rows than these are shown through a window. */
const mostWhole = 300;

/** Rows of long tables, as data files that ran before leave them. */
const longTables: ReadonlyMap<string, readonly RowData[]> =
  (globalThis as { readonly plinthRows?: ReadonlyMap<string, readonly RowData[]> }).plinthRows ?? new Map();

/** Narrower pages than this leave out spare columns. */
const narrow = 1280;

interface Rows {
  readonly values: readonly (readonly string[])[];
  readonly element: (index: number) => HTMLTableRowElement;
}

const addLines = (node: Node, lines: string[]): void => {
  for (const child of node.childNodes)
    if (child.nodeName === 'BR') lines.push('');
    else if (child.nodeType === Node.TEXT_NODE) lines[lines.length - 1] += child.textContent ?? '';
    else addLines(child, lines);
};

/** The words of a cell; its text alone would put the end of a line and the start of the next together. */
const textOf = (cell: Element): string => {
  const lines = [''];
  addLines(cell, lines);
  return onOneLine(lines);
};

/** The rows that stand in the page; of a long table, those of its data file. */
const rowsOf = (id: string, body: HTMLTableSectionElement): Rows => {
  const data = longTables.get(id);
  if (!data) {
    const elements = [...body.rows];
    return {
      values: elements.map((row) => [...row.cells].map(textOf)),
      element: (index) => elements[index] as HTMLTableRowElement,
    };
  }
  const made: HTMLTableRowElement[] = [];
  return {
    values: data.map((row) => row.map((pieces) => wordsOfCell(pieces).trim())),
    element: (index) => {
      made[index] ??= rowOf(data[index] ?? []);
      return made[index];
    },
  };
};

const columnsOf = (head: HTMLTableRowElement): readonly Column[] =>
  [...head.cells].map((cell) => ({
    title: textOf(cell),
    isChoice: cell.dataset['choice'] !== undefined,
    isHidden:
      cell.dataset['hidden'] !== undefined || (cell.dataset['spare'] !== undefined && innerWidth < narrow),
    groups: cell.dataset['groups'] !== undefined,
    isRight: cell.classList.contains('right'),
  }));

const startGrid = (grid: HTMLElement): void => {
  const id = grid.dataset['grid'] ?? '';
  const table = grid.querySelector('table');
  const scroll = grid.querySelector<HTMLElement>('.scroll');
  const head = table?.tHead?.rows[0];
  const body = table?.tBodies[0];
  if (!table || !scroll || !head || !body) return;
  // A long table whose data file is missing stays as it is in the page: its first rows.
  if (grid.dataset['long'] !== undefined && !longTables.has(id)) return;
  const columns = columnsOf(head);
  const usual = new Set(columns.flatMap((column, index) => (column.isHidden ? [] : [index])));
  const rows = rowsOf(id, body);
  grid.querySelector('.no-script')?.remove();
  const none: GridState = { words: '', chosen: new Map() };
  const keys: GridKeys = { grid: id, columns: [...head.cells].map((cell) => cell.dataset['key'] ?? '') };
  let state: GridState = stateFromHash(location.hash, keys) ?? none;
  let shown: readonly number[] = [];
  let tools: Tools | undefined;
  let closeWindow = (): void => {};

  const visible = (): ReadonlySet<number> => state.columns ?? usual;

  const dress = (row: HTMLTableRowElement): HTMLTableRowElement => {
    const on = visible();
    for (const [index, cell] of [...row.cells].entries()) {
      cell.classList.toggle('off', !on.has(index));
      if (columns[index]?.isRight) cell.classList.add('right');
    }
    return row;
  };

  /** Words that say the same as in the row above are set back, whatever the order. */
  const setBack = (index: number, position: number, row: HTMLTableRowElement): HTMLTableRowElement => {
    const above = position > 0 ? rows.values[shown[position - 1] ?? -1] : undefined;
    for (const [at, column] of columns.entries())
      if (column.groups)
        row.cells[at]?.classList.toggle(
          'same',
          above !== undefined && above[at] === rows.values[index]?.[at],
        );
    return row;
  };

  const rowAt = (position: number): HTMLTableRowElement => {
    const index = shown[position] ?? 0;
    return dress(setBack(index, position, rows.element(index)));
  };

  const draw = (): void => {
    shown = rowsToShow(rows.values, state);
    closeWindow();
    const isWindow = shown.length > mostWhole;
    grid.classList.toggle('virtual', isWindow);
    dress(head);
    for (const [index, column] of [...(table.querySelector('colgroup')?.children ?? [])].entries())
      column.classList.toggle('off', !visible().has(index));
    for (const [index, cell] of [...head.cells].entries()) {
      if (state.sort?.column === index)
        cell.setAttribute('aria-sort', state.sort.isDescending ? 'descending' : 'ascending');
      else cell.removeAttribute('aria-sort');
    }
    if (isWindow) closeWindow = showWindow({ table, body, scroll, count: shown.length, rowAt });
    else if (shown.length > 0) body.replaceChildren(...shown.map((_, position) => rowAt(position)));
    else body.replaceChildren(emptyRow(visible().size));
    tools?.show(state, shown.length);
  };

  const change = (next: GridState): void => {
    state = next;
    scroll.scrollTop = 0;
    draw();
    const hash = stateToHash(location.hash, keys, state);
    // Opened from the disk, a page may not always change its address; the view is then not kept.
    try {
      history.replaceState(null, '', hash === '' ? location.pathname + location.search : hash);
    } catch {
      return;
    }
  };

  const csv = (): string => {
    const on = [...columns.keys()].filter((index) => visible().has(index));
    const lines = [
      on.map((index) => columns[index]?.title ?? ''),
      ...shown.map((row) => on.map((index) => rows.values[row]?.[index] ?? '')),
    ];
    return lines.map((line) => `${line.map((value) => csvField(value, true)).join(',')}\r\n`).join('');
  };

  for (const [index, cell] of [...head.cells].entries()) {
    const button = document.createElement('button');
    button.type = 'button';
    button.className = 'sort';
    button.append(...cell.childNodes);
    button.addEventListener('click', () => {
      const { sort, ...rest } = state;
      if (sort?.column !== index) change({ ...rest, sort: { column: index, isDescending: false } });
      else if (!sort.isDescending) change({ ...rest, sort: { column: index, isDescending: true } });
      else change(rest);
    });
    cell.append(button);
  }
  if (rows.values.length >= fewestForTools)
    tools = addTools({ grid, id, columns, values: rows.values, usual, change, current: () => state, csv });
  draw();

  addEventListener('hashchange', () => {
    if (!asksForViews(location.hash)) return;
    state = stateFromHash(location.hash, keys) ?? none;
    draw();
  });
  addEventListener('beforeprint', () => {
    if (shown.length <= mostWhole) return;
    closeWindow();
    grid.classList.remove('virtual');
    body.replaceChildren(...shown.map((_, position) => rowAt(position)));
  });
  addEventListener('afterprint', () => {
    if (shown.length > mostWhole) draw();
  });
};

const emptyRow = (columns: number): HTMLTableRowElement => {
  const row = document.createElement('tr');
  const cell = document.createElement('td');
  cell.colSpan = Math.max(1, columns);
  cell.className = 'no-results';
  cell.textContent = 'No row meets the filters.';
  row.append(cell);
  return row;
};

/** Gives every table of the page that asks for it its tools. */
export const startGrids = (): void => {
  for (const grid of document.querySelectorAll<HTMLElement>('[data-grid]')) startGrid(grid);
};

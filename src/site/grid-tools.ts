import { compareWords, valuesOf } from './grid-rows.ts';
import type { GridState } from './grid-state.ts';

export interface Column {
  readonly title: string;
  readonly isChoice: boolean;
  readonly isHidden: boolean;
  readonly groups: boolean;
  readonly isRight: boolean;
}

interface ToolInputs {
  readonly grid: HTMLElement;
  readonly id: string;
  readonly columns: readonly Column[];
  readonly values: readonly (readonly string[])[];
  /** Columns that are shown from the start. */
  readonly usual: ReadonlySet<number>;
  readonly current: () => GridState;
  readonly change: (next: GridState) => void;
  readonly csv: () => string;
}

export interface Tools {
  /** Brings the tools in line with what the table shows. */
  readonly show: (state: GridState, count: number) => void;
}

/** Values beyond this number are looked for by words instead. */
const mostValues = 30;

interface Box {
  readonly label: HTMLLabelElement;
  readonly input: HTMLInputElement;
}

const box = (words: string, count?: number): Box => {
  const label = document.createElement('label');
  const input = document.createElement('input');
  input.type = 'checkbox';
  const name = document.createElement('span');
  name.textContent = words === '' ? 'none' : words;
  label.append(input, name);
  if (count !== undefined) {
    const number = document.createElement('span');
    number.className = 'count';
    number.textContent = String(count);
    label.append(number);
  }
  return { label, input };
};

const fold = (title: string): { readonly details: HTMLDetailsElement; readonly panel: HTMLDivElement } => {
  const details = document.createElement('details');
  const summary = document.createElement('summary');
  summary.textContent = title;
  const panel = document.createElement('div');
  panel.setAttribute('role', 'group');
  panel.setAttribute('aria-label', title);
  details.append(summary, panel);
  details.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape' || !details.open) return;
    details.open = false;
    summary.focus();
    event.stopPropagation();
  });
  // Only one panel lies open, and a click elsewhere closes it.
  document.addEventListener('click', (event) => {
    if (details.open && event.target instanceof Node && !details.contains(event.target)) details.open = false;
  });
  return { details, panel };
};

const button = (words: string, act: () => void): HTMLButtonElement => {
  const made = document.createElement('button');
  made.type = 'button';
  made.textContent = words;
  made.addEventListener('click', act);
  return made;
};

const download = (name: string, text: string): void => {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([`\uFEFF${text}`], { type: 'text/csv;charset=utf-8' }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
};

/** Tools above a table: words to look for, values to choose among, columns, and the view as CSV. */
export const addTools = ({ grid, id, columns, values, usual, current, change, csv }: ToolInputs): Tools => {
  const bar = document.createElement('div');
  bar.className = 'bar-tools';
  const words = document.createElement('input');
  words.type = 'search';
  words.placeholder = 'Filter rows';
  words.setAttribute('aria-label', `Filter rows: ${grid.querySelector('caption')?.textContent ?? id}`);
  words.autocomplete = 'off';
  words.addEventListener('input', () => change({ ...current(), words: words.value }));
  bar.append(words);

  const choices = columns.flatMap((column, index) => {
    if (!column.isChoice) return [];
    const counts = [...valuesOf(values, index)].sort(([a], [b]) => compareWords(a, b));
    if (counts.length < 2 || counts.length > mostValues) return [];
    const { details, panel } = fold(column.title);
    const boxes = counts.map(([value, count]) => {
      const { label, input } = box(value, count);
      input.addEventListener('change', () => {
        const chosen = new Map([...current().chosen].map(([key, set]) => [key, new Set(set)]));
        const set = chosen.get(index) ?? new Set();
        if (input.checked) set.add(value);
        else set.delete(value);
        if (set.size > 0) chosen.set(index, set);
        else chosen.delete(index);
        change({ ...current(), chosen });
      });
      panel.append(label);
      return { value, input };
    });
    bar.append(details);
    return [{ index, details, boxes }];
  });

  const { details: columnFold, panel: columnPanel } = fold('Columns');
  const columnBoxes = columns.map((column, index) => {
    const { label, input } = box(column.title);
    // The first column says what the row is.
    input.disabled = index === 0;
    input.addEventListener('change', () => {
      const shown = new Set(current().columns ?? usual);
      if (input.checked) shown.add(index);
      else shown.delete(index);
      const { columns: _, ...rest } = current();
      const isUsual = shown.size === usual.size && [...shown].every((each) => usual.has(each));
      change(isUsual ? rest : { ...rest, columns: new Set([...shown].sort((a, b) => a - b)) });
    });
    columnPanel.append(label);
    return input;
  });
  if (columns.length > 3) bar.append(columnFold);

  const clear = button('Clear', () => change({ words: '', chosen: new Map() }));
  const count = document.createElement('output');
  bar.append(
    button('CSV', () => download(`${id}.csv`, csv())),
    clear,
    count,
  );
  grid.prepend(bar);

  return {
    show: (state, shown) => {
      if (words.value !== state.words) words.value = state.words;
      for (const { index, details, boxes } of choices) {
        const chosen = state.chosen.get(index);
        details.classList.toggle('chosen', chosen !== undefined);
        for (const { value, input } of boxes) input.checked = chosen?.has(value) ?? false;
      }
      const visible = state.columns ?? usual;
      for (const [index, input] of columnBoxes.entries()) input.checked = visible.has(index);
      columnFold.classList.toggle('chosen', state.columns !== undefined);
      clear.hidden = state.words === '' && state.chosen.size === 0 && !state.columns && !state.sort;
      count.textContent = shown === values.length ? `${shown} rows` : `${shown} of ${values.length} rows`;
    },
  };
};

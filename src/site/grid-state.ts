import type { GridView } from './grid-rows.ts';

/** What is kept of a table in the address of the page, so that a view of it can be sent to somebody. */
export interface GridState extends GridView {
  /** Columns that are shown; undefined where they are the usual ones. */
  readonly columns?: ReadonlySet<number>;
}

/** `#?g=matrix&q=tip&f9=fail&s=2d&c=0.2.4`; empty where nothing was changed. */
export const stateToHash = (grid: string, state: GridState): string => {
  const entries: [string, string][] = [];
  if (state.words !== '') entries.push(['q', state.words]);
  for (const [column, values] of state.chosen)
    for (const value of values) entries.push([`f${column}`, value]);
  if (state.sort) entries.push(['s', `${state.sort.column}${state.sort.isDescending ? 'd' : 'a'}`]);
  if (state.columns) entries.push(['c', [...state.columns].join('.')]);
  if (entries.length === 0) return '';
  return `#?${new URLSearchParams([['g', grid], ...entries]).toString()}`;
};

/** The state that an address asks for, of the named table with so many columns; undefined where it asks for none. */
export const stateFromHash = (hash: string, grid: string, columns: number): GridState | undefined => {
  if (!hash.startsWith('#?')) return undefined;
  const parameters = new URLSearchParams(hash.slice(2));
  if (parameters.get('g') !== grid) return undefined;
  const chosen = new Map<number, Set<string>>();
  for (const [name, value] of parameters) {
    const column = /^f(\d{1,3})$/.exec(name)?.[1];
    if (column === undefined || Number(column) >= columns) continue;
    const known = chosen.get(Number(column)) ?? new Set();
    chosen.set(Number(column), known.add(value));
  }
  const sort = /^(\d{1,3})([ad])$/.exec(parameters.get('s') ?? '');
  const shown = (parameters.get('c') ?? '')
    .split('.')
    .filter((text) => /^\d{1,3}$/.test(text))
    .map(Number)
    .filter((column) => column < columns);
  return {
    words: parameters.get('q') ?? '',
    chosen,
    ...(sort && Number(sort[1]) < columns
      ? { sort: { column: Number(sort[1]), isDescending: sort[2] === 'd' } }
      : {}),
    ...(shown.length > 0 ? { columns: new Set(shown) } : {}),
  };
};

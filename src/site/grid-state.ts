import type { GridView } from './grid-rows.ts';

/** What is kept of a table in the address of the page, so that a view of it can be sent to somebody. */
export interface GridState extends GridView {
  /** Columns that are shown; undefined where they are the usual ones. */
  readonly columns?: ReadonlySet<number>;
}

/** A table as addresses name it: itself and its columns by keys, which stay when columns are added or moved. */
export interface GridKeys {
  readonly grid: string;
  readonly columns: readonly string[];
}

const start = '#?';

/** Keys of columns never begin with a low line, so these are none. */
const wordsName = '_words';
const sortName = '_sort';
const columnsName = '_columns';

const entriesOf = ({ grid, columns: keys }: GridKeys, state: GridState): readonly [string, string][] => {
  const key = (column: number): string => keys[column] ?? '';
  return [
    ...(state.words === '' ? [] : [[`${grid}.${wordsName}`, state.words] as [string, string]]),
    ...[...state.chosen].flatMap(([column, values]) =>
      [...values].map((value): [string, string] => [`${grid}.${key(column)}`, value]),
    ),
    ...(state.sort
      ? [
          [`${grid}.${sortName}`, `${state.sort.isDescending ? '-' : ''}${key(state.sort.column)}`] as [
            string,
            string,
          ],
        ]
      : []),
    ...(state.columns
      ? [[`${grid}.${columnsName}`, [...state.columns].map(key).join('.')] as [string, string]]
      : []),
  ];
};

/** Table and rest of a name. A key has no full stop, a table's id may have some. */
const splitName = (name: string): readonly [string, string] => {
  const at = name.lastIndexOf('.');
  return at === -1 ? ['', name] : [name.slice(0, at), name.slice(at + 1)];
};

/** Whether an address asks for views of tables, rather than for a place on the page. */
export const asksForViews = (hash: string): boolean => hash.startsWith(start);

/**
 * The address with the view of one table, and those of the other tables that it had:
 * `#?matrix._words=tip&matrix.verdict=fail&matrix._sort=-record&matrix._columns=user-need.record`. Empty where none was
 * changed.
 */
export const stateToHash = (hash: string, keys: GridKeys, state: GridState): string => {
  const others = asksForViews(hash)
    ? [...new URLSearchParams(hash.slice(start.length))].filter(([name]) => splitName(name)[0] !== keys.grid)
    : [];
  const entries = [...others, ...entriesOf(keys, state)];
  return entries.length === 0 ? '' : `${start}${new URLSearchParams(entries).toString()}`;
};

/** The view of the named table that an address asks for; undefined where it asks for none. */
export const stateFromHash = (hash: string, { grid, columns: keys }: GridKeys): GridState | undefined => {
  if (!asksForViews(hash)) return undefined;
  const own = [...new URLSearchParams(hash.slice(start.length))].flatMap(
    ([name, value]): readonly (readonly [string, string])[] => {
      const [table, rest] = splitName(name);
      return table === grid ? [[rest, value]] : [];
    },
  );
  if (own.length === 0) return undefined;
  const chosen = new Map<number, Set<string>>();
  let words = '';
  let sort: GridState['sort'];
  let shown: readonly number[] = [];
  for (const [name, value] of own) {
    if (name === wordsName) words = value;
    else if (name === sortName) {
      const isDescending = value.startsWith('-');
      const column = keys.indexOf(isDescending ? value.slice(1) : value);
      if (column !== -1) sort = { column, isDescending };
    } else if (name === columnsName)
      shown = value
        .split('.')
        .map((key) => keys.indexOf(key))
        .filter((column) => column !== -1);
    else {
      const column = keys.indexOf(name);
      if (column === -1) continue;
      chosen.set(column, (chosen.get(column) ?? new Set()).add(value));
    }
  }
  return {
    words,
    chosen,
    ...(sort ? { sort } : {}),
    ...(shown.length > 0 ? { columns: new Set(shown) } : {}),
  };
};

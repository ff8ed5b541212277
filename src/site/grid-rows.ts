/** What a table shows of its rows: words that must stand in them, values that are chosen, and the order. */
export interface GridView {
  readonly words: string;
  /** For a column, the values that are shown; a column that is not named shows all. */
  readonly chosen: ReadonlyMap<number, ReadonlySet<string>>;
  readonly sort?: { readonly column: number; readonly isDescending: boolean };
}

/** Order of words as people count: DI-2 before DI-10; numbers by their size. */
export const compareWords = (a: string, b: string): number => {
  const [x, y] = [Number(a), Number(b)];
  if (a !== '' && b !== '' && Number.isFinite(x) && Number.isFinite(y)) return x - y;
  const left = a.toLowerCase().split(/(\d+)/);
  const right = b.toLowerCase().split(/(\d+)/);
  for (let index = 0; index < Math.min(left.length, right.length); index += 1) {
    const [p = '', q = ''] = [left[index], right[index]];
    if (p === q) continue;
    // Words and numbers take turns in both, so like is compared with like.
    const byNumber = index % 2 === 1 ? Number(p) - Number(q) : 0;
    return byNumber !== 0 ? byNumber : p < q ? -1 : 1;
  }
  return left.length - right.length;
};

/** Numbers of the rows to show, in order. `values` holds the words of each cell, row by row. */
export const rowsToShow = (values: readonly (readonly string[])[], view: GridView): readonly number[] => {
  const words = view.words
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== '');
  const chosen = [...view.chosen];
  const shown: number[] = [];
  for (const [index, row] of values.entries()) {
    if (!chosen.every(([column, allowed]) => allowed.has(row[column] ?? ''))) continue;
    if (words.length > 0) {
      const all = row.join('\u0000').toLowerCase();
      if (!words.every((word) => all.includes(word))) continue;
    }
    shown.push(index);
  }
  const { sort } = view;
  if (!sort) return shown;
  const direction = sort.isDescending ? -1 : 1;
  return shown.sort(
    (a, b) =>
      direction * compareWords(values[a]?.[sort.column] ?? '', values[b]?.[sort.column] ?? '') || a - b,
  );
};

/** Values of a column with how many rows have each, in the order of their first row. */
export const valuesOf = (
  values: readonly (readonly string[])[],
  column: number,
): ReadonlyMap<string, number> => {
  const counts = new Map<string, number>();
  for (const row of values) {
    const value = row[column] ?? '';
    counts.set(value, (counts.get(value) ?? 0) + 1);
  }
  return counts;
};

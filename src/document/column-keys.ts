import type { GridColumn } from './site.ts';

/** Small letters, digits and hyphens of a title. */
const slug = (title: string): string =>
  title
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '') || 'column';

/**
 * Names of the columns of a table for the addresses of its views: each once, and as long as its title stays also the same
 * when columns are added or moved.
 */
export const columnKeys = (columns: readonly Pick<GridColumn, 'title' | 'key'>[]): readonly string[] => {
  const taken = new Set<string>();
  return columns.map(({ title, key }) => {
    const own = slug(key ?? title);
    let unique = own;
    for (let number = 2; taken.has(unique); number += 1) unique = `${own}-${number}`;
    taken.add(unique);
    return unique;
  });
};

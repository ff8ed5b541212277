import type { TechnicalRecord } from '../records/record.ts';
import type { ViewContext } from '../views/view.ts';
import { pathsFor } from './site-paths.ts';

/** A raw-data file in the copy: its page, the file itself byte for byte, and the records that name it. */
export interface RawFile {
  /** Path in the technical file. */
  readonly file: string;
  readonly pagePath: string;
  readonly filePath: string;
  readonly records: readonly TechnicalRecord[];
}

/** Deepest level of front matter that is searched for names of files. */
const deepest = 6;

const fileNamesIn = (value: unknown, depth = 0): readonly string[] => {
  if (typeof value === 'string') return /\.(?:csv|txt)$/i.test(value) ? [value] : [];
  if (typeof value !== 'object' || value === null || depth > deepest) return [];
  return Object.values(value).flatMap((inner) => fileNamesIn(inner, depth + 1));
};

/** The path that a record means by a name relative to its own folder; undefined where it leads out of the root. */
const resolved = (record: TechnicalRecord, name: string): string | undefined => {
  const parts = record.file.split('/').slice(0, -1);
  for (const part of name.split('/')) {
    if (part === '..' && parts.length === 0) return undefined;
    if (part === '..') parts.pop();
    else if (part !== '' && part !== '.') parts.push(part);
  }
  return parts.join('/');
};

/** Every raw-data file that a record names, in order of path. */
export const rawFiles = ({
  graph,
  files,
}: Pick<ViewContext, 'graph' | 'files'>): ReadonlyMap<string, RawFile> => {
  const users = new Map<string, TechnicalRecord[]>();
  for (const record of graph.records.values())
    for (const name of new Set(fileNamesIn(record.fields))) {
      const path = resolved(record, name);
      if (path === undefined || !files.has(path)) continue;
      const known = users.get(path);
      if (known) known.push(record);
      else users.set(path, [record]);
    }
  const names = [...users.keys()].sort();
  // Whatever the file is called, its copy opens as a table or as text, never as a page.
  const paths = pathsFor(names, (safe) => `raw/${/\.(?:csv|txt)$/i.test(safe) ? safe : `${safe}.csv`}`);
  return new Map(
    names.map((file) => {
      const filePath = paths.get(file) ?? '';
      return [file, { file, filePath, pagePath: `${filePath}.html`, records: users.get(file) ?? [] }];
    }),
  );
};

import type { ServedFiles } from '../host/serve-files.ts';
import { writeKeptPage } from '../writers/site/kept-page.ts';

/** One state of the copy as it was written, before pages of earlier states were added. */
export interface ShownState {
  readonly files: ServedFiles;
  /** Files of the technical file by the paths of the pages that were made from one. */
  readonly sources: ReadonlyMap<string, string>;
}

/** Something that is wrong with a file. */
export interface Trouble {
  readonly file: string;
  readonly place: string;
  readonly message: string;
}

interface Next extends ShownState {
  readonly state: string;
  readonly troubles: readonly Trouble[];
  /** Whether the folder still has a file of this name, readable or not. */
  readonly isThere: (file: string) => boolean;
}

/** Troubles that are told on a page. */
const mostTold = 3;

/** Files beside a page that it loads, by their paths from the site's folder. */
const loadedBy = (path: string, html: string): readonly string[] =>
  [...html.matchAll(/ (?:src|href)="([^"#?:]+)"/g)].flatMap(([, address = '']) => {
    try {
      return [decodeURIComponent(new URL(address, `http://copy/${path}`).pathname).slice(1)];
    } catch {
      return [];
    }
  });

/**
 * Pages whose file is there but gives no page now: they stay as they were last, with what is wrong above them. `before`
 * holds the last good form of each; the answer holds what is served, and what to hand in as `before` the next time.
 */
export const withKeptPages = (
  before: ShownState,
  next: Next,
): { readonly served: ServedFiles; readonly last: ShownState } => {
  const readable = new Set(next.sources.values());
  const kept = [...before.sources].filter(
    ([path, file]) => !next.files.has(path) && !readable.has(file) && next.isThere(file),
  );
  const served = new Map(next.files);
  const files = new Map(next.files);
  for (const [path, file] of kept) {
    const bytes = before.files.get(path);
    if (!bytes) continue;
    const html = Buffer.from(bytes).toString('utf8');
    for (const loaded of loadedBy(path, html)) {
      const needed = before.files.get(loaded);
      if (!needed || loaded.endsWith('.html') || served.has(loaded)) continue;
      served.set(loaded, needed);
      files.set(loaded, needed);
    }
    files.set(path, bytes);
    served.set(
      path,
      Buffer.from(
        writeKeptPage({
          path,
          html,
          live: next.state,
          file,
          troubles: next.troubles.filter((trouble) => trouble.file === file).slice(0, mostTold),
        }),
      ),
    );
  }
  return { served, last: { files, sources: new Map([...next.sources, ...kept]) } };
};

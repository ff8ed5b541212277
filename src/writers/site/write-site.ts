import { replaceUnprintable } from '../../document/clean-text.ts';
import type { Site, SitePage } from '../../document/site.ts';
import { writeFrame } from './frame.ts';
import { writeSearchIndex } from './search-index.ts';
import { pageInHand } from './site-page.ts';

/** One file of the copy, named from the site's folder. */
export interface SiteFile {
  readonly path: string;
  readonly content: string | Uint8Array;
}

/** Files that every copy has in its folder `assets`. */
export const siteAssets = ['icon.svg', 'site.css', 'theme.js', 'site.js'] as const;

export interface SiteOptions {
  /** Style sheet and scripts, by their names in the folder `assets`. */
  readonly assets: ReadonlyMap<string, string | Uint8Array>;
  /** A short name for a text, the same for the same text only. */
  readonly digest: (text: string) => string;
  /** Where the pages listen for changes, as those of `serve` do: the name of the state that they show. */
  readonly live?: string;
}

/** What our figures are drawn with. A drawing that holds anything else is kept inside of its page, where it can do nothing. */
const knownTags = /^(?:svg|g|title|desc|rect|line|circle|polygon|polyline|path|text|tspan)$/;

function isPlainDrawing(svg: string): boolean {
  if (
    !svg.startsWith('<svg xmlns="http://www.w3.org/2000/svg"') ||
    /<[!?]|\son|href|style|&(?!(?:amp|lt|gt|quot|apos|#39);)/i.test(svg.replace(/>[^<]*</g, '><'))
  )
    return false;
  return [...svg.matchAll(/<\/?([^\s/>]*)/g)].every(([, tag = '']) => knownTags.test(tag));
}

/** Writes one page alone, for an address that no file of the copy has; its drawings stand in the page itself. */
export function writeSitePage(site: Site, page: SitePage, live?: string): string {
  return writeFrame(
    pageInHand(site, page, (svg) => `data:image/svg+xml,${encodeURIComponent(svg)}`),
    live,
  );
}

/** Writes the browsable copy, one file after the other. The same site gives the same files. */
export function* writeSite(site: Site, options: SiteOptions): Generator<SiteFile> {
  for (const [name, content] of options.assets) yield { path: `assets/${name}`, content };
  const written = new Set<string>();
  let waiting: SiteFile[] = [];
  const putFigure = (svg: string): string => {
    if (!isPlainDrawing(svg)) return `data:image/svg+xml,${encodeURIComponent(svg)}`;
    const path = `figures/${options.digest(svg)}.svg`;
    if (!written.has(path)) {
      written.add(path);
      waiting.push({ path, content: svg });
    }
    return path;
  };
  for (const page of site.pages()) {
    const at = pageInHand(site, page, putFigure);
    yield { path: page.path, content: writeFrame(at, options.live) };
    yield* at.dataFiles.map(({ path, content }) => ({ path, content: replaceUnprintable(content).text }));
    yield* waiting;
    waiting = [];
  }
  for (const { path, bytes } of site.files()) yield { path, content: bytes };
  yield* writeSearchIndex(site.search());
}

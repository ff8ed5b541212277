import { shortCaution } from '../../document/short-caution.ts';
import type { Site, SitePage } from '../../document/site.ts';
import { createPage, type Page } from '../html/page.ts';
import { relativePath } from './relative-path.ts';

/** One page while it is written: where it lies, and the writer of documents that draws its blocks. */
export interface PageInHand {
  readonly site: Site;
  readonly page: SitePage;
  /** For blocks of the document model. */
  readonly html: Page;
  /** The way from this page to another. */
  readonly href: (path: string) => string;
  /** The way to the page that stands for a deliverable. */
  readonly fileHref: (path: string) => string | undefined;
  /** Puts a drawing into a file of its own, and says where. */
  readonly figureHref: (svg: string) => string;
  /** Data files that scripts of this page need, from the site's folder. */
  readonly dataFiles: { readonly path: string; readonly content: string }[];
  /** Anchors of sections with their titles, for the list of what is on the page. */
  readonly places: { readonly id: string; readonly title: string }[];
}

/** Begins a page; `putFigure` gives the path of a drawing's file from the site's folder. */
export function pageInHand(site: Site, page: SitePage, putFigure: (svg: string) => string): PageInHand {
  const href = (path: string): string => relativePath(page.path, path);
  const recordHref = (id: string): string | undefined => {
    const path = site.recordPaths.get(id);
    return path === undefined ? undefined : href(path);
  };
  const fileHref = (file: string): string | undefined => {
    const path = site.deliverablePaths.get((file.split('/').at(-1) ?? '').replace(/\.[^.]*$/, ''));
    return path === undefined ? undefined : href(path);
  };
  const figureHref = (svg: string): string => {
    const put = putFigure(svg);
    return put.startsWith('data:') ? put : href(put);
  };
  const blocks = page.parts.flatMap((part) => (part.kind === 'blocks' ? part.blocks : []));
  const frame = {
    id: page.path,
    title: page.title,
    number: '',
    revision: '',
    status: '',
    date: site.asOf,
    organisation: site.organisation,
    product: site.title,
    language: site.language,
    signatures: [],
    blocks,
    footnotes: page.footnotes ?? [],
    caution: shortCaution,
    provenance: [],
    recordTitles: site.recordTitles,
  };
  return {
    site,
    page,
    html: createPage(frame, { recordHref, fileHref, figureHref, isNumbered: false }),
    href,
    fileHref,
    figureHref,
    dataFiles: [],
    places: [],
  };
}

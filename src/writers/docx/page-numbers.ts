import { readPart } from './part-tree.ts';
import { pageCountKey } from './running-lines.ts';

/** What is known of the pages of a document. */
export interface PageNumbers {
  /** Page by bookmark, and the number of pages. */
  readonly pages: ReadonlyMap<string, string>;
  /** Why some numbers may not be Word's; empty where all are sure. */
  readonly doubts: readonly string[];
}

/** The layout engine: large, and only wanted where a document has a contents list. */
export const loadLayoutEngine = () => import('docx/layout');

/**
 * Lays the file out and reads off on which page each bookmark stands. The layout engine knows Word's rules and the
 * metrics of common fonts; where it has to guess it says so.
 *
 * @param parts the parts of a whole Word file, by their paths
 */
export async function estimatePages(parts: ReadonlyMap<string, string | Uint8Array>): Promise<PageNumbers> {
  const { estimatePageNumbersWith } = await loadLayoutEngine();
  const texts = [...parts].filter((part): part is [string, string] => typeof part[1] === 'string');
  const others = [...parts].filter((part): part is [string, Uint8Array] => typeof part[1] !== 'string');
  // The engine reads a file as its own patcher hands it over; ours is still in parts, which saves packing it.
  const estimate = estimatePageNumbersWith({ guess: true })({
    parts: new Map(texts.map(([path, xml]) => [path, readPart(xml)])),
    binaryParts: new Map(others),
  });
  const pages = new Map(estimate.bookmarks);
  if (estimate.pageCount !== undefined) pages.set(pageCountKey, String(estimate.pageCount));
  const doubts = new Set(estimate.guesses?.map((guess) => guess.reason));
  if (estimate.pageCount === undefined) doubts.add('a part of the document that could not be laid out');
  return { pages, doubts: [...doubts] };
}

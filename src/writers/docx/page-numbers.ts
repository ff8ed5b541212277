import type { EstimatedPageNumbers } from 'docx';
import { pageCountKey } from './running-lines.ts';

/** What is known of the pages of a document. */
export interface PageNumbers {
  /** Page by bookmark, and the number of pages. */
  readonly pages: ReadonlyMap<string, string>;
  /** Why some numbers may not be Word's; empty where all are sure. */
  readonly doubts: readonly string[];
}

/**
 * Lays the finished file out and reads off on which page each bookmark stands. The layout engine knows Word's rules
 * and the metrics of common fonts; where it has to guess it says so.
 *
 * @param bytes a whole .docx file; it is not changed
 */
export async function estimatePages(bytes: Uint8Array): Promise<PageNumbers> {
  const [{ patchDocument }, { estimatePageNumbersWith }] = await Promise.all([
    import('docx'),
    import('docx/layout'),
  ]);
  const estimate = estimatePageNumbersWith({ guess: true });
  let result: EstimatedPageNumbers | undefined;
  await patchDocument({
    outputType: 'uint8array',
    data: bytes,
    patches: {},
    pageNumbers: (template) => {
      result = estimate(template);
      return result;
    },
  });
  const pages = new Map(result?.bookmarks);
  if (result?.pageCount !== undefined) pages.set(pageCountKey, String(result.pageCount));
  const doubts = new Set(result?.guesses?.map((guess) => guess.reason));
  if (result?.pageCount === undefined) doubts.add('a part of the document that could not be laid out');
  return { pages, doubts: [...doubts] };
}

import { availableParallelism } from 'node:os';
import pLimit from 'p-limit';
import { sha256Hex } from '../graph/digest.ts';
import { findLibreOffice, printPdf } from '../host/print-pdf.ts';
import { listedBookmarks, withLinksToPdf, withListedPages } from '../writers/pdf/pdf-links.ts';
import { pagesOfPlaces } from '../writers/pdf/pdf-places.ts';
import { steadyPdf } from '../writers/pdf/steady-pdf.ts';
import { Refusal } from './refusal.ts';

/** Makes a PDF of a Word file. */
export type PrintWord = (docx: Uint8Array, name: string, date: string) => Promise<Uint8Array>;

/** Seconds after which a document is given up; tables of some thousand rows take more than a minute. */
const limitSeconds = 600;

/** After this many printings the contents list is left as it is. */
const mostPrintings = 3;

/** What prints Word files here. Refuses where LibreOffice is not installed. */
export const createPrinter = (): PrintWord => {
  const program = findLibreOffice();
  if (program === undefined)
    throw new Refusal(
      '--pdf needs LibreOffice, which is not installed here',
      'Install it (Debian and Ubuntu: apt install libreoffice-writer-nogui fonts-crosextra-carlito; others: libreoffice.org), or leave --pdf out.',
    );
  const printOnce = async (docx: Uint8Array, name: string, date: string): Promise<Uint8Array> => {
    const printed = await printPdf(program, docx, { date, limitSeconds });
    if (!printed.ok)
      throw new Refusal(
        `LibreOffice made no PDF of ${name}: ${printed.reason}`,
        'Open the Word file in LibreOffice to see what it says, or leave --pdf out.',
      );
    return printed.bytes;
  };
  // A LibreOffice works in one thread, and takes some hundred megabytes.
  const inTurn = pLimit({ concurrency: Math.min(availableParallelism(), 4), rejectOnClear: true });
  const print: PrintWord = async (docx, name, date) => {
    let source = withLinksToPdf(docx);
    const bookmarks = listedBookmarks(source);
    let pdf = await printOnce(source, name, date);
    // The page numbers of the Word file are Word's. LibreOffice breaks a page here and there otherwise, and a contents
    // list must be right on the paper that it stands on. Other numbers may, in theory, break lines otherwise again.
    for (let printing = 1; printing < mostPrintings; printing += 1) {
      const corrected = withListedPages(source, pagesOfPlaces(pdf, bookmarks));
      if (corrected === source) break;
      source = corrected;
      pdf = await printOnce(source, name, date);
    }
    return steadyPdf(pdf, date, sha256Hex);
  };
  let failure: unknown;
  return (docx, name, date) =>
    inTurn(() => print(docx, name, date)).catch((error: unknown) => {
      // The run ends by the first failure: what waits is not begun any more.
      failure ??= error;
      inTurn.clearQueue();
      throw failure;
    });
};

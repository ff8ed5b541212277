import { sha256Hex } from '../graph/digest.ts';
import { findLibreOffice, printPdf } from '../host/print-pdf.ts';
import { withLinksToPdf } from '../writers/pdf/pdf-links.ts';
import { steadyPdf } from '../writers/pdf/steady-pdf.ts';
import { Refusal } from './refusal.ts';

/** Makes a PDF of a Word file. */
export type PrintWord = (docx: Uint8Array, name: string, date: string) => Promise<Uint8Array>;

/** Seconds after which a document is given up; tables of some thousand rows take more than a minute. */
const limitSeconds = 600;

/** What prints Word files here. Refuses where LibreOffice is not installed. */
export const createPrinter = (): PrintWord => {
  const program = findLibreOffice();
  if (program === undefined)
    throw new Refusal(
      '--pdf needs LibreOffice, which is not installed here',
      'Install it (Debian and Ubuntu: apt install libreoffice-writer-nogui fonts-crosextra-carlito; others: libreoffice.org), or leave --pdf out.',
    );
  return async (docx, name, date) => {
    const printed = await printPdf(program, withLinksToPdf(docx), { date, limitSeconds });
    if (!printed.ok)
      throw new Refusal(
        `LibreOffice made no PDF of ${name}: ${printed.reason}`,
        'Open the Word file in LibreOffice to see what it says, or leave --pdf out.',
      );
    return steadyPdf(printed.bytes, date, sha256Hex);
  };
};

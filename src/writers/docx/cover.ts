import type { Document, Signature } from '../../document/model.ts';
import { approvalsTable, documentParticulars } from '../front-matter.ts';
import { paragraph } from './blocks.ts';
import { type Page, textWidth } from './look.ts';
import type { Manuscript } from './manuscript.ts';
import { plainRun } from './runs.ts';
import { writeParticulars, writeTable } from './table.ts';

/** Writes the cover: maker, product, title, the document's particulars and its approvals, spread over the page. */
export function writeCover(manuscript: Manuscript): string {
  const { document } = manuscript;
  const { portrait } = manuscript.paper;
  const width = textWidth(portrait);
  const [aboveTitle, aboveParticulars, aboveApprovals] = gaps(document, portrait);
  const line = (style: string, text: string, before = 0) =>
    text === ''
      ? ''
      : paragraph(
          `<w:pStyle w:val="${style}"/>${before > 0 ? `<w:spacing w:before="${before}"/>` : ''}`,
          plainRun(text, manuscript),
        );
  return (
    line('CoverOrganisation', document.organisation) +
    line('CoverProduct', document.product === '' ? ' ' : document.product, aboveTitle) +
    line('Title', document.title) +
    line('Subtitle', document.subtitle ?? '') +
    gap(aboveParticulars) +
    writeParticulars(
      { kind: 'particulars', entries: documentParticulars(document) },
      width,
      manuscript,
      'Particulars of the document',
    ) +
    gap(aboveApprovals) +
    line('PartTitle', 'Approvals') +
    writeApprovals(document.signatures, width, manuscript)
  );
}

function writeApprovals(signatures: readonly Signature[], width: number, manuscript: Manuscript): string {
  if (signatures.length === 0) {
    return paragraph('', plainRun('No approval is asked for or recorded.', manuscript));
  }
  return writeTable(approvalsTable(signatures), width, manuscript);
}

function gap(height: number): string {
  return paragraph(
    `<w:pStyle w:val="Hairline"/><w:spacing w:before="${height}" w:after="0" w:line="20" w:lineRule="exact"/>`,
    '',
  );
}

/** Heights, in twentieths of a point, of what a cover holds: measured on pages, so that the gaps fill the rest. */
function gaps(document: Document, portrait: Page): readonly [number, number, number] {
  const titleLines = Math.ceil(document.title.length / 28);
  const subtitleLines = Math.ceil((document.subtitle ?? '').length / 62);
  const approvalRows = document.signatures.reduce(
    (sum, signature) =>
      sum + Math.ceil(Math.max(signature.meaning.length / 26, signature.name.length / 20, 1)),
    1,
  );
  const used =
    700 +
    500 +
    titleLines * 780 +
    subtitleLines * 420 +
    documentParticulars(document).length * 340 +
    900 +
    approvalRows * 345;
  const free = Math.max(0, portrait.height - portrait.top - portrait.bottom - used);
  return [Math.round(free * 0.36), Math.round(free * 0.3), Math.round(free * 0.16)];
}

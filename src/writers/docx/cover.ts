import type { Document, Signature, Table, Tone } from '../../document/model.ts';
import { paragraph } from './blocks.ts';
import { portrait, textWidth } from './look.ts';
import type { Manuscript } from './manuscript.ts';
import { plainRun } from './runs.ts';
import { writeParticulars, writeTable } from './table.ts';

/** Writes the cover: maker, product, title, the document's particulars and its approvals, spread over the page. */
export function writeCover(manuscript: Manuscript): string {
  const { document } = manuscript;
  const width = textWidth(portrait);
  const [aboveTitle, aboveParticulars, aboveApprovals] = gaps(document);
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
      { kind: 'particulars', entries: coverEntries(document) },
      width,
      manuscript,
      'Particulars of the document',
    ) +
    gap(aboveApprovals) +
    line('PartTitle', 'Approvals') +
    writeApprovals(document.signatures, width, manuscript)
  );
}

/** The document's particulars as the cover shows them. */
export function coverEntries(document: Document) {
  const entries: readonly (readonly [string, string])[] = [
    ['Document number', document.number],
    ['Revision', document.revision],
    ['Status', document.status],
    ['Content as of', document.date],
    ['Product', document.product],
    ['Organisation', document.organisation],
  ];
  return entries
    .filter(([, value]) => value !== '')
    .map(([name, value]) => ({ name, value: [{ kind: 'text' as const, value }] }));
}

/** What an approval's state means to the reader. */
export function stateTone(state: string): Tone {
  if (state === 'in force') return 'good';
  return state === 'lapsed' ? 'bad' : 'caution';
}

function writeApprovals(signatures: readonly Signature[], width: number, manuscript: Manuscript): string {
  if (signatures.length === 0) {
    return paragraph('', plainRun('No approval is asked for or recorded.', manuscript));
  }
  return writeTable(approvalsTable(signatures), width, manuscript);
}

/** Approvals as a table: who, in what role, for what, when and whether it still holds. */
export function approvalsTable(signatures: readonly Signature[]): Table {
  const text = (value: string) => ({
    children: [{ kind: 'text' as const, value: value === '' ? '–' : value }],
  });
  return {
    kind: 'table',
    description: 'Approvals of the document with their state',
    columns: [
      { title: 'Role', width: 22 },
      { title: 'Name', width: 22 },
      { title: 'Meaning', width: 28 },
      { title: 'Date', width: 14 },
      { title: 'State', width: 14 },
    ],
    rows: signatures.map((signature) => ({
      cells: [
        text(signature.role),
        text(signature.name),
        text(signature.meaning),
        text(signature.date),
        { children: [{ kind: 'text', value: signature.state, tone: stateTone(signature.state) }] },
      ],
    })),
  };
}

function gap(height: number): string {
  return paragraph(
    `<w:pStyle w:val="Hairline"/><w:spacing w:before="${height}" w:after="0" w:line="20" w:lineRule="exact"/>`,
    '',
  );
}

/** Heights, in twentieths of a point, of what a cover holds: measured on pages, so that the gaps fill the rest. */
function gaps(document: Document): readonly [number, number, number] {
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
    coverEntries(document).length * 340 +
    900 +
    approvalRows * 345;
  const free = Math.max(0, portrait.height - portrait.top - portrait.bottom - used);
  return [Math.round(free * 0.36), Math.round(free * 0.3), Math.round(free * 0.16)];
}

import { replaceUnprintable } from '../../document/clean-text.ts';
import type { Document } from '../../document/model.ts';
import { approvalsTable, documentParticulars } from '../front-matter.ts';
import { writeBlocks, writeParticulars } from './blocks.ts';
import { escapeHtml } from './escape.ts';
import { createPage, type Page } from './page.ts';
import { styleSheet } from './style-sheet.ts';

/** Headings down to this level are in the contents list. */
const deepestListedLevel = 3;

/**
 * Writes a document as one HTML page that needs nothing else: no script, no file beside it, no network. The page
 * forbids scripts by its own policy. The same document gives the same text.
 */
export function writeHtml(document: Document): string {
  const page = createPage(document);
  const body = writeBlocks(document.blocks, page);
  const notes = writeNotes(page);
  const html = [
    '<!DOCTYPE html>',
    `<html lang="${escapeHtml(document.language)}">`,
    '<head>',
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${escapeHtml(`${document.number} ${document.title}`)}</title>`,
    `<style>${styleSheet}</style>`,
    '</head>',
    '<body>',
    '<a class="skip" href="#text">Skip to the text</a>',
    '<main>',
    writeFront(page),
    writeContents(page),
    `<div id="text">\n${body}\n</div>`,
    notes,
    writeOrigin(page),
    '</main>',
    document.caution === '' ? '' : `<footer>${escapeHtml(document.caution)}</footer>`,
    '</body>',
    '</html>',
  ].filter((part) => part !== '');
  return `${replaceUnprintable(html.join('\n')).text}\n`;
}

/** The head of a document: maker, product, title, particulars and approvals. */
export function writeFront(page: Page): string {
  const { document } = page;
  const line = (name: string, text: string | undefined) =>
    text === undefined || text === '' ? '' : `<p class="${name}">${escapeHtml(text)}</p>\n`;
  const approvals =
    document.signatures.length === 0
      ? '<p>No approval is asked for or recorded.</p>'
      : writeBlocks([approvalsTable(document.signatures)], page);
  return (
    `<header>\n${line('maker', document.organisation)}${line('product', document.product)}` +
    `<h1>${escapeHtml(document.title)}</h1>\n${line('subtitle', document.subtitle)}` +
    `${writeParticulars({ kind: 'particulars', entries: documentParticulars(document) }, page)}\n` +
    `<p><strong>Approvals</strong></p>\n${approvals}\n</header>`
  );
}

/** The contents list, once the blocks are written; empty where there are few headings. */
export function writeContents(page: Page): string {
  const listed = page.headings.filter((heading) => heading.level <= deepestListedLevel);
  if (listed.length < 3) return '';
  const items = listed.map(
    ({ level, number, html, id }) =>
      `<li class="level-${level}"><a href="#${id}"><span class="number">${number}</span> ${html}</a></li>`,
  );
  return `<nav aria-label="Contents">\n<p><strong>Contents</strong></p>\n<ol>\n${items.join('\n')}\n</ol>\n</nav>`;
}

/** Footnotes, each with its way back. */
export function writeNotes(page: Page): string {
  const { footnotes } = page.document;
  if (footnotes.length === 0) return '';
  const items = footnotes.map(
    (blocks, index) =>
      `<li id="note_${index + 1}">${writeBlocks(blocks, page, true)} <a href="#noteref_${index + 1}" aria-label="Back to footnote ${index + 1} in the text">↩</a></li>`,
  );
  return `<section class="notes" aria-label="Footnotes">\n<ol>\n${items.join('\n')}\n</ol>\n</section>`;
}

/** Where the document came from. */
export function writeOrigin(page: Page): string {
  const { provenance } = page.document;
  if (provenance.length === 0) return '';
  const entries = provenance.map(({ name, value }) => ({
    name,
    value: [{ kind: 'text' as const, value }],
  }));
  return `<section class="origin" aria-label="Origin of this document">\n<p><strong>Origin of this document</strong></p>\n${writeParticulars({ kind: 'particulars', entries }, page)}\n</section>`;
}

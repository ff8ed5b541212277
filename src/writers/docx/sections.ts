import type { Block, Document } from '../../document/model.ts';
import { paragraph } from './blocks.ts';
import { landscape, type Page, portrait, textWidth } from './look.ts';
import type { Manuscript } from './manuscript.ts';
import { field, plainRun } from './runs.ts';
import { afterTable } from './table.ts';
import { wordNamespaces, xmlHead } from './xml.ts';

/** A stretch of blocks on pages of one direction. */
export interface Stretch {
  readonly page: Page;
  readonly blocks: readonly Block[];
}

/** Cuts the document where the pages turn. A page break where a new stretch starts anyway is left out. */
export function stretches(blocks: readonly Block[]): readonly Stretch[] {
  const result: { page: Page; blocks: Block[] }[] = [];
  const add = (page: Page, block: Block) => {
    const last = result.at(-1);
    if (last?.page === page) last.blocks.push(block);
    else if (block.kind !== 'page-break') result.push({ page, blocks: [block] });
  };
  for (const block of blocks) {
    if (block.kind === 'landscape') for (const each of block.blocks) add(landscape, each);
    else add(portrait, block);
  }
  for (const stretch of result) while (stretch.blocks.at(-1)?.kind === 'page-break') stretch.blocks.pop();
  return result.length > 0 ? result : [{ page: portrait, blocks: [] }];
}

/** Paths of the running heads and feet in the package. */
export const runningParts = {
  portrait: { header: 'header1.xml', footer: 'footer1.xml' },
  landscape: { header: 'header2.xml', footer: 'footer2.xml' },
} as const;

/** Relationship ids of the running heads and feet. */
export const runningIds = {
  portrait: { header: 'rId5', footer: 'rId6' },
  landscape: { header: 'rId7', footer: 'rId8' },
} as const;

/** Properties of a section, with or without running head and foot. */
export function sectionProperties(page: Page, { running }: { readonly running: boolean }): string {
  const ids = runningIds[page.landscape ? 'landscape' : 'portrait'];
  const references = running
    ? `<w:headerReference w:type="default" r:id="${ids.header}"/><w:footerReference w:type="default" r:id="${ids.footer}"/>`
    : '';
  return (
    `<w:sectPr>${references}<w:type w:val="nextPage"/><w:pgSz w:w="${page.width}" w:h="${page.height}"${page.landscape ? ' w:orient="landscape"' : ''}/>` +
    `<w:pgMar w:top="${page.top}" w:right="${page.side}" w:bottom="${page.bottom}" w:left="${page.side}" w:header="680" w:footer="567" w:gutter="0"/></w:sectPr>`
  );
}

/**
 * What was written, with the end of its section. The paragraph that ends the section also keeps a table before it apart
 * from the next one: with a paragraph of its own for that, a table that fills its page would be followed by an empty page.
 */
export function withSectionEnd(
  written: string,
  page: Page,
  { running }: { readonly running: boolean },
): string {
  const text = written.endsWith(afterTable) ? written.slice(0, -afterTable.length) : written;
  return text + paragraph(`<w:pStyle w:val="Hairline"/>${sectionProperties(page, { running })}`, '');
}

/** Longer titles get a line of their own in the running head. */
const longestTitleBesideNumber = 64;

/** The running head: number and revision on the left, title on the right. */
export function writeHeader(page: Page, manuscript: Manuscript): string {
  const { document } = manuscript;
  const number = field('DOCPROPERTY "Document Number"', document.number, manuscript);
  const revision = field('DOCPROPERTY "Revision"', document.revision, manuscript);
  const left = number + plainRun(', revision ', manuscript) + revision;
  const title = field('TITLE', document.title, manuscript);
  const beside = document.title.length <= longestTitleBesideNumber * (page.landscape ? 1.5 : 1);
  const body = beside
    ? runningLine('Header', page, left, title)
    : paragraph('<w:pStyle w:val="Header"/><w:pBdr><w:bottom w:val="nil"/></w:pBdr>', title) +
      runningLine('Header', page, left, plainRun(document.status, manuscript));
  return `${xmlHead}<w:hdr ${wordNamespaces}>${body}</w:hdr>`;
}

/** The running foot: maker, product and status on the left, page of pages on the right. */
export function writeFooter(page: Page, manuscript: Manuscript): string {
  const { document } = manuscript;
  const left = plainRun(footerWords(document), manuscript);
  const pageCount = manuscript.pages.get(pageCountKey) ?? '';
  const right =
    plainRun('Page ', manuscript) +
    field('PAGE', '1', manuscript) +
    plainRun(' of ', manuscript) +
    field('NUMPAGES', pageCount, manuscript);
  return `${xmlHead}<w:ftr ${wordNamespaces}>${runningLine('Footer', page, left, right)}</w:ftr>`;
}

/** Under this name the page map holds the number of pages; no bookmark can have it. */
export const pageCountKey = 'page count';

function footerWords(document: Document): string {
  const words = [document.organisation, document.product, document.status, document.date].filter(
    (each) => each !== '',
  );
  const joined = words.join('  ·  ');
  return joined.length <= 95
    ? joined
    : [document.status, document.date].filter((each) => each !== '').join('  ·  ');
}

function runningLine(style: string, page: Page, left: string, right: string): string {
  const tab = `<w:tabs><w:tab w:val="right" w:pos="${textWidth(page)}"/></w:tabs>`;
  return paragraph(`<w:pStyle w:val="${style}"/>${tab}`, `${left}<w:r><w:tab/></w:r>${right}`);
}

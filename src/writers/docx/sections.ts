import type { Block } from '../../document/model.ts';
import { paragraph } from './blocks.ts';
import type { Page, Pages } from './look.ts';
import type { RunningPart, RunningPlace } from './running-parts.ts';
import { afterTable } from './table.ts';

/** A stretch of blocks on pages of one direction. */
export interface Stretch {
  readonly page: Page;
  readonly blocks: readonly Block[];
}

/** Cuts the document where the pages turn. A page break where a new stretch starts anyway is left out. */
export function stretches(blocks: readonly Block[], { portrait, landscape }: Pages): readonly Stretch[] {
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

/** Properties of a section, with its running heads and feet. */
export function sectionProperties(
  page: Page,
  { running, parts }: { readonly running: boolean; readonly parts: readonly RunningPart[] },
): string {
  const [usual, even]: readonly RunningPlace[] = page.landscape
    ? ['landscape', 'evenLandscape']
    : ['portrait', 'evenPortrait'];
  const references = parts.flatMap(({ place, type, id }) => {
    const isUsual = place === (running ? usual : 'cover');
    if (!isUsual && !(running && place === even)) return [];
    return [`<w:${type}Reference w:type="${isUsual ? 'default' : 'even'}" r:id="${id}"/>`];
  });
  return (
    `<w:sectPr>${references.join('')}<w:type w:val="nextPage"/><w:pgSz w:w="${page.width}" w:h="${page.height}"${page.landscape ? ' w:orient="landscape"' : ''}/>` +
    `<w:pgMar w:top="${page.top}" w:right="${page.right}" w:bottom="${page.bottom}" w:left="${page.left}" w:header="${page.header}" w:footer="${page.footer}" w:gutter="0"/></w:sectPr>`
  );
}

/**
 * What was written, with the end of its section. The paragraph that ends the section also keeps a table before it apart
 * from the next one: with a paragraph of its own for that, a table that fills its page would be followed by an empty page.
 */
export function withSectionEnd(
  written: string,
  page: Page,
  options: { readonly running: boolean; readonly parts: readonly RunningPart[] },
): string {
  const text = written.endsWith(afterTable) ? written.slice(0, -afterTable.length) : written;
  return text + paragraph(`<w:pStyle w:val="Hairline"/>${sectionProperties(page, options)}`, '');
}

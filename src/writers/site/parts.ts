import type { SitePart, WholeDocument } from '../../document/site.ts';
import { writeBlocks } from '../html/blocks.ts';
import { escapeHtml } from '../html/escape.ts';
import { createPage } from '../html/page.ts';
import { writeContents, writeFront, writeNotes, writeOrigin } from '../html/write-html.ts';
import { writeGrid } from './grid.ts';
import { writeNeighbourhood } from './neighbourhood.ts';
import { writeRiskMap } from './risk-map.ts';
import { writeSiteInlines } from './site-inlines.ts';
import type { PageInHand } from './site-page.ts';
import { writeStandingSummary, writeTiles } from './standing-summary.ts';

/** Writes parts of a page one after the other; `level` is that of the heading which they stand under. */
export function writeParts(parts: readonly SitePart[], at: PageInHand, level = 1): string {
  return parts.map((part) => writePart(part, at, level)).join('\n');
}

function writePart(part: SitePart, at: PageInHand, level: number): string {
  switch (part.kind) {
    case 'section': {
      const own = Math.min(6, level + 1);
      if (own === 2) at.places.push({ id: part.id, title: part.title });
      // Headings of blocks count from the section's own, so that none is left out.
      if (own === 2) at.html.counters.heading(1);
      const id = escapeHtml(part.id);
      return `<section id="${id}" aria-labelledby="${id}-title">\n<h${own} id="${id}-title">${escapeHtml(part.title)}</h${own}>\n${writeParts(part.parts, at, own)}\n</section>`;
    }
    case 'blocks':
      return `<div class="prose">\n${writeBlocks(part.blocks, at.html)}\n</div>`;
    case 'words':
      return `<p${part.look === undefined ? '' : ` class="${part.look}"`}>${writeSiteInlines(part.children, at)}</p>`;
    case 'site-notice':
      return `<div class="notice notice-${part.tone}" role="note">\n${part.lines.map((line) => `<p>${writeSiteInlines(line, at)}</p>`).join('\n')}\n</div>`;
    case 'facts':
      return `<table class="facts"><tbody>\n${part.entries
        .map(
          ({ name, value }) =>
            `<tr><th scope="row">${escapeHtml(name)}</th><td>${writeSiteInlines(value, at)}</td></tr>`,
        )
        .join('\n')}\n</tbody></table>`;
    case 'grid':
      return writeGrid(part, at);
    case 'standing-summary':
      return writeStandingSummary(part, at);
    case 'tiles':
      return writeTiles(part, at);
    case 'risk-map':
      return writeRiskMap(part, at);
    case 'neighbourhood':
      return writeNeighbourhood(part, at);
    case 'downloads':
      return `<ul class="downloads">\n${part.files
        .map(
          ({ path, label, detail }) =>
            `<li><a href="${escapeHtml(at.href(path))}"${path.endsWith('.html') ? '' : ' download'}>${escapeHtml(label)}</a> <span class="quiet">${escapeHtml(detail)}</span></li>`,
        )
        .join('\n')}\n</ul>`;
    case 'document':
      return writeDocument(part, at);
    default:
      return part satisfies never;
  }
}

/** A whole document: its head, contents, text, footnotes and origin, as its own HTML form has them. */
function writeDocument({ document }: WholeDocument, at: PageInHand): string {
  const recordHref = (id: string): string | undefined => {
    const path = at.site.recordPaths.get(id);
    return path === undefined ? undefined : at.href(path);
  };
  const page = createPage(document, {
    recordHref,
    fileHref: at.fileHref,
    figureHref: at.figureHref,
    isNumbered: true,
  });
  const body = writeBlocks(document.blocks, page);
  const notes = writeNotes(page);
  return [
    '<article class="document">',
    writeFront(page),
    writeContents(page),
    `<div class="prose">\n${body}\n</div>`,
    notes,
    writeOrigin(page),
    '</article>',
  ]
    .filter((part) => part !== '')
    .join('\n');
}

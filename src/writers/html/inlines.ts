import { anchorBookmark, recordBookmark } from '../../document/anchors.ts';
import { crossReferenceLabel } from '../../document/document-text.ts';
import { asLink, isNearbyFile, isSafeTarget } from '../../document/link-target.ts';
import type { CrossReference, FileLink, Inline, Text } from '../../document/model.ts';
import { keepTogether } from '../keep-together.ts';
import { escapeHtml } from './escape.ts';
import type { Page } from './page.ts';

const longestWholeId = 24;

/** Writes running text. */
export function writeInlines(children: readonly Inline[], page: Page): string {
  return children.map((child) => writeOne(child, page)).join('');
}

function writeOne(child: Inline, page: Page): string {
  switch (child.kind) {
    case 'text':
      return writeText(child);
    case 'line-break':
      return '<br>';
    case 'external-link': {
      const words = writeInlines(child.children, page);
      // The model allows these schemes only; a view that breaks the rule must not make a link that runs a script.
      if (!isSafeTarget(child.target)) return words;
      return `<a href="${escapeHtml(child.target)}" rel="noreferrer">${words}</a>`;
    }
    case 'file-link': {
      const words = writeInlines(child.children, page);
      const target = fileTarget(child, page);
      return target === undefined ? words : `<a href="${target}">${words}</a>`;
    }
    case 'record-reference': {
      const title = page.document.recordTitles.get(child.id);
      const tip = title === undefined ? '' : ` title="${escapeHtml(title)}"`;
      const id = escapeHtml(child.id);
      // An id is kept on one line, unless it is so long that the page would not hold it.
      const name = child.id.length <= longestWholeId ? ' class="record"' : '';
      const target =
        page.around?.recordHref(child.id) ??
        (page.targets.recordIds.has(child.id)
          ? `#${recordBookmark(child.id)}`
          : elsewhereTarget(child.id, page));
      return target === undefined
        ? `<span${name}${tip}>${id}</span>`
        : `<a${name} href="${escapeHtml(target)}"${tip}>${id}</a>`;
    }
    case 'cross-reference':
      return writeCrossReference(child, page);
    case 'footnote-reference': {
      const number = child.index + 1;
      // The way back from a note leads to the first place that names it.
      const isFirst = !page.givenIds.has(`noteref_${number}`);
      page.givenIds.add(`noteref_${number}`);
      return `<sup><a${isFirst ? ` id="noteref_${number}"` : ''} href="#note_${number}" aria-label="Footnote ${number}">${number}</a></sup>`;
    }
  }
}

/** Where a link to a file leads, as an attribute's value; undefined where the path does not stay in the folder. */
function fileTarget(
  { path, inHtml, recordId, anchor }: Pick<FileLink, 'path' | 'inHtml' | 'recordId' | 'anchor'>,
  { around }: Page,
): string | undefined {
  const file = inHtml ?? path;
  const bookmark =
    recordId !== undefined
      ? `#${recordBookmark(recordId)}`
      : anchor === undefined
        ? ''
        : `#${anchorBookmark(anchor)}`;
  if (around) {
    const href = around.fileHref(file);
    return href && escapeHtml(href) + bookmark;
  }
  if (!isNearbyFile(file)) return undefined;
  // A bookmark is a place in a page; in a Word file a browser cannot go there.
  return escapeHtml(asLink(file)) + (inHtml === undefined ? '' : bookmark);
}

/** The page or file that shows a record which this page does not. */
function elsewhereTarget(id: string, page: Page): string | undefined {
  const { document } = page;
  const shown = id === document.id ? undefined : document.elsewhere?.get(id);
  return shown && fileTarget(shown.opensWhole ? shown : { ...shown, recordId: id }, page);
}

function writeText(text: Text): string {
  let html = escapeHtml(text.code === true ? text.value : keepTogether(text.value)).replace(
    /\r\n|\n|\r/g,
    '<br>',
  );
  if (text.code === true) html = `<code>${html}</code>`;
  if (text.strike === true) html = `<s>${html}</s>`;
  if (text.inserted === true) html = `<ins>${html}</ins>`;
  if (text.italic === true) html = `<em>${html}</em>`;
  if (text.bold === true) html = `<strong>${html}</strong>`;
  return text.tone === undefined ? html : `<span class="tone-${text.tone}">${html}</span>`;
}

function writeCrossReference(child: CrossReference, page: Page): string {
  const words =
    child.children === undefined
      ? escapeHtml(crossReferenceLabel(child.anchor, page.targets))
      : writeInlines(child.children, page);
  return page.targets.anchors.has(child.anchor)
    ? `<a href="#${anchorBookmark(child.anchor)}">${words}</a>`
    : words;
}

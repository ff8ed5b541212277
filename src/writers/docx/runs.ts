import { anchorBookmark, recordBookmark } from '../../document/anchors.ts';
import { crossReferenceLabel } from '../../document/document-text.ts';
import { joinTexts } from '../../document/join-texts.ts';
import { asLink, isNearbyFile, isSafeTarget } from '../../document/link-target.ts';
import type { CrossReference, FileLink, Inline, Text } from '../../document/model.ts';
import { bareLabel } from '../../house/heading-label.ts';
import { keepTogether } from '../keep-together.ts';
import { fonts, sizes } from './look.ts';
import { bookmark, cleanXml, type Manuscript, relate, shownNumber } from './manuscript.ts';

const hyperlinkType = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships/hyperlink';

/** Names of the character styles of tones. */
export const toneStyles = {
  good: 'ToneGood',
  bad: 'ToneBad',
  caution: 'ToneCaution',
  quiet: 'ToneQuiet',
} as const;

/** Writes running text. */
export function writeRuns(children: readonly Inline[], manuscript: Manuscript, style?: string): string {
  return joinTexts(children)
    .map((child) => writeOne(child, manuscript, style))
    .join('');
}

/** One run of plain text. Tabs and line feeds become Word's own marks. */
export function plainRun(text: string, manuscript: Manuscript, properties = ''): string {
  const piece = (words: string): string => {
    if (words === '') return '';
    if (words === '\t') return '<w:tab/>';
    if (/^[\r\n]/.test(words)) return '<w:br/>';
    return `<w:t xml:space="preserve">${cleanXml(manuscript, words)}</w:t>`;
  };
  const inner = /[\t\r\n]/.test(text)
    ? text
        .split(/(\t|\r\n|\n|\r)/)
        .map(piece)
        .join('')
    : piece(text);
  return inner === '' ? '' : `<w:r>${properties && `<w:rPr>${properties}</w:rPr>`}${inner}</w:r>`;
}

/** A field that Word can recompute, showing `result` until it does. */
export function field(
  instruction: string,
  result: string,
  manuscript: Manuscript,
  options: { readonly properties?: string; readonly dirty?: boolean } = {},
): string {
  const properties = options.properties === undefined ? '' : `<w:rPr>${options.properties}</w:rPr>`;
  const mark = (type: string, extra = '') =>
    `<w:r>${properties}<w:fldChar w:fldCharType="${type}"${extra}/></w:r>`;
  return (
    mark('begin', options.dirty === true ? ' w:dirty="true"' : '') +
    `<w:r>${properties}<w:instrText xml:space="preserve"> ${cleanXml(manuscript, instruction)} </w:instrText></w:r>` +
    mark('separate') +
    plainRun(result, manuscript, options.properties) +
    mark('end')
  );
}

function writeOne(child: Inline, manuscript: Manuscript, style: string | undefined): string {
  switch (child.kind) {
    case 'text':
      return plainRun(
        child.code === true ? child.value : keepTogether(child.value),
        manuscript,
        textProperties(child, style),
      );
    case 'line-break':
      return '<w:r><w:br/></w:r>';
    case 'external-link': {
      if (!isSafeTarget(child.target)) return writeRuns(child.children, manuscript, style);
      const id = relate(manuscript, {
        type: hyperlinkType,
        target: child.target,
        external: true,
      });
      return `<w:hyperlink r:id="${id}" w:history="1">${writeRuns(child.children, manuscript, 'Hyperlink')}</w:hyperlink>`;
    }
    case 'file-link': {
      if (!isNearbyFile(child.path)) return writeRuns(child.children, manuscript, style);
      return `<w:hyperlink ${fileTarget(child, manuscript)} w:history="1">${writeRuns(child.children, manuscript, 'Hyperlink')}</w:hyperlink>`;
    }
    case 'record-reference':
      return recordReference(child.id, manuscript, style);
    case 'cross-reference':
      return crossReference(child, manuscript, style);
    case 'footnote-reference':
      return footnoteReference(child.index + 1, manuscript);
  }
}

/**
 * Word allows one reference to each note; every further one repeats its number by a field (ISO/IEC 29500-1, 17.16.5.42,
 * NOTEREF), which names the bookmark around the first.
 */
function footnoteReference(number: number, manuscript: Manuscript): string {
  const name = `_Note${number}`;
  const properties = '<w:rStyle w:val="FootnoteReference"/>';
  if (manuscript.givenBookmarks.has(name))
    return field(`NOTEREF ${name} \\f \\h`, String(number), manuscript, { properties });
  const mark = bookmark(manuscript, name);
  return `${mark.start}<w:r><w:rPr>${properties}</w:rPr><w:footnoteReference w:id="${number}"/></w:r>${mark.end}`;
}

/** The attributes that lead to another file, and to the bookmark of a record in it. */
function fileTarget(
  { path, recordId, anchor }: Pick<FileLink, 'path' | 'recordId' | 'anchor'>,
  manuscript: Manuscript,
): string {
  const name =
    recordId !== undefined
      ? recordBookmark(recordId)
      : anchor === undefined
        ? undefined
        : anchorBookmark(anchor);
  const id = relate(manuscript, { type: hyperlinkType, target: asLink(path), external: true });
  return `r:id="${id}"${name === undefined ? '' : ` w:anchor="${name}"`}`;
}

/** The same for a record that this document does not show; undefined where no file shows it. */
function elsewhereTarget(id: string, manuscript: Manuscript): string | undefined {
  const shown = manuscript.document.elsewhere?.get(id);
  if (shown === undefined || id === manuscript.document.id || !isNearbyFile(shown.path)) return undefined;
  return fileTarget(shown.opensWhole ? shown : { ...shown, recordId: id }, manuscript);
}

/** In the order that the schema asks for (CT_RPr). */
function textProperties(text: Text, style: string | undefined): string {
  const styleName = text.tone === undefined ? style : toneStyles[text.tone];
  return (
    (styleName === undefined ? '' : `<w:rStyle w:val="${styleName}"/>`) +
    (text.code === true
      ? `<w:rFonts w:ascii="${fonts.code}" w:hAnsi="${fonts.code}" w:cs="${fonts.code}"/>`
      : '') +
    (text.bold === true ? '<w:b/>' : '') +
    (text.italic === true ? '<w:i/>' : '') +
    (text.strike === true ? '<w:strike/>' : '') +
    (text.code === true
      ? `<w:noProof/><w:sz w:val="${sizes.inlineCode}"/><w:szCs w:val="${sizes.inlineCode}"/>`
      : '') +
    (text.inserted === true ? '<w:u w:val="single"/>' : '')
  );
}

function recordReference(id: string, manuscript: Manuscript, style: string | undefined): string {
  const target = manuscript.targets.recordIds.has(id)
    ? `w:anchor="${recordBookmark(id)}"`
    : elsewhereTarget(id, manuscript);
  if (target === undefined) {
    return plainRun(id, manuscript, style === undefined ? '' : `<w:rStyle w:val="${style}"/>`);
  }
  const title = manuscript.document.recordTitles.get(id);
  const tip = title === undefined ? '' : ` w:tooltip="${cleanXml(manuscript, title.slice(0, 250))}"`;
  const run = plainRun(id, manuscript, '<w:rStyle w:val="RecordLink"/>');
  return `<w:hyperlink ${target}${tip} w:history="1">${run}</w:hyperlink>`;
}

function crossReference(child: CrossReference, manuscript: Manuscript, style: string | undefined): string {
  const target = manuscript.targets.anchors.get(child.anchor);
  if (target === undefined) {
    const words = child.children ?? [{ kind: 'text' as const, value: child.anchor }];
    return writeRuns(words, manuscript, style);
  }
  const name = anchorBookmark(child.anchor);
  if (child.children !== undefined) {
    return `<w:hyperlink w:anchor="${name}" w:history="1">${writeRuns(child.children, manuscript, 'Hyperlink')}</w:hyperlink>`;
  }
  const label = crossReferenceLabel(child.anchor, manuscript.targets);
  if (target.kind !== 'section') return field(`REF ${name} \\h`, label, manuscript);
  const [word = '', given = ''] = label.split(' ');
  const number = bareLabel(shownNumber(given, manuscript));
  // A heading without a number is named by its words.
  if (number === '') return plainRun(`${word} `, manuscript) + field(`REF ${name} \\h`, given, manuscript);
  return plainRun(`${word} `, manuscript) + field(`REF ${name} \\r \\h`, number, manuscript);
}

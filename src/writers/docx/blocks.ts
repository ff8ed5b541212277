import { anchorBookmark, recordBookmark } from '../../document/anchors.ts';
import { inlineText } from '../../document/document-text.ts';
import type { Block, Code, Heading, Inline, List, ListItem, Paragraph } from '../../document/model.ts';
import { writeFigure } from './figure.ts';
import { firstListNumber, listIndent, listLevel } from './lists.ts';
import { bookmark, type ListStart, type Manuscript, shownNumber } from './manuscript.ts';
import { plainRun, writeRuns } from './runs.ts';
import { noticeStyle } from './styles.ts';
import { afterTable, writeParticulars, writeTable } from './table.ts';

/** What the blocks around ask of the paragraphs within. */
export interface Frame {
  /** Width of the text in twentieths of a point. */
  readonly width: number;
  /** Paragraph style of plain paragraphs. */
  readonly style: string | undefined;
  /** Depth of lists around, 0 outside of lists. */
  readonly listDepth: number;
  /** Indent that lists add to. */
  readonly indent?: number;
  /** Headings number and open records only at the outermost level. */
  readonly nested: boolean;
}

/** Writes blocks one after the other. */
export function writeBlocks(blocks: readonly Block[], frame: Frame, manuscript: Manuscript): string {
  return blocks.map((block, index) => writeBlock(block, frame, manuscript, blocks[index + 1])).join('');
}

/** Ends the stretch of text that belongs to the record opened last, so that its bookmark closes. */
export function closeRecord(manuscript: Manuscript): string {
  const { openRecord } = manuscript;
  manuscript.openRecord = undefined;
  return openRecord === undefined ? '' : `<w:bookmarkEnd w:id="${openRecord.bookmarkId}"/>`;
}

function writeBlock(block: Block, frame: Frame, manuscript: Manuscript, next?: Block): string {
  switch (block.kind) {
    case 'heading':
      return writeHeading(block, frame, manuscript);
    case 'paragraph':
      return paragraph(
        plainProperties(frame, leadsIn(block) || introduces(block, next)),
        markedRuns(block, manuscript),
      );
    case 'list':
      return writeList(block, frame, manuscript);
    case 'table':
      return writeTable(block, frame.width, manuscript);
    case 'particulars':
      return writeParticulars(block, frame.width, manuscript);
    case 'figure':
      return writeFigure(block, frame.width, manuscript);
    case 'code':
      return writeCode(block, manuscript);
    case 'quote':
      return writeBlocks(block.blocks, { ...frame, style: 'Quote', indent: 397, nested: true }, manuscript);
    case 'notice': {
      const within = {
        ...frame,
        style: noticeStyle(block.tone),
        indent: 170,
        nested: true,
      };
      return afterTable + writeBlocks(block.blocks, within, manuscript) + afterTable;
    }
    case 'rule':
      return paragraph('<w:pStyle w:val="Rule"/>', '');
    case 'page-break':
      return paragraph('<w:pStyle w:val="Hairline"/><w:pageBreakBefore/>', '');
    case 'landscape':
      // Sections are cut at the outermost level; within other blocks the direction can't change.
      return writeBlocks(block.blocks, frame, manuscript);
  }
}

/** A paragraph of its properties and its runs. */
export function paragraph(properties: string, runs: string): string {
  return `<w:p>${properties && `<w:pPr>${properties}</w:pPr>`}${runs}</w:p>`;
}

/** Running text within the bookmark of its record, where it has one. */
function markedRuns(
  block: { readonly children: readonly Inline[]; readonly recordId?: string },
  manuscript: Manuscript,
): string {
  const mark =
    block.recordId === undefined ? undefined : bookmark(manuscript, recordBookmark(block.recordId));
  return (mark?.start ?? '') + writeRuns(block.children, manuscript) + (mark?.end ?? '');
}

/** A line that ends in a colon announces what follows, and stays with it as a line marked so does. */
const leadsIn = (block: Paragraph): boolean =>
  block.leadsIn === true || inlineText(block.children).trimEnd().endsWith(':');

/** Characters of a paragraph that is kept on the page of the table or figure after it: about three lines. */
const longestIntroduction = 300;

/** A sentence before a table belongs to it; alone at the foot of a page it says nothing. */
const introduces = (block: Paragraph, next: Block | undefined): boolean =>
  (next?.kind === 'table' || next?.kind === 'particulars' || next?.kind === 'figure') &&
  inlineText(block.children).length <= longestIntroduction;

function plainProperties(frame: Frame, isKept = false): string {
  const style = frame.style ?? (frame.listDepth > 0 ? 'ListParagraph' : undefined);
  const indent =
    frame.listDepth > 0 ? `<w:ind w:left="${listIndent(frame.listDepth - 1) + (frame.indent ?? 0)}"/>` : '';
  return `${style === undefined ? '' : `<w:pStyle w:val="${style}"/>`}${isKept ? '<w:keepNext/>' : ''}${indent}`;
}

function writeHeading(heading: Heading, frame: Frame, manuscript: Manuscript): string {
  if (frame.nested) {
    const bold = heading.children.map(
      (child): Inline => (child.kind === 'text' ? { ...child, bold: true } : child),
    );
    return paragraph(plainProperties(frame, true), markedRuns({ ...heading, children: bold }, manuscript));
  }
  const { level, number } = manuscript.counters.heading(heading.level);
  const { openRecord } = manuscript;
  let before = '';
  if (openRecord !== undefined && (level <= openRecord.level || heading.recordId !== undefined)) {
    before = closeRecord(manuscript);
  }
  const entryName = `_Toc${String(manuscript.headings.length + 1).padStart(6, '0')}`;
  const entry = bookmark(manuscript, entryName);
  manuscript.headings.push({
    level,
    number: shownNumber(number, manuscript),
    text: inlineText(heading.children, manuscript.targets).replaceAll('\n', ' '),
    bookmark: entryName,
  });
  const target =
    heading.anchor === undefined ? undefined : bookmark(manuscript, anchorBookmark(heading.anchor));
  let recordStart = '';
  if (heading.recordId !== undefined) {
    const mark = bookmark(manuscript, recordBookmark(heading.recordId));
    recordStart = mark.start;
    if (mark.start !== '') manuscript.openRecord = { bookmarkId: mark.id, level };
  }
  const runs = writeRuns(heading.children, manuscript);
  return (
    before +
    paragraph(
      `<w:pStyle w:val="Heading${level}"/>`,
      recordStart + entry.start + (target?.start ?? '') + runs + (target?.end ?? '') + entry.end,
    )
  );
}

function writeList(list: List, frame: Frame, manuscript: Manuscript): string {
  const within: Frame = {
    ...frame,
    listDepth: frame.listDepth + 1,
    nested: true,
  };
  const numbers = new Map<string, number>();
  const numberOf = (item: ListItem): number => {
    const kind = itemKind(list, item);
    const known = numbers.get(kind);
    if (known !== undefined) return known;
    const start: ListStart = kind === 'decimal' ? { kind, start: list.start ?? 1 } : { kind };
    const number = manuscript.lists.push(start) - 1 + firstListNumber(manuscript.house);
    numbers.set(kind, number);
    return number;
  };
  return list.items
    .map((item) => {
      const [first, ...rest] = item.blocks;
      const opening = first?.kind === 'paragraph' ? first : undefined;
      const properties =
        `<w:pStyle w:val="${frame.style ?? 'ListParagraph'}"/>` +
        `<w:numPr><w:ilvl w:val="${listLevel(frame.listDepth)}"/><w:numId w:val="${numberOf(item)}"/></w:numPr>` +
        `<w:ind w:left="${listIndent(frame.listDepth) + (frame.indent ?? 0)}" w:hanging="340"/>`;
      const line = paragraph(properties, opening === undefined ? '' : markedRuns(opening, manuscript));
      return line + writeBlocks(opening === undefined ? item.blocks : rest, within, manuscript);
    })
    .join('');
}

function itemKind(list: List, item: ListItem): ListStart['kind'] {
  if (item.checked !== undefined) return item.checked ? 'checked' : 'unchecked';
  return list.ordered ? 'decimal' : 'bullet';
}

function writeCode(code: Code, manuscript: Manuscript): string {
  return paragraph('<w:pStyle w:val="Code"/>', plainRun(code.value, manuscript));
}

import type { Block, Inline } from '../../document/model.ts';
import { paragraph, writeBlocks } from './blocks.ts';
import { textWidth } from './look.ts';
import type { Manuscript } from './manuscript.ts';
import { writeRuns } from './runs.ts';
import { wordNamespaces, xmlHead } from './xml.ts';

/** The part `footnotes.xml`: the two separators that Word asks for, then the notes, numbered from 1. */
export function writeFootnotes(manuscript: Manuscript): string {
  manuscript.story = 'footnotes';
  const separator = (id: number, type: string, mark: string) =>
    `<w:footnote w:type="${type}" w:id="${id}"><w:p><w:pPr><w:spacing w:after="0" w:line="240" w:lineRule="auto"/></w:pPr><w:r><w:${mark}/></w:r></w:p></w:footnote>`;
  const notes = manuscript.document.footnotes
    .map((blocks, index) => `<w:footnote w:id="${index + 1}">${writeNote(blocks, manuscript)}</w:footnote>`)
    .join('');
  manuscript.story = 'document';
  return (
    `${xmlHead}<w:footnotes ${wordNamespaces}>` +
    separator(-1, 'separator', 'separator') +
    separator(0, 'continuationSeparator', 'continuationSeparator') +
    `${notes}</w:footnotes>`
  );
}

function writeNote(blocks: readonly Block[], manuscript: Manuscript): string {
  const [first, ...rest] = blocks;
  const opening: readonly Inline[] = first?.kind === 'paragraph' ? first.children : [];
  const mark = '<w:r><w:rPr><w:rStyle w:val="FootnoteReference"/></w:rPr><w:footnoteRef/></w:r>';
  const line = paragraph(
    '<w:pStyle w:val="FootnoteText"/>',
    `${mark}<w:r><w:t xml:space="preserve"> </w:t></w:r>${writeRuns(opening, manuscript)}`,
  );
  const frame = {
    width: textWidth(manuscript.paper.portrait),
    style: 'FootnoteText',
    listDepth: 0,
    nested: true,
  };
  const others = writeBlocks(first?.kind === 'paragraph' ? rest : blocks, frame, manuscript);
  // A note, like a cell, must end with a paragraph; tables are followed by one anyway.
  return line + others;
}

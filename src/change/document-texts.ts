import { documentText } from '../document/document-text.ts';
import type { Document } from '../document/model.ts';
import { forEachBlock } from '../document/numbering.ts';

/** The words of a compiled document. */
export interface CompiledText {
  readonly title: string;
  readonly revision: string;
  readonly text: string;
}

/**
 * Texts of compiled documents by id, with the alternative texts of figures at the end: their numbers are content too.
 * Provenance, which names digests and dates, is not part of a text.
 */
export const documentTexts = (documents: readonly Document[]): ReadonlyMap<string, CompiledText> =>
  new Map(
    documents.map((document) => [
      document.id,
      {
        title: document.title,
        revision: document.revision,
        text: [documentText(document), ...figureTexts(document)].join('\n'),
      },
    ]),
  );

const figureTexts = ({ blocks, footnotes }: Document): readonly string[] => {
  const texts: string[] = [];
  for (const list of [blocks, ...footnotes])
    forEachBlock(list, (block) => {
      if (block.kind === 'figure') {
        texts.push(block.alternative);
        if (block.source) texts.push(block.source.sha256);
      }
    });
  return texts;
};

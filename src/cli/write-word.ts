import type { Document } from '../document/model.ts';
import { forEachBlock } from '../document/numbering.ts';
import { sha256Hex } from '../graph/digest.ts';

/** A document as a Word file. What draws pictures of figures is loaded only where there are any. */
export const writeWord = async (document: Document): Promise<Uint8Array> => {
  const { writeDocx } = await import('../writers/docx/write-docx.ts');
  if (!holdsFigure(document)) return (await writeDocx(document, { digestOf: sha256Hex })).bytes;
  const { createRasteriser } = await import('./rasterise-figures.ts');
  return (await writeDocx(document, { digestOf: sha256Hex, rasterise: await createRasteriser() })).bytes;
};

const holdsFigure = ({ blocks, footnotes }: Document): boolean => {
  let found = false;
  for (const list of [blocks, ...footnotes])
    forEachBlock(list, (block) => {
      if (block.kind === 'figure') found = true;
    });
  return found;
};

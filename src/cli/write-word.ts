import type { Document } from '../document/model.ts';
import { forEachBlock } from '../document/numbering.ts';
import { sha256Hex } from '../graph/digest.ts';
import type { HouseStyle } from '../house/house-style.ts';

/** A document as a Word file. What draws pictures of figures is loaded only where there are any. */
export const writeWord = async (document: Document, house?: HouseStyle): Promise<Uint8Array> => {
  const { writeDocx } = await import('../writers/docx/write-docx.ts');
  const options = { digestOf: sha256Hex, ...(house ? { house } : {}) };
  if (!holdsDrawing(document)) return (await writeDocx(document, options)).bytes;
  const { createRasteriser } = await import('./rasterise-figures.ts');
  return (await writeDocx(document, { ...options, rasterise: await createRasteriser() })).bytes;
};

/** Loads all that `writeWord` may need, for a program that is going to write many documents. */
export const makeReady = async (): Promise<void> => {
  const [{ createRasteriser }, { loadLayoutEngine }] = await Promise.all([
    import('./rasterise-figures.ts'),
    import('../writers/docx/page-numbers.ts'),
    import('../writers/docx/write-docx.ts'),
  ]);
  await Promise.all([loadLayoutEngine(), createRasteriser()]);
};

const holdsDrawing = ({ blocks, footnotes }: Document): boolean => {
  let found = false;
  for (const list of [blocks, ...footnotes])
    forEachBlock(list, (block) => {
      if (block.kind === 'figure' && block.png === undefined) found = true;
    });
  return found;
};

import { initWasm, Resvg } from '@resvg/resvg-wasm';
import { readFigureAssets } from '../host/own-files.ts';
import { writePngOfFewColours } from '../pictures/write-png.ts';
import type { DocxOptions } from '../writers/docx/write-docx.ts';

/** Pixels of the picture for each pixel of the figure: sharp in print at the size of a page. */
const zoom = 2;

let ready: Promise<readonly Uint8Array[]> | undefined;

/** Pictures by the text of their figure: a figure stands in several documents, and the writer asks for it twice in each. */
const drawn = new Map<string, Uint8Array>();

/** Loads what draws, once. */
const load = async (): Promise<readonly Uint8Array[]> => {
  const { wasm, fonts } = readFigureAssets();
  await initWasm(wasm);
  return fonts;
};

/**
 * Draws PNG pictures of figures for programs that can't read SVG. The fonts are the tool's own, never those of the
 * machine, so that the same figure gives the same bytes everywhere.
 */
export const createRasteriser = async (): Promise<NonNullable<DocxOptions['rasterise']>> => {
  ready ??= load();
  const fonts = await ready;
  return (svg) => {
    const known = drawn.get(svg);
    if (known) return known;
    const picture = new Resvg(svg, {
      fitTo: { mode: 'zoom', value: zoom },
      font: { fontBuffers: [...fonts], defaultFontFamily: 'Carlito', sansSerifFamily: 'Carlito' },
    });
    const image = picture.render();
    const png = writePngOfFewColours(image.width, image.height, image.pixels) ?? image.asPng();
    image.free();
    picture.free();
    drawn.set(svg, png);
    return png;
  };
};

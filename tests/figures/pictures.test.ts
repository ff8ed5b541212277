import { createHash } from 'node:crypto';
import { unzipSync } from 'fflate';
import { expect, test } from 'vitest';
import { createRasteriser } from '../../src/cli/rasterise-figures.ts';
import { writeWord } from '../../src/cli/write-word.ts';
import type { Document } from '../../src/document/model.ts';
import { sampleDocument } from '../writers/sample-document.ts';
import { sampleFigures } from './sample-figures.ts';

const rasterise = await createRasteriser();
const figures = Object.entries(sampleFigures()).flatMap(([name, figure]) =>
  figure ? [{ name, ...figure }] : [],
);
const hash = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

test.each(figures)(
  '$name: a PNG of twice the size, the same bytes from another rasteriser',
  async ({ svg, widthPx, heightPx }) => {
    const png = rasterise(svg, widthPx, heightPx);
    // PNG, ISO/IEC 15948: signature, then the header chunk with width and height.
    expect([...png.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
    const view = new DataView(png.buffer, png.byteOffset);
    expect([view.getUint32(16), view.getUint32(20)]).toEqual([2 * widthPx, 2 * heightPx]);
    const other = (await createRasteriser())(svg, widthPx, heightPx);
    expect(hash(other)).toBe(hash(png));
  },
);

test('words are drawn: a picture without them is another one', () => {
  for (const { svg, widthPx, heightPx } of figures) {
    const silent = svg.replace(/<text [^>]*>[^<]*<\/text>/g, '');
    expect(hash(rasterise(silent, widthPx, heightPx))).not.toBe(hash(rasterise(svg, widthPx, heightPx)));
  }
});

test('the font has every sign that units and methods use', () => {
  const glyph = (sign: string): string =>
    hash(
      rasterise(
        `<svg xmlns="http://www.w3.org/2000/svg" width="30" height="30"><text x="5" y="22" font-family="Carlito" font-size="20">${sign}</text></svg>`,
        30,
        30,
      ),
    );
  // A sign that no font has is drawn as nothing or as a box.
  const missing = new Set([glyph(' '), glyph('\u{10fffd}')]);
  for (const sign of 'µμ≤≥±×·°²³σαΩ√–—…≈≠%Łéßñ') expect(missing, sign).not.toContain(glyph(sign));
});

test('a Word file holds each figure as SVG and as PNG, with its alternative text, and is the same again', async () => {
  const [figure] = figures;
  if (!figure) throw new Error('there is no figure');
  const document: Document = {
    ...sampleDocument,
    blocks: [{ kind: 'figure', caption: 'A figure', ...figure }],
    footnotes: [],
  };
  const bytes = await writeWord(document);
  const parts = unzipSync(bytes);
  expect(new TextDecoder().decode(parts['word/media/figure1.svg'])).toBe(figure.svg);
  expect(hash(parts['word/media/figure1.png'] ?? new Uint8Array())).toBe(
    hash(rasterise(figure.svg, figure.widthPx, figure.heightPx)),
  );
  expect(new TextDecoder().decode(parts['word/document.xml'])).toContain('lower limit 30 N');
  expect(hash(await writeWord(document))).toBe(hash(bytes));
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readPicture } from '../../src/pictures/picture.ts';
import { said, withDocument } from '../views/with-document.ts';
import { chunk, plainPng } from '../writers/plain-png.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const svg = (inner: string, attributes = 'viewBox="0 0 200 100"'): Uint8Array =>
  bytes(
    `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ${attributes}>${inner}</svg>`,
  );
const drawn = (inner: string, attributes?: string) => {
  const outcome = readPicture(svg(inner, attributes));
  if (!outcome.ok || !('svg' in outcome.picture)) throw new Error(JSON.stringify(outcome));
  return outcome.picture;
};

describe('an SVG picture', () => {
  test('keeps what it draws', () => {
    const inner =
      '<defs><linearGradient id="g"><stop offset="0" stop-color="#000"></stop></linearGradient></defs><path d="M0 0L9 9" fill="url(#g)"></path><text x="1" y="2">a &lt; b</text>';
    const picture = drawn(inner);
    expect(picture.svg).toContain(inner);
    expect(picture.leftOut).toEqual([]);
    expect([picture.widthPx, picture.heightPx]).toEqual([200, 100]);
  });

  // CSS Values and Units Level 3, 6.2: 1 in = 2.54 cm = 96 px = 72 pt = 6 pc.
  test.each([
    ['width="2in" height="1in"', 192, 96],
    ['width="25.4mm" height="2.54cm"', 96, 96],
    ['width="72pt" height="6pc"', 96, 96],
    ['viewBox="0 0 20 10" width="400"', 400, 200],
    ['viewBox="0 0 20 10" height="400"', 800, 400],
    ['viewBox="0 0 20 10" width="100%" height="100%"', 20, 10],
    ['viewBox="0 0 28000 14000"', 1400, 700],
    ['width="999999" height="999999"', 1400, 1400],
  ])('with %s is %d by %d pixels', (attributes, width, height) => {
    const { widthPx, heightPx, svg: written } = drawn('<g></g>', attributes);
    expect([widthPx, heightPx]).toEqual([width, height]);
    expect(written).toContain(`width="${width}" height="${height}"`);
  });

  test.each([
    ['<script>alert(1)</script>', 'the element "script"'],
    [
      '<foreignObject><p xmlns="http://www.w3.org/1999/xhtml">x</p></foreignObject>',
      'the element "foreignObject"',
    ],
    ['<image href="https://example.com/a.png"/>', 'the element "image"'],
    ['<a href="https://example.com/"><path d="M0 0"/></a>', 'the element "a"'],
    ['<animate attributeName="href"/>', 'the element "animate"'],
    ['<path onclick="alert(1)" d="M0 0"/>', 'the attribute "onclick" of "path"'],
    ['<use xlink:href="other.svg#x"/>', 'the attribute "href" of "use"'],
    ['<use href="javascript:alert(1)"/>', 'the attribute "href" of "use"'],
    ['<rect fill="url(https://example.com/#x)"/>', 'the attribute "fill" of "rect"'],
    ['<rect style="fill:url( \'//example.com/x\' )"/>', 'the attribute "style" of "rect"'],
    ['<rect style="fill:u\\72l(x)"/>', 'the attribute "style" of "rect"'],
    ['<style>@import "https://example.com/x.css";</style>', 'a style sheet that loads something'],
  ])('loses %s, and says so', (inner, leftOut) => {
    const picture = drawn(`${inner}<circle r="1"></circle>`);
    expect(picture.leftOut).toEqual([leftOut]);
    expect(picture.svg).not.toMatch(/script|alert|example\.com|other\.svg|foreignObject|import|\\72/);
    expect(picture.svg).toContain('<circle r="1"></circle>');
  });

  test('loses without a word what has no look: titles, remarks, what drawing programs remember', () => {
    const { svg: written, leftOut } = drawn(
      '<title>t</title><metadata>m</metadata><x:view xmlns:x="urn:x" x:path="/home/somebody">v</x:view><g xmlns:y="urn:y" y:label="l"></g>',
    );
    expect(written).toMatch(/^<svg [^>]*><g><\/g><\/svg>$/);
    expect(leftOut).toEqual([]);
  });

  test.each([
    ['no XML', 'just text', 'cannot be read as an SVG picture'],
    ['another XML', '<html xmlns="http://www.w3.org/1999/xhtml"/>', 'it is no SVG picture'],
    ['no size', '<svg xmlns="http://www.w3.org/2000/svg"/>', 'without a size'],
    [
      'entities that expand',
      '<!DOCTYPE svg [<!ENTITY a "aaaa">]><svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1">&a;</svg>',
      'declares a document type',
    ],
    [
      'deep nesting',
      `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1">${'<g>'.repeat(200)}${'</g>'.repeat(200)}</svg>`,
      'nest deeper',
    ],
  ])('with %s is refused with the reason', (_name, text, reason) => {
    const outcome = readPicture(bytes(text));
    expect(outcome.ok ? '' : outcome.reason).toContain(reason);
  });

  test('with the plain document type of SVG 1.1 is read', () => {
    const text =
      '<?xml version="1.0"?><!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd"><svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1"/>';
    expect(readPicture(bytes(text)).ok).toBe(true);
  });
});

/** A picture with more chunks after its first. */
const withChunks = (...chunks: readonly Uint8Array[]): Uint8Array => {
  const plain = plainPng(30, 20);
  return new Uint8Array(Buffer.concat([plain.subarray(0, 33), ...chunks, plain.subarray(33)]));
};

describe('a PNG picture', () => {
  test('keeps its pixels and loses remarks', () => {
    const outcome = readPicture(withChunks(chunk('tEXt', Buffer.from('Author\0Somebody'))));
    if (!outcome.ok || !('png' in outcome.picture)) throw new Error('not read');
    expect(Buffer.from(outcome.picture.png).equals(Buffer.from(plainPng(30, 20)))).toBe(true);
    expect([outcome.picture.widthPx, outcome.picture.heightPx]).toEqual([30, 20]);
  });

  // PNG specification, 11.3.5.3: pixels to the metre; 11,811 are 300 to the inch, so 30 pixels are 9.6 of 1/96 inch.
  test('has the size that its density gives', () => {
    const density = Buffer.alloc(9);
    density.writeUInt32BE(11_811, 0);
    density.writeUInt32BE(11_811, 4);
    density[8] = 1;
    expect(readPicture(withChunks(chunk('pHYs', density)))).toMatchObject({
      picture: { widthPx: 10, heightPx: 6 },
    });
  });

  test('that is damaged anywhere is refused, or is still a PNG', () => {
    const plain = plainPng(8, 8);
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: plain.length - 1 }),
        fc.integer({ min: 1, max: 255 }),
        (at, change) => {
          const damaged = plain.slice();
          damaged[at] = (damaged[at] ?? 0) ^ change;
          expect(readPicture(damaged).ok).toBe(false);
        },
      ),
    );
    fc.assert(
      fc.property(fc.integer({ min: 2, max: plain.length - 1 }), (length) => {
        expect(readPicture(plain.subarray(0, length)).ok).toBe(false);
      }),
    );
  });

  test('of too many pixels, and a JPEG, are refused', () => {
    const head = Buffer.alloc(13);
    head.writeUInt32BE(100_000, 0);
    head.writeUInt32BE(100_000, 4);
    const huge = Buffer.concat([plainPng(1, 1).subarray(0, 8), chunk('IHDR', head)]);
    expect(readPicture(new Uint8Array(huge))).toMatchObject({
      ok: false,
      reason: 'it has 100000 by 100000 pixels',
    });
    expect(readPicture(Uint8Array.of(0xff, 0xd8, 0xff))).toMatchObject({
      ok: false,
      reason: 'it is a JPEG picture',
    });
  });
});

describe('a picture in a document', () => {
  const base = new Map<string, string | Uint8Array>([
    ['plinth.yaml', 'device: { name: Test device, maker: Harrow Lane Instruments }\n'],
    ['documents/pictures/tip.svg', svg('<circle r="5"/>')],
    ['pictures/tip photo.png', plainPng(40, 30)],
    ['pictures/bad.svg', svg('<script>x</script><circle r="5"/>')],
  ]);

  test('becomes a figure with caption, anchor and words for those who do not see it', () => {
    const compiled = withDocument(
      'See [](#tip).\n\n![Section of the tip](pictures/tip.svg "The tip\'s section {#tip}")\n\n![Photo][photo]\n\n[photo]: <../pictures/tip photo.png>\n',
      base,
    );
    expect(said(compiled)).toEqual([]);
    expect(compiled.document.blocks.slice(1)).toMatchObject([
      {
        kind: 'figure',
        caption: "The tip's section",
        anchor: 'tip',
        alternative: 'Section of the tip',
        source: { file: 'documents/pictures/tip.svg' },
      },
      { kind: 'figure', caption: 'Photo', svg: '', widthPx: 40, png: expect.stringMatching(/^iVBOR/) },
    ]);
  });

  test.each([
    ['![a](pictures/tipp.svg)', '9:1 image-unusable', 'Did you mean "documents/pictures/tip.svg"?'],
    ['![a](../../secret.png)', 'image-unusable', 'outside of the technical file'],
    ['![a](/etc/passwd)', 'image-unusable', 'does not lie in the technical file'],
    ['![a](https://example.com/x.png)', 'image-unusable', 'does not lie in the technical file'],
    ['![a](DOC-90.md)', 'image-unusable', 'cannot be read as an SVG picture'],
    ['![a](../pictures/bad.svg)', 'image-part-left-out', 'the element "script"'],
    ['![](pictures/tip.svg)', 'image-without-alternative', 'no alternative text'],
    ['Text ![a](pictures/tip.svg) text', 'lossy-markdown', 'a paragraph of its own'],
  ])('%s is told at its line', (line, code, words) => {
    const [finding = ''] = said(withDocument(`\n${line}\n`, base));
    expect(finding).toContain(code);
    expect(finding).toContain(words);
  });
});

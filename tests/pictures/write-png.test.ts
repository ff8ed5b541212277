import fc from 'fast-check';
import { convertIndexedToRgb, decode } from 'fast-png';
import { expect, test } from 'vitest';
import { readPicture } from '../../src/pictures/picture.ts';
import { writePngOfFewColours } from '../../src/pictures/write-png.ts';

const pixelsOf = (colours: readonly (readonly number[])[]): Uint8Array =>
  Uint8Array.from(colours.flatMap(([red = 0, green = 0, blue = 0]) => [red, green, blue, 255]));

// Read back by the package fast-png, which is not ours.
test('a picture of few colours reads back as the pixels that it was written from', () => {
  const byte = fc.nat(255);
  fc.assert(
    fc.property(
      fc.array(fc.tuple(byte, byte, byte), { minLength: 1, maxLength: 20 }),
      fc.integer({ min: 1, max: 17 }),
      fc.infiniteStream(fc.nat(1000)),
      fc.integer({ min: 1, max: 13 }),
      (palette, width, choice, height) => {
        const colours = Array.from(
          { length: width * height },
          () => palette[(choice.next().value as number) % palette.length] as number[],
        );
        const png = writePngOfFewColours(width, height, pixelsOf(colours)) as Uint8Array;
        const read = decode(png, { checkCrc: true });
        expect([read.width, read.height]).toEqual([width, height]);
        expect([...convertIndexedToRgb(read)]).toEqual(colours.flat());
        expect(readPicture(png)).toMatchObject({
          ok: true,
          picture: { widthPx: width, heightPx: height, png },
        });
      },
    ),
  );
});

test('256 colours are written, one more is not', () => {
  const grey = Array.from({ length: 257 }, (_, at) => [at % 256, Math.floor(at / 256), 7]);
  const written = writePngOfFewColours(16, 16, pixelsOf(grey.slice(0, 256))) as Uint8Array;
  expect([...convertIndexedToRgb(decode(written))]).toEqual(grey.slice(0, 256).flat());
  expect(writePngOfFewColours(257, 1, pixelsOf(grey))).toBeUndefined();
});

test('a picture that something shines through is not written by its few colours', () => {
  expect(writePngOfFewColours(1, 2, Uint8Array.from([1, 2, 3, 255, 1, 2, 3, 254]))).toBeUndefined();
});

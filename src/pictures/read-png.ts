import type { PictureOutcome } from './picture.ts';
import { crc32, joined, pngSignature } from './png-parts.ts';

/**
 * Chunks that a picture needs for its looks (W3C PNG, 2nd edition, table 5.3). Others hold remarks, times and places
 * where a photograph was taken; they stay out of documents.
 */
const kept: ReadonlySet<string> = new Set([
  'IHDR',
  'PLTE',
  'IDAT',
  'IEND',
  'tRNS',
  'cHRM',
  'gAMA',
  'iCCP',
  'sRGB',
  'pHYs',
]);

/** Most pixels of a picture: 60 million are a page of A3 at 500 dots to the inch. */
const mostPixels = 60_000_000;

const damaged = (what: string): PictureOutcome => ({
  ok: false,
  reason: `it is a damaged PNG picture: ${what}`,
  hint: 'Save it again from the program that made it.',
});

/** Reads a PNG picture and keeps the chunks that its looks need. */
export const readPng = (bytes: Uint8Array): PictureOutcome => {
  if (pngSignature.some((byte, at) => bytes[at] !== byte))
    return damaged('its first bytes are not those of a PNG');
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const parts: Uint8Array[] = [bytes.subarray(0, 8)];
  let width = 0;
  let height = 0;
  /** Pixels to a metre, where the picture says so. */
  let density = { across: 0, down: 0 };
  let hasData = false;
  let at = 8;
  for (;;) {
    if (at + 12 > bytes.length) return damaged('it ends too early');
    const length = view.getUint32(at);
    const end = at + 12 + length;
    if (end > bytes.length) return damaged('it ends too early');
    const type = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    if (crc32(bytes.subarray(at + 4, end - 4)) !== view.getUint32(end - 4))
      return damaged(
        `its part ${/^[A-Za-z]{4}$/.test(type) ? type : 'without a name'} has other bytes than it should`,
      );
    if (at === 8 && (type !== 'IHDR' || length !== 13)) return damaged('it does not begin with its size');
    if (type === 'IHDR') {
      width = view.getUint32(at + 8);
      height = view.getUint32(at + 12);
      if (width === 0 || height === 0) return damaged('it has no width or no height');
      if (width * height > mostPixels)
        return {
          ok: false,
          reason: `it has ${width} by ${height} pixels`,
          hint: 'Save it with fewer pixels: 2,000 across are enough for a page.',
        };
    }
    if (type === 'pHYs' && length === 9 && bytes[at + 16] === 1)
      density = { across: view.getUint32(at + 8), down: view.getUint32(at + 12) };
    if (type === 'IDAT') hasData = true;
    if (kept.has(type)) parts.push(bytes.subarray(at, end));
    if (type === 'IEND') break;
    at = end;
  }
  if (!hasData) return damaged('it holds no pixels');
  const inches = (pixels: number, toTheMetre: number): number => (pixels / toTheMetre) * (1 / 0.0254);
  const isDense = density.across > 0 && density.down > 0;
  return {
    ok: true,
    picture: {
      widthPx: isDense ? Math.max(1, Math.round(inches(width, density.across) * 96)) : width,
      heightPx: isDense ? Math.max(1, Math.round(inches(height, density.down) * 96)) : height,
      png: joined(parts),
      leftOut: [],
    },
  };
};

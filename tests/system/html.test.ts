import { inflateSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { writeHtml } from '../../src/writers/html/write-html.ts';
import { hostileDocument } from '../writers/hostile-document.ts';
import { sampleDocument } from '../writers/sample-document.ts';
import { type Scheme, screenshot } from './programs.ts';

/** Share of pixels, 0 to 1, whose first channel is under 128. From the PNG specification (ISO/IEC 15948), 9 and 10. */
function darkShare(png: Buffer): number {
  const width = png.readUInt32BE(16);
  const height = png.readUInt32BE(20);
  const channels = { 0: 1, 2: 3, 6: 4 }[png[25] ?? 0] ?? 0;
  if (png[24] !== 8 || channels === 0) throw new Error('a picture of another kind than expected');
  const data: Buffer[] = [];
  for (let at = 8; at < png.length; at += 12 + png.readUInt32BE(at)) {
    if (png.toString('latin1', at + 4, at + 8) === 'IDAT')
      data.push(png.subarray(at + 8, at + 8 + png.readUInt32BE(at)));
  }
  const raw = inflateSync(Buffer.concat(data));
  const stride = width * channels;
  let above = new Uint8Array(stride);
  let dark = 0;
  for (let y = 0; y < height; y += 1) {
    const filter = raw[y * (stride + 1)] ?? 0;
    const line = Uint8Array.from(raw.subarray(y * (stride + 1) + 1, (y + 1) * (stride + 1)));
    for (let x = 0; x < stride; x += 1) {
      const left = x >= channels ? (line[x - channels] ?? 0) : 0;
      const up = above[x] ?? 0;
      const corner = x >= channels ? (above[x - channels] ?? 0) : 0;
      line[x] = ((line[x] ?? 0) + predicted(filter, left, up, corner)) & 255;
      if (x % channels === 0 && (line[x] ?? 0) < 128) dark += 1;
    }
    above = line;
  }
  return dark / (width * height);
}

function predicted(filter: number, left: number, up: number, corner: number): number {
  if (filter === 1) return left;
  if (filter === 2) return up;
  if (filter === 3) return (left + up) >> 1;
  if (filter !== 4) return 0;
  const guess = left + up - corner;
  const [a, b, c] = [Math.abs(guess - left), Math.abs(guess - up), Math.abs(guess - corner)];
  return a <= b && a <= c ? left : b <= c ? up : corner;
}

test.each([
  ['light', sampleDocument, 0.001, 0.2],
  ['dark', sampleDocument, 0.8, 0.999],
  ['light', hostileDocument, 0.001, 0.2],
] as const)('Chromium shows the page in %s', (scheme: Scheme, document, least, most) => {
  const share = darkShare(screenshot(writeHtml(document), scheme));
  expect(share).toBeGreaterThan(least);
  expect(share).toBeLessThan(most);
});

import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { readHouseStyle } from '../../src/house/house-style.ts';
import { wantedStyles } from '../../src/writers/docx/styles.ts';
import { writeDocx } from '../../src/writers/docx/write-docx.ts';
import { processorMilliseconds } from '../support/processor-time.ts';
import { illFormed, xmlParts } from '../writers/docx-parts.ts';
import { hostileDocument } from '../writers/hostile-document.ts';
import { germanHouse, houseFile, libreOfficeHouse } from './house-files.ts';

/** The minimal standard generator of Park and Miller (1988): the same faults in every run. */
const randomFrom = (seed: number) => {
  let state = seed;
  return (below: number): number => {
    state = (state * 16807) % 2147483647;
    return state % below;
  };
};

/** A file with one or two of its tags or values gone, doubled, taken from elsewhere or out of range. */
const broken = (
  base: Readonly<Record<string, Uint8Array>>,
  random: (below: number) => number,
): Uint8Array => {
  const names = Object.keys(base).filter((name) => /\.(?:xml|rels)$/.test(name));
  const name = names[random(names.length)] ?? '';
  let text = strFromU8(base[name] ?? new Uint8Array());
  for (let fault = 0; fault <= random(2); fault += 1) {
    // Empty elements and values: what is left is often XML still.
    const pieces = [...text.matchAll(/<[\w:]+[^<>]*\/>|"[^"<]*"/g)];
    const piece = pieces[random(pieces.length)];
    if (piece === undefined) break;
    const isValue = piece[0].startsWith('"');
    const alike = pieces.filter((each) => each[0].startsWith('"') === isValue);
    const other = alike[random(alike.length)]?.[0] ?? '';
    const put = isValue
      ? ['""', '"-99999999999999999999"', other][random(3)]
      : ['', piece[0] + piece[0], other][random(3)];
    text = text.slice(0, piece.index) + put + text.slice(piece.index + piece[0].length);
  }
  return zipSync({ ...base, [name]: strToU8(text) });
};

describe('whatever is broken in a file, it is a reason or a house style', () => {
  test.each([
    ['German Word', germanHouse()],
    ['LibreOffice', libreOfficeHouse()],
  ])('%s', async (_name, bytes) => {
    const base = unzipSync(bytes);
    const random = randomFrom(20261126);
    let usable = 0;
    for (let n = 0; n < 300; n += 1) {
      const read = readHouseStyle(broken(base, random), wantedStyles());
      if (!read.ok) {
        expect(read.reason).not.toBe('');
        continue;
      }
      usable += 1;
      if (n % 20 !== 0) continue;
      const written = await writeDocx(hostileDocument, { house: read.style, mostCellsToLayOut: 0 });
      for (const [path, xml] of xmlParts(written.bytes))
        expect(`${path}: ${illFormed(xml)}`).toBe(`${path}: undefined`);
    }
    expect(usable).toBeGreaterThan(150);
    expect(usable).toBeLessThan(300);
  });
});

test('a file of many styles is read in a time that grows with their number', () => {
  const many = (count: number): Uint8Array =>
    houseFile({
      styles: [...Array(count).keys()]
        .map(
          (n) =>
            `<w:style w:type="paragraph" w:styleId="s${n}"><w:name w:val="style ${n}"/><w:basedOn w:val="s${n - 1}"/></w:style>`,
        )
        .join(''),
    });
  // The shortest of three: other work on the machine only ever makes it longer.
  const time = (count: number): number => {
    const file = many(count);
    const times = [1, 2, 3].map(() => {
      const start = processorMilliseconds();
      expect(readHouseStyle(file, wantedStyles()).ok).toBe(true);
      return processorMilliseconds() - start;
    });
    return Math.min(...times);
  };
  time(500);
  const [few, ten] = [time(1000), time(10_000)];
  // Ten times as many: a square would be a hundred times.
  expect(ten / few).toBeLessThan(40);
});

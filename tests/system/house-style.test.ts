import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Document } from '../../src/document/model.ts';
import { readHouseStyle } from '../../src/house/house-style.ts';
import { wantedStyles } from '../../src/writers/docx/styles.ts';
import { writeDocx } from '../../src/writers/docx/write-docx.ts';
import { bareHouse, germanHouse, libreOfficeHouse } from '../house/house-files.ts';
import { hostileDocument } from '../writers/hostile-document.ts';
import { plainPng } from '../writers/plain-png.ts';
import { sampleDocument } from '../writers/sample-document.ts';
import { longDocument } from './long-document.ts';
import { inFolder, pagesOf, run } from './programs.ts';

const rasterise = (_svg: string, width: number, height: number) => plainPng(width, height);
const writeIn = async (bytes: Uint8Array, document: Document) => {
  const read = readHouseStyle(bytes, wantedStyles());
  if (!read.ok) throw new Error(read.reason);
  return writeDocx(document, { rasterise, house: read.style });
};
const gates = process.env['PLINTH_DOCX_CHECK'];

const cases = [
  ['German Word', germanHouse()],
  ['LibreOffice', libreOfficeHouse()],
  ['next to nothing', bareHouse()],
].flatMap(([house, bytes]) =>
  [
    ['every kind of block', sampleDocument],
    ['hostile texts', hostileDocument],
    ['many pages', longDocument],
  ].map(([content, document]) => [house, content, bytes, document] as const),
) as readonly (readonly [string, string, Uint8Array, Document])[];

describe.skipIf(gates === undefined)('schemas and references', () => {
  test.each(cases)('%s: %s', async (_house, _content, bytes, document) => {
    const written = await writeIn(bytes, document);
    const { status, output } = inFolder((folder) => {
      const file = join(folder, 'document.docx');
      writeFileSync(file, written.bytes);
      return run(gates ?? '', [file]);
    });
    expect(output).toMatch(/ 0 invalid parts/);
    expect(output).toMatch(/ OK$/m);
    expect(status).toBe(0);
  });
});

/** Words of the body by page, without running heads. */
const numbered = /^\s*(\d+(?:\.\d+)*)\s+(\S.*?)\s*\.{5,}\s*(\d+)\s*$/gm;

describe('LibreOffice', () => {
  test.each(cases.filter(([, content]) => content === 'many pages'))(
    '%s: each heading stands on the page that the contents list names, and each page says what it belongs to',
    async (_house, _content, bytes, document) => {
      const pages = pagesOf((await writeIn(bytes, document)).bytes);
      const entries = pages.slice(0, 3).flatMap((page) => [...page.matchAll(numbered)]);
      expect(entries.length).toBe(24);
      const distances = entries.map(([, number = '', title = '', page = '']) => {
        const heading = new RegExp(`^\\s*${number.replaceAll('.', '\\.')}\\s+${title}\\s*$`, 'm');
        return Math.abs(pages.findIndex((text) => heading.test(text)) - (Number(page) - 1));
      });
      expect(Math.max(...distances)).toBeLessThanOrEqual(1);
      for (const [index, page] of pages.entries()) {
        if (index === 0) continue;
        expect(page).toContain(`${document.number}, revision ${document.revision}`);
        expect(page).toMatch(new RegExp(`(?:Page|Seite) ${index + 1}\\b`));
      }
    },
  );
});

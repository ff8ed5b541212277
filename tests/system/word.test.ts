import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { writeDocx } from '../../src/writers/docx/write-docx.ts';
import { hostileDocument } from '../writers/hostile-document.ts';
import { plainPng } from '../writers/plain-png.ts';
import { sampleDocument } from '../writers/sample-document.ts';
import { longDocument } from './long-document.ts';
import { inFolder, pagesOf, run } from './programs.ts';

const options = { rasterise: (_svg: string, width: number, height: number) => plainPng(width, height) };

const documents = [
  ['every kind of block', sampleDocument],
  ['hostile texts', hostileDocument],
  ['many pages', longDocument],
  ['next to nothing', { ...sampleDocument, blocks: [], footnotes: [], signatures: [], provenance: [] }],
] as const;

// The schemas of ISO/IEC 29500-4:2016 carry no licence of their own, so they are not part of the project: name a
// script that checks files against them, and the references in them, to run this.
const gates = process.env.PLINTH_DOCX_CHECK;
if (gates === undefined)
  console.info('PLINTH_DOCX_CHECK is not set: Word files are not checked against the schemas');

describe.skipIf(gates === undefined)('schemas and references', () => {
  test.each(documents)('%s', async (_name, document) => {
    const { bytes } = await writeDocx(document, options);
    const { status, output } = inFolder((folder) => {
      const file = join(folder, 'document.docx');
      writeFileSync(file, bytes);
      return run(gates ?? '', [file]);
    });
    expect(output).toMatch(/ 0 invalid parts/);
    expect(output).toMatch(/ OK$/m);
    expect(status).toBe(0);
  });
});

describe('LibreOffice', () => {
  test.each(documents)('opens: %s', async (_name, document) => {
    const { bytes } = await writeDocx(document, options);
    const pages = pagesOf(bytes);
    expect(pages.length).toBeGreaterThan(0);
    expect(pages[0]?.replace(/\s+/g, ' ')).toContain(document.organisation);
  });

  test.each([
    ['every kind of block', sampleDocument, 8],
    ['many pages', longDocument, 24],
  ] as const)(
    'has each heading on the page that the contents list names: %s',
    async (_name, document, least) => {
      const { bytes, notices } = await writeDocx(document, options);
      expect(notices).toEqual([]);
      const pages = pagesOf(bytes);
      const entries = pages.flatMap((page) => [
        ...page.matchAll(/^\s*(\d+(?:\.\d+)*)\s+(\S.*?)\s*\.{5,}\s*(\d+)\s*$/gm),
      ]);
      expect(entries.length).toBe(least);
      const distances = entries.map(([, number = '', title = '', page = '']) => {
        const heading = new RegExp(`^\\s*${number.replaceAll('.', '\\.')}\\s+${title}\\s*$`, 'm');
        return Math.abs(pages.findIndex((text) => heading.test(text)) - (Number(page) - 1));
      });
      // The numbers follow Word's rules, LibreOffice has its own: a line more or less at the foot of a page may move
      // one heading in twenty by a page. A fault of the writer moves all that follow.
      expect(Math.max(...distances)).toBeLessThanOrEqual(1);
      expect(distances.filter((distance) => distance > 0).length).toBeLessThanOrEqual(entries.length / 20);
      expect(pages.at(-1)).toContain(`Page ${pages.length} of ${pages.length}`);
    },
  );
});

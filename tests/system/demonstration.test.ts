import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { emptyFolder, runPlinth } from '../cli/run-plinth.ts';
import { projectRoot } from '../support/technical-file.ts';
import { listedHeadings } from './contents-list.ts';
import { pagesOf, run } from './programs.ts';

const output = join(emptyFolder(), 'documents');
const built = runPlinth(projectRoot, ['build', 'content', '--output', output]);
/** Of the reports for each record, three: a pass, the fail, and an inspection without numbers. The others come from the same form. */
const isLookedAt = (name: string): boolean => !name.startsWith('DOC-20-') || /-VR-(?:01|09A|17)-/.test(name);
const documents = readdirSync(output).filter((name) => name.endsWith('.docx') && isLookedAt(name));
const gates = process.env['PLINTH_DOCX_CHECK'];

/**
 * A copy whose links to other files name no place in them: the gate knows the bookmarks of one file alone. That these
 * places are there is held by tests/demo/two-clicks.test.ts.
 */
const withoutPlacesElsewhere = (name: string): string => {
  const parts = unzipSync(new Uint8Array(readFileSync(join(output, name))));
  const body = strFromU8(parts['word/document.xml'] ?? new Uint8Array());
  const bare = body.replace(/(<w:hyperlink r:id="[^"]+") w:anchor="[^"]+"/g, '$1');
  const copy = join(emptyFolder(), name);
  writeFileSync(copy, zipSync({ ...parts, 'word/document.xml': strToU8(bare) }));
  return copy;
};

describe('the documents of the demonstration file', () => {
  test('are built without an error', () => {
    expect(built.error).toBe('');
    expect(built.code).toBe(0);
    expect(documents.length).toBeGreaterThanOrEqual(5);
  });

  test.skipIf(gates === undefined).each(documents)(
    '%s meets the schemas, and its references hold',
    (name) => {
      const { status, output: said } = run(gates ?? '', [withoutPlacesElsewhere(name)]);
      expect(said).toMatch(/ 0 invalid parts/);
      expect(said).toMatch(/ OK$/m);
      expect(status).toBe(0);
    },
  );

  test.each(documents)('%s opens in LibreOffice with the pages that the file names', (name) => {
    const bytes = new Uint8Array(readFileSync(join(output, name)));
    const pages = pagesOf(bytes);
    // A form and a brochure, and reports on one record, have no contents list.
    const hasContents = pages.some((page) => /^\s*Contents\s*$/m.test(page));
    expect(hasContents).toBe(!/^DOC-(?:20|21|28)-/.test(name));
    expect(pages.length).toBeGreaterThan(hasContents ? 2 : 1);
    expect(pages.at(-1)).toContain(`Page ${pages.length} of ${pages.length}`);
    const entries = listedHeadings(pages);
    expect(entries.length > 0).toBe(hasContents);
    // The numbers follow Word's rules, LibreOffice has its own: a line more or less at the foot of a page may move one
    // heading in twenty by a page. In a PDF they are those of the PDF itself.
    const moved = entries.filter(({ listed, found }) => found !== listed);
    expect(moved.filter(({ listed, found }) => Math.abs(found - listed) > 1)).toEqual([]);
    expect(moved.length).toBeLessThanOrEqual(entries.length / 20);
    const foot = strFromU8(unzipSync(bytes)['word/footer1.xml'] ?? new Uint8Array());
    const [, pageCount] = / NUMPAGES .*?<w:t[^>]*>(\d+)<\/w:t>/.exec(foot) ?? [];
    if (hasContents) expect(Math.abs(Number(pageCount) - pages.length)).toBeLessThanOrEqual(1);
  });
});

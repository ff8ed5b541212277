import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { demonstrationFiles, openBrowser, type SiteFolder, visit, writeSiteFolder } from './browse.ts';
import { inFolder, run } from './programs.ts';

let browser: Browser;
let site: SiteFolder;

beforeAll(async () => {
  [browser, site] = await Promise.all([openBrowser(), writeSiteFolder(demonstrationFiles())]);
}, 120_000);

afterAll(async () => {
  await browser?.close();
  site?.remove();
});

/** The text of each sheet of a page that Chromium prints, as poppler reads it. */
const printed = async (path: string): Promise<readonly string[]> => {
  const { page, complaints, close } = await visit(browser, site.root);
  try {
    await page.goto(site.root + path);
    await page.locator('html[data-ready="yes"]').waitFor();
    const pdf = await page.pdf({ preferCSSPageSize: true });
    expect(complaints).toEqual([]);
    return inFolder((folder) => {
      const file = join(folder, 'page.pdf');
      writeFileSync(file, pdf);
      const { status, output } = run('pdftotext', ['-layout', file, '-']);
      expect(status).toBe(0);
      return output.split('\f').filter((sheet) => sheet.trim() !== '');
    });
  } finally {
    await close();
  }
};

const known = new Map<string, Promise<readonly string[]>>();

const sheetsOf = (path: string): Promise<readonly string[]> => {
  const sheets = known.get(path) ?? printed(path);
  known.set(path, sheets);
  return sheets;
};

const wordsOn = (sheet: string | undefined): number => (sheet ?? '').split(/\s+/).filter(Boolean).length;

describe('what Chromium prints', () => {
  test.each([
    ['matrix.html', 'Raw data', /\bVR-09B\.csv\b/],
    ['approvals.html', 'Meaning', /\bVR-28\b/],
  ])(
    'of %s: the head of the table on every sheet with rows, a full first sheet, and no tools',
    async (path, head, last) => {
      const sheets = await sheetsOf(path);
      expect(sheets.length).toBeGreaterThan(3);
      expect(wordsOn(sheets[0])).toBeGreaterThan(100);
      // The last sheet may hold nothing but the foot of the page.
      for (const [index, sheet] of sheets.slice(0, -1).entries())
        expect(sheet, `${path}, sheet ${index + 1}`).toContain(head);
      const all = sheets.join('\n');
      // "Clear" and "Search" are words of titles too, so these must not stand alone.
      expect(all).not.toMatch(/Filter rows|Columns|\bCSV\b|^ *(?:Clear|Search|Dark|Light|Pages)\b *$/m);
      expect(all).toMatch(last);
      expect(all).toContain('It does not say that the device is safe');
    },
    120_000,
  );

  test('of a long table: all of its rows, also those that were out of sight', async () => {
    const data = readFileSync(join(site.folder, 'data/approvals.js'), 'utf8');
    const rows = data.split('\n').filter((line) => line.startsWith('[[')).length;
    expect(rows).toBeGreaterThan(300);
    const text = (await sheetsOf('approvals.html')).join('\n');
    expect(text.match(/in force/g)?.length).toBe(data.match(/"in force"/g)?.length);
  }, 120_000);

  test('of a page that is no table: upright, from its title to the origin', async () => {
    const sheets = await sheetsOf('records/RK-03.html');
    expect(sheets[0]).toContain('RK-03');
    expect(wordsOn(sheets[0])).toBeGreaterThan(100);
    expect(sheets.join('\n')).toContain('Content digest');
  }, 120_000);
});

import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type { AxeResults } from 'axe-core';
import { HtmlValidate, StaticConfigLoader } from 'html-validate';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  demonstrationFiles,
  earlierFiles,
  openBrowser,
  pageKinds,
  type SiteFolder,
  visit,
  writeSiteFolder,
} from './browse.ts';

let browser: Browser;
let site: SiteFolder;

beforeAll(async () => {
  [browser, site] = await Promise.all([openBrowser(), writeSiteFolder(demonstrationFiles(), earlierFiles())]);
});

afterAll(async () => {
  await browser?.close();
  site?.remove();
});

/** Rules of WCAG 2.2 up to level AA that axe-core can judge by itself, and its best practices. */
const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

type Look = Parameters<typeof visit>[2];

const violations = async (look: Look, paths: readonly string[], prepare = ''): Promise<readonly string[]> => {
  // The page's own policy lets no foreign script in, and axe is one.
  const { page, close } = await visit(browser, site.root, { ...look, bypassCSP: true });
  const found: string[] = [];
  for (const path of paths) {
    await page.goto(site.root + path);
    await page.evaluate(axe);
    if (prepare !== '') await page.evaluate(prepare);
    const results = await page.evaluate<AxeResults>(
      `axe.run(document, { runOnly: ${JSON.stringify(rules)} })`,
    );
    expect(results.passes.length, path).toBeGreaterThan(15);
    for (const { id, nodes } of results.violations)
      found.push(`${path}: ${id} at ${nodes[0]?.html.slice(0, 200)}`);
  }
  await close();
  return found;
};

describe('axe-core finds nothing against WCAG 2.2', () => {
  test.each(['light', 'dark'] as const)('on any kind of page, %s', async (colorScheme) => {
    expect(await violations({ colorScheme }, pageKinds)).toEqual([]);
  });

  test('on a phone, with the list of pages open', async () => {
    expect(
      await violations(
        { viewport: { width: 390, height: 800 } },
        ['index.html', 'matrix.html', 'records/VR-09A.html'],
        'document.getElementById("pages").showPopover()',
      ),
    ).toEqual([]);
  });

  test('with the search open', async () => {
    const openSearch =
      'document.querySelector(".search-open").click(); new Promise((done) => setTimeout(() => { const input = document.querySelector("dialog.search input"); input.value = "force"; input.dispatchEvent(new Event("input")); done(); }, 400))';
    expect(await violations({ colorScheme: 'dark' }, ['index.html'], openSearch)).toEqual([]);
  });

  test('and would find a picture without a text', async () => {
    const spoil = 'document.querySelector("main").append(document.createElement("img"))';
    expect((await violations({}, ['findings.html'], spoil))[0]).toMatch(/^findings.html: image-alt/);
  });
});

/** html-validate judges by the content models of the HTML standard, and by its own rules on accessibility. */
const validator = new HtmlValidate(
  new StaticConfigLoader({ root: true, extends: ['html-validate:standard', 'html-validate:a11y'] }),
);

const complaints = async (html: string, path: string): Promise<readonly string[]> =>
  (await validator.validateString(html, path)).results.flatMap(({ messages }) =>
    messages.map(({ ruleId, line, column, message }) => `${path}:${line}:${column} ${ruleId}: ${message}`),
  );

describe('html-validate finds nothing against the HTML standard', () => {
  test('on any kind of page, on the first record of each type and on one document in four', async () => {
    const records = readdirSync(join(site.folder, 'records')).sort();
    const paths = new Set<string>([
      ...pageKinds,
      ...[...new Set(records.map((name) => name.replace(/-.*/, '')))].map(
        (prefix) => `records/${records.find((name) => name.startsWith(`${prefix}-`))}`,
      ),
      ...readdirSync(join(site.folder, 'documents'))
        .sort()
        .filter((_, index) => index % 4 === 0)
        .map((name) => `documents/${name}`),
    ]);
    expect(paths.size).toBeGreaterThan(50);
    for (const path of paths)
      expect(await complaints(readFileSync(join(site.folder, path), 'utf8'), path)).toEqual([]);
  });

  test('and would find a block within a paragraph, and an id that is there twice', async () => {
    const html = readFileSync(join(site.folder, 'findings.html'), 'utf8');
    const spoilt = html.replace('</main>', '<p><div id="content"></div></p></main>');
    expect(spoilt).not.toBe(html);
    const rulesMet = (await complaints(spoilt, 'findings.html')).join('\n');
    expect(rulesMet).toMatch(/no-dup-id/);
    expect(rulesMet).toMatch(/close-order|element-permitted-content|no-implicit-close/);
  });
});

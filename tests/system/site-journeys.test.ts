import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { type FileServer, serveFiles } from '../../src/host/serve-files.ts';
import {
  demonstrationFiles,
  earlierFiles,
  openBrowser,
  pageKinds,
  type SiteFolder,
  type Visit,
  visit,
  writeSiteFolder,
} from './browse.ts';

// A key that is pressed waits for its page without end, so the tests themselves must not.
vi.setConfig({ testTimeout: 90_000, hookTimeout: 90_000 });

let browser: Browser;
let site: SiteFolder;
let server: FileServer;

beforeAll(async () => {
  [browser, site, server] = await Promise.all([
    openBrowser(),
    writeSiteFolder(demonstrationFiles(), earlierFiles()),
    serveFiles(0),
  ]);
  server.show(
    new Map(
      readdirSync(site.folder, { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile())
        .map((entry) => {
          const path = join(entry.parentPath, entry.name);
          return [path.slice(site.folder.length + 1), readFileSync(path)];
        }),
    ),
    'shown',
  );
});

afterAll(async () => {
  await Promise.all([browser?.close(), server?.close()]);
  site?.remove();
});

const places = [
  ['opened from the disk', () => site.root],
  ['from a web host', () => `http://127.0.0.1:${server.port}/`],
] as const;

/** Visits a page, and holds afterwards that nothing was complained of. */
const at = async (
  root: string,
  path: string,
  walk: (page: Page, seen: Visit) => Promise<void>,
  options: Parameters<typeof visit>[2] = {},
): Promise<void> => {
  const seen = await visit(browser, root, options);
  try {
    await seen.page.goto(root + path);
    await walk(seen.page, seen);
    expect(seen.complaints).toEqual([]);
  } finally {
    await seen.close();
  }
};

/** Presses Tab until the named element has the focus, as somebody without a mouse does. */
const tabTo = async (page: Page, name: string | RegExp, most = 120): Promise<void> => {
  for (let presses = 0; presses < most; presses += 1) {
    await page.keyboard.press('Tab');
    const focused = await page.evaluate<string>('document.activeElement?.textContent ?? ""');
    if (typeof name === 'string' ? focused.trim() === name : name.test(focused)) return;
  }
  throw new Error(`no way to ${name} by the Tab key`);
};

const rowsShown = (page: Page, grid: string) => page.locator(`[data-grid="${grid}"] tbody tr:not(.spacer)`);

describe.each(places)('the copy %s', (_, rootOf) => {
  test('opens on every kind of page without a complaint, and asks for nothing outside of its folder', async () => {
    const root = rootOf();
    const seen = await visit(browser, root);
    for (const path of pageKinds) {
      await seen.page.goto(root + path);
      expect(await seen.page.locator('h1').count(), path).toBe(1);
      expect(await seen.page.locator('html').getAttribute('data-ready'), path).toBe('yes');
    }
    expect(seen.complaints).toEqual([]);
    await seen.close();
  });

  test('search by keyboard: a slash, an id, Enter', () =>
    at(rootOf(), 'matrix.html', async (page) => {
      await page.keyboard.press('/');
      const dialog = page.locator('dialog.search');
      await dialog.waitFor();
      await page.keyboard.type('un-08');
      await page.locator('dialog.search li[aria-selected="true"] .id').filter({ hasText: 'UN-08' }).waitFor();
      await page.keyboard.press('Enter');
      await page.waitForURL(/records\/UN-08\.html$/);
      expect(await page.locator('h1').textContent()).toMatch(/^UN-08 /);
    }));

  test('from a need to the raw numbers with three presses of Enter', () =>
    at(rootOf(), 'records/UN-08.html', async (page) => {
      await tabTo(page, /^VR-09B/);
      await page.keyboard.press('Enter');
      await page.waitForURL(/records\/VR-09B\.html$/);
      await tabTo(page, 'Open the table');
      await page.keyboard.press('Enter');
      await page.waitForURL(/VR-09B\.csv\.html$/);
      const data = readFileSync(join(site.folder, 'raw/verification/data/VR-09B.csv'), 'utf8');
      const second = data.split('\n')[1]?.split(',')[0] ?? 'none';
      expect(await page.locator('.grid tbody tr').first().textContent()).toContain(second);
    }));

  test('light and dark: as the system has it, or as the reader chose, on the next page too', () =>
    at(
      rootOf(),
      'index.html',
      async (page) => {
        const ground = (): Promise<string> =>
          page.evaluate('getComputedStyle(document.body).backgroundColor');
        const dark = await ground();
        await page.getByRole('button', { name: 'Change to a light page' }).click();
        const light = await ground();
        expect(light).not.toBe(dark);
        await page.goto(`${rootOf()}records/UN-08.html`);
        expect(await ground()).toBe(light);
        expect(await page.getByRole('button', { name: 'Change to a dark page' }).isVisible()).toBe(true);
      },
      { colorScheme: 'dark' },
    ));

  test('a deep link with a place leads to that place', () =>
    at(
      rootOf(),
      'records/VR-09A.html#evidence',
      async (page) => {
        const top = await page.evaluate<number>(
          'document.getElementById("evidence").getBoundingClientRect().top',
        );
        expect(top).toBeGreaterThanOrEqual(0);
        expect(top).toBeLessThan(200);
      },
      { reducedMotion: 'reduce' },
    ));
});

describe('the copy', () => {
  test('search finds what stands in a text only, shows the piece, and takes the arrow keys', () =>
    at(site.root, 'records/UN-08.html', async (page) => {
      await page.keyboard.press('Control+k');
      await page.locator('dialog.search[data-loaded="all"]').waitFor();
      await page.keyboard.type('axial pull');
      const hits = page.locator('dialog.search li');
      await hits.first().waitFor();
      expect(await hits.count()).toBeGreaterThan(1);
      expect((await page.locator('dialog.search .piece mark').first().textContent())?.toLowerCase()).toMatch(
        /axial|pull/,
      );
      await page.keyboard.press('ArrowDown');
      expect(await hits.nth(1).getAttribute('aria-selected')).toBe('true');
      expect(await page.locator('dialog.search input').getAttribute('aria-activedescendant')).toBe(
        'search-hit-1',
      );
      await page.keyboard.press('Escape');
      expect(await page.locator('dialog.search').isVisible()).toBe(false);
    }));

  test('the matrix filtered, sorted, by other columns; its address brings the same view back', () =>
    at(site.root, 'matrix.html', async (page) => {
      const rows = rowsShown(page, 'matrix');
      const all = await rows.count();
      await page.getByRole('searchbox', { name: /^Filter rows/ }).fill('tip retention');
      const some = await rows.count();
      expect(some).toBeGreaterThan(1);
      expect(some).toBeLessThan(all);
      for (const text of await rows.allTextContents()) expect(text.toLowerCase()).toContain('retention');
      expect(await page.locator('[data-grid="matrix"] output').textContent()).toBe(`${some} of ${all} rows`);

      await page.locator('summary', { hasText: 'Verdict' }).click();
      await page.getByRole('group', { name: 'Verdict' }).getByRole('checkbox', { name: /^fail/ }).check();
      expect(await rows.count()).toBe(1);
      expect(await rows.first().textContent()).toContain('VR-09A');

      await page.locator('summary', { hasText: 'Columns' }).click();
      await page.getByRole('group', { name: 'Columns' }).getByRole('checkbox', { name: 'Why' }).check();
      await page.keyboard.press('Escape');
      await page.getByRole('button', { name: 'Record' }).click();
      await page.getByRole('button', { name: 'Record' }).click();
      const head = page.locator('th[aria-sort]');
      expect(await head.getAttribute('aria-sort')).toBe('descending');
      expect(await page.locator('th', { hasText: 'Why' }).isVisible()).toBe(true);

      const address = page.url();
      expect(address).toContain('#?matrix._words=tip+retention&matrix.verdict=fail&matrix._sort=-record');
      await page.goto('about:blank');
      await page.goto(address);
      expect(await rows.count()).toBe(1);
      expect(await page.locator('th', { hasText: 'Why' }).isVisible()).toBe(true);
      await page.getByRole('button', { name: 'Clear' }).click();
      expect(await rows.count()).toBe(all);
      expect(page.url()).not.toContain('#');
    }));

  test('an address keeps the views of two tables on one page', () =>
    at(site.root, 'conformity.html', async (page) => {
      const clauses = rowsShown(page, 'clauses-1');
      const standards = rowsShown(page, 'standards');
      const [allClauses, allStandards] = [await clauses.count(), await standards.count()];
      const filters = page.getByRole('searchbox', { name: /^Filter rows/ });
      await filters.first().fill('risk');
      await page.locator('[data-grid="standards"]').getByRole('searchbox').fill('14971');
      const [someClauses, someStandards] = [await clauses.count(), await standards.count()];
      expect(someClauses).toBeLessThan(allClauses);
      expect(someStandards).toBeLessThan(allStandards);
      const address = page.url();
      await page.goto('about:blank');
      await page.goto(address);
      expect([await clauses.count(), await standards.count()]).toEqual([someClauses, someStandards]);
      await page.locator('[data-grid="standards"]').getByRole('button', { name: 'Clear' }).click();
      expect(page.url()).toContain('#?clauses-1._words=risk');
      expect(page.url()).not.toContain('standards');
      expect([await clauses.count(), await standards.count()]).toEqual([someClauses, allStandards]);
    }));

  test('Tab walks through a long table row by row, also where it jumps, and back again', () =>
    at(site.root, 'approvals.html', async (page) => {
      const grid = page.locator('[data-grid="approvals"]');
      expect(await grid.evaluate((element) => element.classList.contains('virtual'))).toBe(true);
      /** Place of the row that has the focus, from 0; -1 where none has. */
      const place = (): Promise<number> =>
        page.evaluate<number>(
          'Number(document.activeElement?.closest("[data-grid=approvals] tr")?.getAttribute("aria-rowindex") ?? 1) - 2',
        );
      const isSeen = (): Promise<boolean> =>
        page.evaluate<boolean>(
          '(() => { const box = document.activeElement.getBoundingClientRect(); const frame = document.activeElement.closest(".scroll").getBoundingClientRect(); return box.top >= frame.top - 1 && box.bottom <= frame.bottom + 1; })()',
        );
      await grid.locator('tbody a').first().focus();
      expect(await place()).toBe(0);
      // Each row has one link, so each Tab goes one row on, over the edge of what was drawn at first.
      for (let row = 1; row <= 60; row += 1) {
        await page.keyboard.press('Tab');
        expect(await place(), `after ${row} presses`).toBe(row);
      }
      expect(await isSeen()).toBe(true);
      // Scrolled far away by the wheel or the bar, the focus stays where it was, and Tab goes on from there.
      await page.evaluate('document.querySelector("[data-grid=approvals] .scroll").scrollTop = 0');
      await page.evaluate('new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))');
      expect(await place()).toBe(60);
      await page.keyboard.press('Tab');
      expect(await place()).toBe(61);
      expect(await isSeen()).toBe(true);
      for (let row = 60; row >= 30; row -= 1) {
        await page.keyboard.press('Shift+Tab');
        expect(await place()).toBe(row);
      }
    }));

  test('a number on the overview leads to the records that it counts', () =>
    at(site.root, 'index.html', async (page) => {
      const link = page.getByRole('link', { name: /^Design inputs, passed: / });
      const count = Number(await link.textContent());
      await link.click();
      await page.waitForURL(/types\/design-input\.html/);
      expect(await rowsShown(page, 'type-design-input').count()).toBe(count);
      const words = await rowsShown(page, 'type-design-input').allTextContents();
      expect(words.every((word) => word.includes('passed'))).toBe(true);
    }));

  test('a view as CSV holds what is shown, by RFC 4180', () =>
    at(site.root, 'matrix.html', async (page) => {
      await page.getByRole('searchbox', { name: /^Filter rows/ }).fill('VR-09');
      const count = await rowsShown(page, 'matrix').count();
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: 'CSV' }).click(),
      ]);
      expect(download.suggestedFilename()).toBe('matrix.csv');
      const stream = await download.createReadStream();
      const parts: Buffer[] = [];
      for await (const part of stream) parts.push(part);
      const text = Buffer.concat(parts).toString('utf8');
      const records = parse(text, { bom: true }) as string[][];
      expect(records.length).toBe(count + 1);
      expect(records[0]?.[0]).toBe('User need');
      expect(records.slice(1).every((record) => record.some((value) => value.includes('VR-09')))).toBe(true);
    }));

  test('a cell of the risk map opens what lies in it', () =>
    at(site.root, 'risks.html', async (page) => {
      const cell = page
        .locator('.risk-map td')
        .filter({ has: page.locator('a.open') })
        .first();
      const ids = await cell.locator('a.record').allTextContents();
      expect(ids.length).toBeGreaterThan(0);
      await cell.locator('a.open').click();
      const place = new URL(page.url()).hash;
      const section = page.locator(place);
      expect(await section.isVisible()).toBe(true);
      for (const id of ids) expect(await section.textContent()).toContain(id);
    }));

  test('pages read without a script', () =>
    at(
      site.root,
      'matrix.html',
      async (page) => {
        expect(await page.locator('main table tbody tr').count()).toBeGreaterThan(30);
        await page.getByRole('link', { name: 'Overview', exact: true }).click();
        await page.waitForURL(/index\.html$/);
        await page.goto(`${site.root}approvals.html`);
        expect(await page.locator('main tbody tr').count()).toBeGreaterThan(200);
        expect(await page.getByText(/With scripts switched on/).isVisible()).toBe(true);
      },
      { javaScriptEnabled: false },
    ));
  test('by keyboard: the first Tab offers to skip to the content, and every stop shows that it has the focus', () =>
    at(site.root, 'matrix.html', async (page) => {
      await page.keyboard.press('Tab');
      expect(await page.evaluate('document.activeElement.textContent')).toBe('Skip to the content');
      const skip = await page.locator('a.skip').boundingBox();
      expect(skip && skip.x >= 0 && skip.y >= 0).toBe(true);
      await page.keyboard.press('Enter');
      expect(await page.evaluate('document.activeElement.id')).toBe('content');
      for (let stop = 0; stop < 12; stop += 1) {
        await page.keyboard.press('Tab');
        const ring = await page.evaluate<string>(
          '(() => { const style = getComputedStyle(document.activeElement); return style.outlineStyle === "none" ? style.boxShadow : style.outlineStyle; })()',
        );
        expect(ring, `stop ${stop}`).not.toBe('none');
      }
    }));

  test.each([320, 768, 1680])('no page is wider than a screen of %i px', (width) =>
    at(
      site.root,
      'index.html',
      async (page) => {
        for (const path of pageKinds) {
          await page.goto(site.root + path);
          const over = await page.evaluate<number>('document.documentElement.scrollWidth - innerWidth');
          expect(over, path).toBeLessThanOrEqual(0);
        }
      },
      { viewport: { width, height: 800 } },
    ),
  );

  test('on a phone the first column of the matrix stays in view when the table is moved sideways', () =>
    at(
      site.root,
      'matrix.html',
      async (page) => {
        const left = (which: string): Promise<number> =>
          page.evaluate<number>(
            `Math.round(document.querySelector('[data-grid="matrix"] tbody tr').querySelector('${which}').getBoundingClientRect().left)`,
          );
        const [first, second] = [await left('td'), await left('td:not(.off, :first-child)')];
        await page.evaluate('document.querySelector("[data-grid=matrix] .scroll").scrollLeft = 200');
        expect(await left('td')).toBe(first);
        expect(await left('td:not(.off, :first-child)')).toBe(second - 200);
        const width = await page.evaluate<number>(
          'document.querySelector("[data-grid=matrix] tbody td").getBoundingClientRect().width',
        );
        expect(width).toBeLessThan(160);
      },
      { viewport: { width: 390, height: 800 } },
    ));

  test('on a phone the list of pages opens and closes by its button', () =>
    at(
      site.root,
      'records/UN-08.html',
      async (page) => {
        const pages = page.getByRole('navigation', { name: 'Pages' });
        expect(await pages.isVisible()).toBe(false);
        await page.getByRole('button', { name: 'Pages' }).click();
        expect(await pages.isVisible()).toBe(true);
        await pages.getByRole('link', { name: 'Risks', exact: true }).click();
        await page.waitForURL(/risks\.html$/);
      },
      { viewport: { width: 390, height: 800 } },
    ));

  test('a citation is copied with the digest of the record', () =>
    at(
      site.root,
      'records/DI-09.html',
      async (page) => {
        await page.getByRole('button', { name: 'Copy the citation' }).click();
        const said = page.getByRole('status').filter({ hasText: /Copied|Selected/ });
        await said.waitFor();
        const taken = /Copied/.test((await said.textContent()) ?? '')
          ? await page.evaluate<string>('navigator.clipboard.readText()')
          : await page.evaluate<string>('getSelection().toString()');
        expect(taken).toMatch(/^DI-09 Tip retention.*SHA-256 [0-9a-f]{64}/);
      },
      { permissions: ['clipboard-read', 'clipboard-write'] },
    ));

  test('in print the frame is gone, and the caution and the origin stay', () =>
    at(site.root, 'records/VR-09A.html', async (page) => {
      await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
      expect(await page.getByRole('navigation', { name: 'Pages' }).isVisible()).toBe(false);
      expect(await page.locator('.tools').isVisible()).toBe(false);
      expect(await page.locator('footer .caution').isVisible()).toBe(true);
      expect(await page.evaluate('getComputedStyle(document.body).backgroundColor')).toBe(
        'rgb(255, 255, 255)',
      );
    }));

  test('a document reads the same as its record says, with figures that are drawn', () =>
    at(site.root, 'documents/DOC-07.html', async (page) => {
      const figures = page.locator('article.document img');
      expect(await figures.count()).toBeGreaterThan(5);
      const widths = await page.evaluate<number[]>(
        'Promise.all([...document.querySelectorAll("article.document img")].map(async (each) => { each.loading = "eager"; await each.decode(); return each.naturalWidth; }))',
      );
      expect(widths.every((width) => width > 100)).toBe(true);
    }));
});

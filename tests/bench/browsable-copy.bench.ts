import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openBrowser, type SiteFolder, visit, writeSiteFolder } from '../system/browse.ts';
import { largeFile } from './large-file.ts';

const records = 10_000;

/** Every record asks for an approval, so that their table has 10,000 rows. */
const files = new Map([
  ...largeFile(records),
  [
    'plinth.yaml',
    'device: { name: Test device, maker: Harrow Lane Instruments }\napproval_roles: { "*": [quality lead] }\n',
  ],
]);

let browser: Browser;
let site: SiteFolder;

beforeAll(async () => {
  const start = performance.now();
  site = await writeSiteFolder(files);
  console.info(
    `the copy of ${records} records: checked and written in ${((performance.now() - start) / 1000).toFixed(1)} s`,
  );
  browser = await openBrowser();
}, 300_000);

afterAll(async () => {
  await browser?.close();
  site?.remove();
});

const kilobytes = (...names: readonly string[]): number =>
  names.reduce((sum, name) => sum + statSync(join(site.folder, name)).size, 0) / 1000;

interface TraceEvent {
  readonly name: string;
  readonly pid: number;
  readonly tid: number;
  readonly dur?: number;
  /** Microseconds of the processor that the thread took. */
  readonly tdur?: number;
  readonly args?: { readonly name?: string };
}

/**
 * Longest task of the page's main thread while `act` goes on, in milliseconds of the processor: on a machine that does
 * something else besides, the clock on the wall tells of that. Tracing itself makes each task a little longer.
 */
const longestTask = async (page: Page, act: () => Promise<void>): Promise<number> => {
  await browser.startTracing(page, { categories: ['toplevel', 'devtools.timeline'] });
  await act();
  await page.waitForTimeout(200);
  const { traceEvents } = JSON.parse((await browser.stopTracing()).toString()) as {
    readonly traceEvents: readonly TraceEvent[];
  };
  const threads = traceEvents.filter(
    ({ name, args }) => name === 'thread_name' && args?.name === 'CrRendererMain',
  );
  const tasks = traceEvents.filter(
    ({ name, pid, tid, tdur }) =>
      /RunTask$/.test(name) &&
      tdur !== undefined &&
      threads.some((thread) => thread.pid === pid && thread.tid === tid),
  );
  expect(tasks.length).toBeGreaterThan(10);
  return Math.max(...tasks.map(({ tdur = 0 }) => tdur / 1000));
};

/** The best of three: the others were disturbed by something else on the machine. */
const best = async (run: () => Promise<number>): Promise<number> =>
  Math.min(await run(), await run(), await run());

/** Wheels down a long table to its end, as a reader does, frame by frame. */
const wheelDown = async (page: Page, grid: string): Promise<void> => {
  const scroll = `document.querySelector('[data-grid="${grid}"] .scroll')`;
  await page.evaluate(
    `new Promise((done) => { const box = ${scroll}; box.scrollTop = 0; let frames = 0; const step = () => { box.scrollTop += frames < 60 ? 400 : box.scrollHeight / 60; frames += 1; if (frames < 130) requestAnimationFrame(step); else done(); }; requestAnimationFrame(step); })`,
  );
  expect(
    await page.evaluate<number>(`${scroll}.scrollTop + ${scroll}.clientHeight - ${scroll}.scrollHeight`),
  ).toBeGreaterThan(-2);
};

describe(`the browsable copy of ${records} records`, () => {
  test('shows its first page with less than 300 KB', () => {
    const size = kilobytes(
      'index.html',
      'assets/site.css',
      'assets/site.js',
      'assets/theme.js',
      'assets/icon.svg',
    );
    console.info(
      `first page ${size.toFixed(0)} KB; matrix ${kilobytes('matrix.html', 'data/matrix.js').toFixed(0)} KB; names for the search ${kilobytes('data/search-names.js').toFixed(0)} KB`,
    );
    expect(size).toBeLessThan(300);
  });

  test('is ready on its first page within a second', async () => {
    const time = await best(async () => {
      const { page, complaints, close } = await visit(browser, site.root);
      const start = performance.now();
      await page.goto(`${site.root}index.html`);
      await page.locator('html[data-ready="yes"]').waitFor();
      const ready = performance.now() - start;
      expect(complaints).toEqual([]);
      await close();
      return ready;
    });
    console.info(`first page ready after ${time.toFixed(0)} ms`);
    expect(time).toBeLessThan(1000);
  });

  test('answers a search of names and texts within 50 ms', async () => {
    const { page, close } = await visit(browser, site.root);
    await page.goto(`${site.root}index.html`);
    const start = performance.now();
    await page.keyboard.press('/');
    await page.locator('dialog.search[data-loaded="all"]').waitFor();
    console.info(`index of everything loaded after ${(performance.now() - start).toFixed(0)} ms`);
    const times: string[] = [];
    for (const query of ['DI-0777', 'large file', 'wetted granules transit', 'zzz nowhere', 'e']) {
      // From the key to the list with its places on the screen.
      const time = await best(() =>
        page.evaluate<number>(
          `(() => { const input = document.querySelector('dialog.search input'); input.value = ${JSON.stringify(query)}; const start = performance.now(); input.dispatchEvent(new Event('input')); document.querySelector('#search-hits').getBoundingClientRect(); return performance.now() - start; })()`,
        ),
      );
      times.push(`${query}: ${time.toFixed(0)} ms`);
      expect(time, query).toBeLessThan(50);
    }
    console.info(times.join('; '));
    await close();
  });

  test.each([
    ['matrix.html', 'matrix', 2_500],
    ['approvals.html', 'approvals', 10_000],
  ])('scrolls %s without a task over 50 ms', async (path, grid, least) => {
    const { page, close } = await visit(browser, site.root);
    await page.goto(site.root + path);
    const shown = await page.locator(`[data-grid="${grid}"] output`).textContent();
    expect(Number(/\d+/.exec(shown ?? '')?.[0])).toBeGreaterThanOrEqual(least);
    const longest = await best(() => longestTask(page, () => wheelDown(page, grid)));
    console.info(`${path}, ${shown}: longest task while scrolling ${longest.toFixed(0)} ms of the processor`);
    expect(longest).toBeLessThanOrEqual(50);
    await close();
  });

  test('filters and sorts 10,000 rows within a quarter of a second', async () => {
    const { page, close } = await visit(browser, site.root);
    await page.goto(`${site.root}approvals.html`);
    const words = page.getByRole('searchbox', { name: /^Filter rows/ });
    const filter = await best(() => longestTask(page, () => words.fill('').then(() => words.fill('DI-07'))));
    const sort = await best(() =>
      longestTask(page, () => page.locator('th button.sort').first().click({ clickCount: 1 })),
    );
    console.info(`longest task of the processor: filter ${filter.toFixed(0)} ms, sort ${sort.toFixed(0)} ms`);
    expect(filter).toBeLessThan(250);
    expect(sort).toBeLessThan(250);
    await close();
  });

  test('holds every row of the matrix in its data file', () => {
    const text = readFileSync(join(site.folder, 'data/matrix.js'), 'utf8');
    expect(text.split('\n').length).toBeGreaterThan(2_500);
  });
});

import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openBrowser, type SiteFolder, visit, writeSiteFolder } from '../system/browse.ts';
import { largeFile, longMatrixFile } from './large-file.ts';

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
let longMatrix: SiteFolder;

beforeAll(async () => {
  const start = performance.now();
  site = await writeSiteFolder(files);
  console.info(
    `the copy of ${records} records: checked and written in ${((performance.now() - start) / 1000).toFixed(1)} s`,
  );
  longMatrix = await writeSiteFolder(longMatrixFile());
  browser = await openBrowser();
}, 300_000);

afterAll(async () => {
  await browser?.close();
  site?.remove();
  longMatrix?.remove();
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
  expect(tasks.length).toBeGreaterThan(3);
  return Math.max(...tasks.map(({ tdur = 0 }) => tdur / 1000));
};

interface Spread {
  readonly median: number;
  readonly worst: number;
}

/** Five runs: the median tells what a reader meets, the worst what they meet now and then. */
const spreadOf = async (run: () => Promise<number>): Promise<Spread> => {
  const times: number[] = [];
  for (let at = 0; at < 5; at += 1) times.push(await run());
  times.sort((a, b) => a - b);
  return { median: times[2] ?? Number.NaN, worst: times.at(-1) ?? Number.NaN };
};

const told = ({ median, worst }: Spread): string => `${median.toFixed(0)} ms (worst ${worst.toFixed(0)} ms)`;

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
    const time = await spreadOf(async () => {
      const { page, complaints, close } = await visit(browser, site.root);
      const start = performance.now();
      await page.goto(`${site.root}index.html`);
      await page.locator('html[data-ready="yes"]').waitFor();
      const ready = performance.now() - start;
      expect(complaints).toEqual([]);
      await close();
      return ready;
    });
    console.info(`first page ready after ${told(time)}`);
    expect(time.median).toBeLessThan(1000);
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
      const time = await spreadOf(() =>
        longestTask(page, () =>
          page.evaluate(
            `(() => { const input = document.querySelector('dialog.search input'); input.value = ${JSON.stringify(query)}; input.dispatchEvent(new Event('input')); document.querySelector('#search-hits').getBoundingClientRect(); })()`,
          ),
        ),
      );
      times.push(`${query}: ${told(time)}`);
      expect(time.worst, query).toBeLessThan(50);
    }
    console.info(`longest task of the processor: ${times.join('; ')}`);
    await close();
  });

  test.each([
    ['matrix.html', 'matrix', () => longMatrix],
    ['approvals.html', 'approvals', () => site],
  ])('scrolls 10,000 rows of %s without a task over 50 ms', async (path, grid, siteOf) => {
    const { page, close } = await visit(browser, siteOf().root);
    await page.goto(siteOf().root + path);
    const shown = await page.locator(`[data-grid="${grid}"] output`).textContent();
    expect(Number(/\d+/.exec(shown ?? '')?.[0])).toBeGreaterThanOrEqual(10_000);
    const longest = await spreadOf(() => longestTask(page, () => wheelDown(page, grid)));
    console.info(`${path}, ${shown}: longest task while scrolling ${told(longest)} of the processor`);
    expect(longest.worst).toBeLessThanOrEqual(50);
    await close();
  });

  test('filters and sorts 10,000 rows within a quarter of a second', async () => {
    const { page, close } = await visit(browser, site.root);
    await page.goto(`${site.root}approvals.html`);
    const words = page.getByRole('searchbox', { name: /^Filter rows/ });
    const filter = await spreadOf(() =>
      longestTask(page, () => words.fill('').then(() => words.fill('DI-07'))),
    );
    const sort = await spreadOf(() =>
      longestTask(page, () => page.locator('th button.sort').first().click({ clickCount: 1 })),
    );
    console.info(`longest task of the processor: filter ${told(filter)}, sort ${told(sort)}`);
    expect(filter.median).toBeLessThan(250);
    expect(sort.median).toBeLessThan(250);
    await close();
  });

  test('holds every row of the matrix in its data file', () => {
    const text = readFileSync(join(longMatrix.folder, 'data/matrix.js'), 'utf8');
    expect(text.split('\n').filter((line) => line.startsWith('[[')).length).toBe(10_000);
  });
});

import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { mirrorFolder } from '../../src/host/mirror-folder.ts';
import { readFolder } from '../../src/host/read-folder.ts';
import { siteAssets } from '../../src/writers/site/write-site.ts';
import { missingPage, siteFilesOf } from '../site/demonstration-site.ts';
import { type MemoryFiles, projectRoot } from '../support/technical-file.ts';

/** Style sheet and scripts as the bundle under test has them. */
const assets = (): ReadonlyMap<string, string> => {
  const folder = join(dirname(process.env['PLINTH_UNDER_TEST'] ?? ''), 'site');
  return new Map(siteAssets.map((name) => [name, readFileSync(join(folder, name), 'utf8')]));
};

export interface SiteFolder {
  readonly folder: string;
  /** Address of the folder for a browser, with `/` at the end. */
  readonly root: string;
  readonly remove: () => void;
}

/** Writes the browsable copy of a technical file into a folder of its own. */
export async function writeSiteFolder(files: MemoryFiles, before?: MemoryFiles): Promise<SiteFolder> {
  const folder = mkdtempSync(join(tmpdir(), 'plinth site #1 ü-'));
  mirrorFolder(folder, await siteFilesOf(files, assets(), before));
  return {
    folder,
    root: `${pathToFileURL(folder).href}/`,
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

/** The demonstration file as it lies in the project. */
export function demonstrationFiles(): MemoryFiles {
  return new Map(readFolder(join(projectRoot, 'content')).files.map(({ path, bytes }) => [path, bytes]));
}

/** The same file with another limit: what stands now is a change against it, with results and approvals that it touches. */
export function earlierFiles(): MemoryFiles {
  const path = 'design-inputs/DI-09.md';
  const files = demonstrationFiles();
  const text = new TextDecoder().decode(files.get(path) as Uint8Array);
  return new Map([...files, [path, new TextEncoder().encode(text.replace('lower: 30', 'lower: 28'))]]);
}

export function openBrowser(): Promise<Browser> {
  return chromium.launch({
    executablePath: process.env['PLINTH_CHROMIUM'] ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-quic', '--disable-background-networking', '--disable-component-update'],
  });
}

export interface Visit {
  readonly page: Page;
  /** What the browser complained of, and what was asked of places outside of the folder. */
  readonly complaints: readonly string[];
  readonly close: () => Promise<void>;
}

/** Opens a page in a fresh profile, and writes down whatever must not happen. */
export async function visit(
  browser: Browser,
  root: string,
  options: BrowserContextOptions = {},
): Promise<Visit> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
  const page = await context.newPage();
  page.setDefaultTimeout(20_000);
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('dialog', async (dialog) => {
    complaints.push(`a dialog: ${dialog.message()}`);
    await dialog.dismiss();
  });
  page.on('popup', (popup) => complaints.push(`a window: ${popup.url()}`));
  page.on('request', (request) => {
    const url = request.url();
    if (!url.startsWith(root) && !/^(?:data|blob):/.test(url)) complaints.push(`asked for ${url}`);
  });
  page.on('requestfailed', (request) => {
    // A picture that was still on its way when the next page was asked for.
    if (request.failure()?.errorText !== 'net::ERR_ABORTED') complaints.push(`not there: ${request.url()}`);
  });
  return { page, complaints, close: () => context.close() };
}

/** One page of every kind; the copy must have been written with an earlier state. */
export const pageKinds = [
  'index.html',
  'matrix.html',
  'risks.html',
  'conformity.html',
  'documents.html',
  'raw.html',
  'plan.html',
  'changes.html',
  'impact.html',
  'approvals.html',
  'findings.html',
  'records.html',
  'types/design-input.html',
  'records/UN-08.html',
  'records/RK-03.html',
  'records/VR-09A.html',
  'records/DOC-07.html',
  'records/GR-10.html',
  'raw/verification/data/VR-09A.csv.html',
  'documents/DOC-07.html',
  missingPage,
] as const;

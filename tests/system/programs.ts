import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Runs `use` with a folder of its own that is gone afterwards. */
export function inFolder<T>(use: (folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'plinth-system-'));
  try {
    return use(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Runs a program without a shell. */
export function run(
  program: string,
  parameters: readonly string[],
): { status: number | null; output: string } {
  const { status, stdout, stderr, error } = spawnSync(program, parameters, {
    encoding: 'utf8',
    timeout: 200_000,
    maxBuffer: 64 * 1024 * 1024,
  });
  if (error !== undefined) throw new Error(`${program} can't be run: ${error.message}`);
  return { status, output: `${stdout}${stderr}` };
}

/** The text of each page of the document as LibreOffice lays it out. */
export function pagesOf(docx: Uint8Array): readonly string[] {
  return inFolder((folder) => {
    const file = join(folder, 'document.docx');
    writeFileSync(file, docx);
    // A profile of its own, so that runs side by side and the user's own settings don't meet.
    const profile = `-env:UserInstallation=file://${join(folder, 'profile')}`;
    const { output } = run('soffice', [
      profile,
      '--headless',
      '--convert-to',
      'pdf',
      '--outdir',
      folder,
      file,
    ]);
    const text = join(folder, 'document.txt');
    const converted = run('pdftotext', ['-layout', join(folder, 'document.pdf'), text]);
    if (converted.status !== 0) throw new Error(`no PDF: ${output}${converted.output}`);
    return readFileSync(text, 'utf8').split('\f').slice(0, -1);
  });
}

export type Scheme = 'light' | 'dark';

/** A picture of the page as Chromium shows it: PNG bytes. */
export function screenshot(html: string, scheme: Scheme): Buffer {
  return inFolder((folder) => {
    const page = join(folder, 'page.html');
    const picture = join(folder, 'page.png');
    writeFileSync(page, html);
    const program = process.env.PLINTH_CHROMIUM ?? '/usr/bin/chromium';
    const { output } = run(program, [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      `--user-data-dir=${join(folder, 'profile')}`,
      `--blink-settings=preferredColorScheme=${scheme === 'dark' ? 0 : 1}`,
      '--hide-scrollbars',
      '--window-size=1000,1400',
      `--screenshot=${picture}`,
      `file://${page}`,
    ]);
    try {
      return readFileSync(picture);
    } catch {
      throw new Error(`no picture: ${output}`);
    }
  });
}

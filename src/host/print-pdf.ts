import { spawn } from 'node:child_process';
import { accessSync, constants, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { pathToFileURL } from 'node:url';

/** Where LibreOffice lies when it is not on the path. */
const usualPlaces = [
  '/Applications/LibreOffice.app/Contents/MacOS/soffice',
  'C:\\Program Files\\LibreOffice\\program\\soffice.exe',
];

/** The program of LibreOffice; undefined where it is not installed. */
export const findLibreOffice = (): string | undefined => {
  const ending = process.platform === 'win32' ? '.exe' : '';
  const onPath = (process.env['PATH'] ?? '')
    .split(delimiter)
    .filter((folder) => folder !== '')
    .flatMap((folder) => ['soffice', 'libreoffice'].map((name) => join(folder, name + ending)));
  return [...onPath, ...usualPlaces].find((path) => {
    try {
      accessSync(path, constants.X_OK);
      return true;
    } catch {
      return false;
    }
  });
};

export type Printed =
  | { readonly ok: true; readonly bytes: Uint8Array }
  | { readonly ok: false; readonly reason: string };

/**
 * Tagged, so that it can be read by ear; the outline and the title are shown by readers. Links to other files stay
 * relative, for the folder in which we print is no business of the reader; bookmarks become places that links can name.
 */
const filter = `pdf:writer_pdf_Export:${JSON.stringify(
  Object.fromEntries(
    [
      'UseTaggedPDF',
      'ExportBookmarks',
      'DisplayPDFDocumentTitle',
      'ExportLinksRelativeFsys',
      'ExportBookmarksToPDFDestination',
    ].map((name) => [name, { type: 'boolean', value: 'true' }]),
  ),
)}`;

/**
 * Prints a Word file with LibreOffice, in a folder and with a profile of its own, so that it does not meet a LibreOffice
 * that is open. Nothing is left behind.
 *
 * @param date ISO date that the program is told as the time of the source
 * @param limitSeconds after which the program is ended
 */
export const printPdf = async (
  program: string,
  docx: Uint8Array,
  { date, limitSeconds }: { readonly date: string; readonly limitSeconds: number },
): Promise<Printed> => {
  const folder = mkdtempSync(join(tmpdir(), 'plinth-pdf-'));
  let stopped: NodeJS.Signals | undefined;
  try {
    const file = join(folder, 'document.docx');
    writeFileSync(file, docx);
    const epoch = Date.parse(`${date}T00:00:00Z`);
    const outcome = await runLimited(
      program,
      [
        `-env:UserInstallation=${pathToFileURL(join(folder, 'profile')).href}`,
        '--headless',
        '--norestore',
        '--convert-to',
        filter,
        '--outdir',
        folder,
        file,
      ],
      {
        limitSeconds,
        cwd: folder,
        env: {
          ...process.env,
          // The time zone is part of the date that it writes, and the language of its texts.
          TZ: 'UTC',
          LC_ALL: 'C.UTF-8',
          ...(Number.isFinite(epoch) ? { SOURCE_DATE_EPOCH: String(epoch / 1000) } : {}),
        },
      },
    );
    if (outcome !== undefined) {
      stopped = outcome.stoppedBy;
      return { ok: false, reason: outcome.reason };
    }
    try {
      return { ok: true, bytes: new Uint8Array(readFileSync(join(folder, 'document.pdf'))) };
    } catch {
      return { ok: false, reason: 'it ended without writing one' };
    }
  } finally {
    rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
    // Whoever stopped us is obeyed, now that the folder is gone.
    if (stopped !== undefined) process.kill(process.pid, stopped);
  }
};

/** Why a program did not end well. */
interface Failure {
  readonly reason: string;
  /** The signal that was sent to us while it ran. */
  readonly stoppedBy?: NodeJS.Signals;
}

/** Runs a program to its end. Returns why it failed; undefined where it did not. */
const runLimited = (
  program: string,
  words: readonly string[],
  options: {
    readonly limitSeconds: number;
    readonly cwd: string;
    readonly env: Readonly<Record<string, string | undefined>>;
  },
): Promise<Failure | undefined> =>
  new Promise((resolve) => {
    const { limitSeconds, cwd, env } = options;
    // A group of its own: the program starts others, and all of them are to end with it.
    const isGrouped = process.platform !== 'win32';
    const child = spawn(program, words, { cwd, env, stdio: 'ignore', detached: isGrouped });
    const end = (): void => {
      try {
        if (isGrouped && child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
        else child.kill();
      } catch {
        // It is gone already.
      }
    };
    const passOn = (signal: NodeJS.Signals): void => {
      end();
      finish({ reason: `it was stopped by ${signal}`, stoppedBy: signal });
    };
    const limit = setTimeout(() => {
      end();
      finish({ reason: `it took longer than ${limitSeconds} seconds` });
    }, limitSeconds * 1000);
    const finish = (failure: Failure | undefined): void => {
      clearTimeout(limit);
      process.off('SIGINT', passOn);
      process.off('SIGTERM', passOn);
      resolve(failure);
    };
    process.once('SIGINT', passOn);
    process.once('SIGTERM', passOn);
    child.once('error', (error: NodeJS.ErrnoException) =>
      finish({ reason: `it does not start (${error.code ?? 'unknown'})` }),
    );
    child.once('exit', (code, signal) => {
      end();
      finish(code === 0 ? undefined : { reason: `it ended with ${signal ?? `exit code ${code}`}` });
    });
  });

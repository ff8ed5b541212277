import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';

export interface Outcome {
  readonly code: number | null;
  readonly out: string;
  readonly error: string;
}

/** Runs the bundled command line as a user does: another process, a folder, words. */
export const runPlinth = (
  folder: string,
  words: readonly string[],
  environment: Readonly<Record<string, string>> = {},
): Outcome => {
  const result = spawnSync(process.execPath, [process.env['PLINTH_UNDER_TEST'] ?? '', ...words], {
    cwd: folder,
    encoding: 'utf8',
    env: { ...process.env, NO_COLOR: '1', ...environment },
    maxBuffer: 64 * 1024 * 1024,
  });
  return { code: result.status, out: result.stdout, error: result.stderr };
};

const folders: string[] = [];

/** An empty folder that is gone when the tests of the file are over. */
export const emptyFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'plinth-cli-'));
  folders.push(folder);
  return folder;
};

afterAll(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

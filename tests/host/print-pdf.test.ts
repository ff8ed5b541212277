import { spawn } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { printPdf } from '../../src/host/print-pdf.ts';
import { runPlinth } from '../cli/run-plinth.ts';
import { projectRoot } from '../support/technical-file.ts';

const folder = mkdtempSync(join(tmpdir(), 'plinth-print-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A program that stands in for the printer. */
const program = (name: string, script: string): string => {
  const path = join(folder, name);
  writeFileSync(path, `#!/bin/sh\n${script}\n`);
  chmodSync(path, 0o755);
  return path;
};
const print = (path: string, limitSeconds = 20) =>
  printPdf(path, new TextEncoder().encode('docx'), { date: '2026-11-02', limitSeconds });
const leftBehind = (): readonly string[] =>
  readdirSync(tmpdir()).filter((name) => name.startsWith('plinth-pdf-'));

describe.skipIf(process.platform === 'win32')('printing with another program', () => {
  test('gives what it wrote; it works in a folder and a profile of its own, at the date of the source', async () => {
    const note = join(folder, 'note');
    const printed = await print(
      program(
        'good',
        `printf '%s|' "$@" > ${note}; printf '%s' "$SOURCE_DATE_EPOCH $TZ" >> ${note}; cp document.docx document.pdf`,
      ),
    );
    expect(printed).toEqual({ ok: true, bytes: new TextEncoder().encode('docx') });
    const said = readFileSync(note, 'utf8');
    expect(said).toMatch(/^-env:UserInstallation=file:\/\/\/.*plinth-pdf-\w+\/profile\|--headless\|/);
    expect(said).toContain('UseTaggedPDF');
    // 2026-11-02T00:00:00Z by the calendar: 20,759 days after 1970-01-01.
    expect(said).toMatch(/\|1793577600 UTC$/);
  });

  test('a program that hangs is ended with all that it started, in time', async () => {
    const note = join(folder, 'alive');
    const start = Date.now();
    const printed = await print(program('slow', `(sleep 3; touch ${note}) & sleep 30`), 1);
    expect(printed).toEqual({ ok: false, reason: 'it took longer than 1 seconds' });
    expect(Date.now() - start).toBeLessThan(20_000);
    await new Promise((resolve) => setTimeout(resolve, 3000));
    expect(existsSync(note)).toBe(false);
  });

  test.each([
    ['exit 7', 'it ended with exit code 7'],
    ['exit 0', 'it ended without writing one'],
    ['kill -9 $$', 'it ended with SIGKILL'],
  ])('"%s" is told', async (script, reason) => {
    expect(await print(program('bad', script))).toEqual({ ok: false, reason });
  });

  test('a program that cannot be started is told', async () => {
    expect(await print(join(folder, 'gone'))).toEqual({ ok: false, reason: 'it does not start (ENOENT)' });
  });

  test('nothing is left behind', async () => {
    const before = leftBehind();
    await print(program('messy', 'mkdir -p profile; touch profile/lock; exit 1'));
    expect(leftBehind()).toEqual(before);
  });
});

test.skipIf(process.platform === 'win32')(
  'whoever stops build --pdf also stops the program, and finds nothing half-done',
  async () => {
    const programs = join(folder, 'programs');
    const temporary = join(folder, 'temporary');
    const started = join(folder, 'started');
    mkdirSync(programs);
    mkdirSync(temporary);
    const lived = join(folder, 'lived');
    program('programs/soffice', `echo yes > ${started}\n/bin/sleep 4\necho yes > ${lived}`);
    const output = join(folder, 'stopped');
    const child = spawn(
      process.execPath,
      [
        process.env['PLINTH_UNDER_TEST'] ?? '',
        'build',
        'content',
        '--only',
        'DOC-06',
        '--pdf',
        '--output',
        output,
      ],
      { cwd: projectRoot, stdio: 'ignore', env: { ...process.env, PATH: programs, TMPDIR: temporary } },
    );
    const ended = new Promise<NodeJS.Signals | null>((resolve) => {
      child.once('exit', (_, signal) => resolve(signal));
    });
    while (!existsSync(started) || readFileSync(started, 'utf8') === '')
      await new Promise((resolve) => setTimeout(resolve, 50));
    child.kill('SIGINT');
    expect(await ended).toBe('SIGINT');
    expect(readdirSync(temporary)).toEqual([]);
    expect(existsSync(output)).toBe(false);
    await new Promise((resolve) => setTimeout(resolve, 5000));
    expect(existsSync(lived)).toBe(false);
  },
);

test('build --pdf where LibreOffice is not installed says what to install, and writes nothing', () => {
  const output = join(folder, 'output');
  const { code, out, error } = runPlinth(projectRoot, ['build', 'content', '--pdf', '--output', output], {
    PATH: folder,
  });
  expect(error).toContain('--pdf needs LibreOffice');
  expect(error).toContain('apt install libreoffice-writer-nogui');
  expect(out).toBe('');
  expect(code).toBe(2);
  expect(existsSync(output)).toBe(false);
});

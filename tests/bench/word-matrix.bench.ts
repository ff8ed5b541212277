import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterAll, expect, test } from 'vitest';
import { projectRoot } from '../support/technical-file.ts';

const folder = mkdtempSync(join(tmpdir(), 'plinth-bench-'));
const program = join(folder, 'word-matrix.mjs');
afterAll(() => rmSync(folder, { recursive: true }));

interface Measured {
  readonly milliseconds: number;
  readonly megabytes: number;
  readonly bytes: number;
}

const measure = (mode: 'floor' | 'writer', rows: number): Measured =>
  JSON.parse(execFileSync(process.execPath, [program, mode, String(rows)], { encoding: 'utf8' })) as Measured;

const best = (mode: 'floor' | 'writer', rows: number): Measured =>
  [1, 2, 3].map(() => measure(mode, rows)).sort((a, b) => a.milliseconds - b.milliseconds)[0] as Measured;

test('a matrix of 20,000 rows takes at most twice the floor, in less than 300 MB', async () => {
  await build({
    absWorkingDir: projectRoot,
    entryPoints: ['tests/bench/word-matrix-program.ts'],
    outfile: program,
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'node20.19',
    external: ['docx', 'docx/layout'],
    logLevel: 'warning',
  });
  const [floor, writer] = [best('floor', 20_000), best('writer', 20_000)];
  console.info(
    `20,000 rows: ${writer.milliseconds.toFixed(0)} ms and ${writer.megabytes.toFixed(0)} MB, ${(writer.milliseconds / floor.milliseconds).toFixed(2)} times the floor of ${floor.milliseconds.toFixed(0)} ms and ${floor.megabytes.toFixed(0)} MB`,
  );
  expect(writer.milliseconds / floor.milliseconds).toBeLessThan(2);
  expect(writer.megabytes).toBeLessThan(300);
});

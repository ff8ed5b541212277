import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { readOwnSchemas } from '../../src/host/own-files.ts';
import { readFolder } from '../../src/host/read-folder.ts';
import { analyse } from '../../src/pipeline.ts';
import { largeFile } from './large-file.ts';

const schemas = readOwnSchemas();
const folders: string[] = [];

const written = (count: number): string => {
  const root = mkdtempSync(join(tmpdir(), 'plinth-bench-'));
  folders.push(root);
  for (const [path, text] of largeFile(count)) {
    mkdirSync(join(root, path, '..'), { recursive: true });
    writeFileSync(join(root, path), text);
  }
  return root;
};

const check = (root: string) =>
  analyse({
    ...readFolder(root),
    schemas,
    asOf: '2026-11-20',
    today: '2026-11-20',
    toolVersion: '0.0.0-bench',
  });

/** The least that any reader must do: walk the folder and read each file. */
const floor = (root: string): number =>
  readdirSync(root, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .reduce((sum, entry) => sum + readFileSync(join(entry.parentPath, entry.name)).length, 0);

/** The best of several runs: the others were disturbed by something else on the machine. */
const best = (run: () => unknown, runs = 3): number =>
  Math.min(
    ...Array.from({ length: runs }, () => {
      const start = performance.now();
      run();
      return performance.now() - start;
    }),
  );

afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true });
});

describe('checking a large technical file', () => {
  const small = written(500);
  const large = written(2_000);

  test('of 2,000 records takes at most 200 times as long as reading its bytes', () => {
    const analysis = check(large);
    expect(analysis.graph.records.size).toBe(2_000);
    expect(analysis.unsound).toBe(0);
    expect([...analysis.evidence.values()].every((result) => result.verdict === 'pass')).toBe(true);
    const least = best(() => floor(large), 5);
    const time = best(() => check(large));
    console.info(
      `2,000 records: ${time.toFixed(0)} ms, ${(time / least).toFixed(1)} times the floor of ${least.toFixed(0)} ms`,
    );
    expect(time / least).toBeLessThan(200);
  });

  test('takes time in proportion to its size: four times the records, at most twelve times as long', () => {
    check(small);
    const ratio = best(() => check(large)) / best(() => check(small));
    console.info(`2,000 against 500 records: ${ratio.toFixed(1)} times as long`);
    expect(ratio).toBeLessThan(12);
  });
});

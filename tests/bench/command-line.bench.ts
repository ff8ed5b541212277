import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { projectRoot } from '../support/technical-file.ts';

const tool = process.env['PLINTH_UNDER_TEST'] ?? '';

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

const seconds = (words: readonly string[]): number => {
  const start = performance.now();
  const { status } = spawnSync(process.execPath, words, { cwd: projectRoot, stdio: 'ignore' });
  expect(status).toBe(0);
  return (performance.now() - start) / 1000;
};

/** Medians of several runs of each, one after the other in turn, so that a busy machine slows all of them. */
const compare = (
  subjects: Readonly<Record<string, readonly string[]>>,
  runs = 9,
): Readonly<Record<string, number>> => {
  const times = new Map(Object.keys(subjects).map((name) => [name, [] as number[]]));
  for (let run = 0; run < runs; run += 1)
    for (const [name, words] of Object.entries(subjects)) times.get(name)?.push(seconds(words));
  return Object.fromEntries([...times].map(([name, list]) => [name, median(list)]));
};

const emptyProcess = ['--input-type=module', '-e', ''];

test('help starts within 2.5 times an empty process', () => {
  const { help = 0, empty = 1 } = compare({ empty: emptyProcess, help: [tool, '--help'] });
  console.info(
    `help ${(help * 1000).toFixed(0)} ms, empty process ${(empty * 1000).toFixed(0)} ms, ratio ${(help / empty).toFixed(2)}`,
  );
  expect(help / empty).toBeLessThan(2.5);
});

test('checking the demonstration file, against an empty process and reading its bytes', () => {
  const { check = 0, empty = 1 } = compare({ empty: emptyProcess, check: [tool, 'check', 'content'] }, 7);
  const start = performance.now();
  let bytes = 0;
  const walk = (folder: string): void => {
    for (const name of readdirSync(folder)) {
      const path = join(folder, name);
      if (statSync(path).isDirectory()) walk(path);
      else bytes += readFileSync(path).length;
    }
  };
  walk(join(projectRoot, 'content'));
  const floor = (performance.now() - start) / 1000;
  console.info(
    `check ${(check * 1000).toFixed(0)} ms, empty process ${(empty * 1000).toFixed(0)} ms, reading ${(bytes / 1e6).toFixed(2)} MB ${(floor * 1000).toFixed(0)} ms, ratio ${(check / (empty + floor)).toFixed(1)}`,
  );
  expect(check / (empty + floor)).toBeLessThan(20);
});

import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { today } from '../../src/host/clock.ts';
import { readOwnSchemas, readOwnVersion } from '../../src/host/own-files.ts';
import { writeNew, writeWhole } from '../../src/host/write-files.ts';

let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'plinth-write-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const text = (path: string): string => readFileSync(join(folder, path), 'utf8');

test('a file is written whole, with the folders above it, over an older one, and nothing else is left', () => {
  writeWhole(join(folder, 'a/b/c.txt'), 'first');
  writeWhole(join(folder, 'a/b/c.txt'), new TextEncoder().encode('second'));
  expect(text('a/b/c.txt')).toBe('second');
  expect(readdirSync(join(folder, 'a/b'))).toEqual(['c.txt']);
});

test('a file that cannot be put in its place leaves no part of itself behind', () => {
  mkdirSync(join(folder, 'taken/inside'), { recursive: true });
  expect(() => writeWhole(join(folder, 'taken'), 'x')).toThrow();
  expect(readdirSync(folder)).toEqual(['taken']);
});

test('a new file never replaces one that is there, nor what stands in the place of one', () => {
  expect(writeNew(join(folder, 'a.md'), 'mine')).toBe(true);
  expect(writeNew(join(folder, 'a.md'), 'yours')).toBe(false);
  expect(text('a.md')).toBe('mine');
  mkdirSync(join(folder, 'b.md'));
  expect(writeNew(join(folder, 'b.md'), 'x')).toBe(false);
  writeFileSync(join(folder, 'plain'), '');
  expect(() => writeNew(join(folder, 'plain/c.md'), 'x')).toThrow();
});

test("the tool's own schemas are all there, in order, and trusted", () => {
  const schemas = readOwnSchemas();
  const files = schemas.map((schema) => schema.file);
  const folderOf = (path: string): readonly string[] =>
    readdirSync(new URL(`../../${path}/`, import.meta.url))
      .filter((name) => name.endsWith('.schema.json'))
      .sort()
      .map((name) => `${path}/${name}`);
  expect(files).toEqual([...folderOf('schemas'), ...folderOf('schemas/views')]);
  expect(files.length).toBeGreaterThan(20);
  expect(schemas.every((schema) => schema.trusted === true)).toBe(true);
  expect(readOwnVersion()).toMatch(/^\d+\.\d+\.\d+/);
});

test('today is a day in the form of ISO 8601', () => {
  const now = new Date();
  // The Swedish way of writing a date is that of ISO 8601, and it is of the local zone.
  const written = (date: Date): string => date.toLocaleDateString('sv-SE');
  expect([written(now), written(new Date())]).toContain(today());
});

import { mkdirSync, mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readOwnSchemas, readOwnVersion } from '../../src/host/own-files.ts';
import { writeNew, writeWhole } from '../../src/host/write-files.ts';

const root = (): string => mkdtempSync(join(tmpdir(), 'plinth-write-'));

test('a file is written whole, with its folders, and leaves nothing else behind', () => {
  const folder = root();
  writeWhole(join(folder, 'a/b/c.txt'), 'one');
  writeWhole(join(folder, 'a/b/c.txt'), 'two');
  expect(readFileSync(join(folder, 'a/b/c.txt'), 'utf8')).toBe('two');
  expect(readdirSync(join(folder, 'a/b'))).toEqual(['c.txt']);
});

test('a file that can not be put in place leaves nothing behind', () => {
  const folder = root();
  mkdirSync(join(folder, 'taken/inner'), { recursive: true });
  expect(() => writeWhole(join(folder, 'taken'), 'x')).toThrow();
  expect(readdirSync(folder)).toEqual(['taken']);
});

test('a new file never takes the place of one that exists', () => {
  const path = join(root(), 'a.md');
  expect(writeNew(path, 'one')).toBe(true);
  expect(writeNew(path, 'two')).toBe(false);
  expect(readFileSync(path, 'utf8')).toBe('one');
});

test('the tool finds its own schemas and version, and marks the schemas as its own', () => {
  const schemas = readOwnSchemas();
  expect(schemas.map((schema) => schema.file)).toContain('schemas/user-need.schema.json');
  expect(schemas.every((schema) => schema.trusted)).toBe(true);
  expect(readOwnVersion()).toMatch(/^\d+\.\d+\.\d+/);
});

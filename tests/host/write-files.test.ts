import { mkdirSync, mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readOwnSchemas, readOwnVersion } from '../../src/host/own-files.ts';
import { replaceTogether, writeFolder, writeNew, writeWhole } from '../../src/host/write-files.ts';

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

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

test('files are replaced together', () => {
  const folder = root();
  for (const name of ['a', 'b']) writeWhole(join(folder, name), `old ${name}`);
  const files = ['a', 'b'].map((name) => ({
    path: join(folder, name),
    before: bytes(`old ${name}`),
    after: bytes(`new ${name}`),
  }));
  expect(replaceTogether(files)).toBeUndefined();
  expect(['a', 'b'].map((name) => readFileSync(join(folder, name), 'utf8'))).toEqual(['new a', 'new b']);
  expect(readdirSync(folder).sort()).toEqual(['a', 'b']);
});

test('none is replaced where one has changed meanwhile, is gone, or cannot be put in place', () => {
  const folder = root();
  const path = (name: string): string => join(folder, name);
  const one = { path: path('a'), before: bytes('old a'), after: bytes('new a') };
  const two = { path: path('b'), before: bytes('old b'), after: bytes('new b') };
  writeWhole(path('a'), 'old a');
  expect(() => replaceTogether([one, two])).toThrow('ENOENT');
  writeWhole(path('b'), 'other');
  expect(replaceTogether([one, two])).toBe(path('b'));
  mkdirSync(path('c'));
  expect(() => replaceTogether([one, { ...two, path: path('c') }])).toThrow('EISDIR');
  expect(readFileSync(path('a'), 'utf8')).toBe('old a');
  expect(readFileSync(path('b'), 'utf8')).toBe('other');
  expect(readdirSync(folder).sort()).toEqual(['a', 'b', 'c']);
});

test('a folder is put in its place as a whole, and nothing of the one before stays', () => {
  const folder = root();
  const place = join(folder, 'out/SB-01');
  writeFolder(place, new Map([['a/b.txt', 'one']]));
  writeFolder(place, new Map([['c.txt', bytes('two')]]));
  expect(readdirSync(place)).toEqual(['c.txt']);
  expect(readFileSync(join(place, 'c.txt'), 'utf8')).toBe('two');
  expect(readdirSync(join(folder, 'out'))).toEqual(['SB-01']);
});

test('a folder that can not be written leaves the one before as it was, and nothing behind', () => {
  const folder = root();
  const place = join(folder, 'SB-01');
  writeFolder(place, new Map([['a.txt', 'one']]));
  const impossible = new Map([
    ['a.txt', 'two'],
    ['a.txt/b.txt', 'three'],
  ]);
  expect(() => writeFolder(place, impossible)).toThrow();
  expect(readFileSync(join(place, 'a.txt'), 'utf8')).toBe('one');
  expect(readdirSync(folder)).toEqual(['SB-01']);
});

import { mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, test } from 'vitest';
import { emptyFolder, runPlinth } from './run-plinth.ts';

/** Paths and contents of everything below a folder; links by name only. */
const allIn = (folder: string, way = ''): readonly string[] =>
  readdirSync(join(folder, way), { withFileTypes: true }).flatMap((entry) => {
    const path = join(way, entry.name);
    if (entry.isDirectory()) return [`${path}/`, ...allIn(folder, path)];
    return [entry.isFile() ? `${path}: ${readFileSync(join(folder, path), 'utf8')}` : path];
  });

let top: string;
beforeEach(() => {
  top = emptyFolder();
  const write = (name: string, text: string): void => writeFileSync(join(top, name), text);
  mkdirSync(join(top, 'content/records'), { recursive: true });
  write('content/plinth.yaml', 'device: { name: Granule applicator, maker: Harrow Lane Instruments }\n');
  write(
    'content/records/DOC-01.md',
    '---\nid: DOC-01\ntype: document\ntitle: Index\nstatus: draft\nrevision: "1"\nformats: [csv, html]\n---\nText.\n',
  );
  write(
    'content/records/SB-01.md',
    '---\nid: SB-01\ntype: submission\ntitle: Technical documentation\nstatus: draft\nbody: Notified body\ntables:\n  - table: eu-mdr-annex-3\n    rows: [{ clause: "1", empty: Not yet. }]\nformats: [html]\n---\nText.\n',
  );
  write('content/records/UN-01.md', '---\nid: UN-01\ntype: user-need\ntitle: T\nstatus: draft\n---\nText.\n');
  write('a-file', '');
  symlinkSync('content/records', join(top, 'link'));
  symlinkSync('no-such-folder', join(top, 'loose'));
});

const build = ['build', 'content', '--output'];
const assemble = ['assemble', 'SB-01', '--in', 'content', '--output'];

describe('nothing is written into a technical file', () => {
  test.each([
    ['the technical file itself', [...build, 'content']],
    ['a folder in it', [...build, 'content/records']],
    ['a new folder in it', [...build, 'content/out/documents']],
    ['by way of ..', [...build, 'elsewhere/../content/out']],
    ['by way of a link', [...build, 'link']],
    ['a new folder by way of a link', [...build, 'link/out']],
    ['pages', [...build, 'out', '--site', 'content/site']],
    ['pages in its place', [...build, 'out', '--site', '.']],
    ['a submission in it', [...assemble, 'content']],
    ['a submission by way of a link', [...assemble, 'link/handed-in']],
    ['a document over a record', ['vouch', 'UN-01', '--output', 'content/records/UN-01.md']],
    ['a report over a record', ['impact', 'content', 'content', '--output', 'link/UN-01.md']],
  ])('%s', (_, words) => {
    const before = allIn(top);
    const { code, out, error } = runPlinth(top, words);
    expect(error).toMatch(/lies inside of a technical file|holds the technical file/);
    expect(error).toContain('Nothing was written. Name a place outside of it');
    expect(out).toBe('');
    expect(code).toBe(2);
    expect(allIn(top)).toEqual(before);
  });

  test('the usual output folder, where the command runs in the technical file', () => {
    const before = allIn(top);
    const { code, error } = runPlinth(join(top, 'content'), ['build']);
    expect(error).toContain('"build" lies inside of a technical file');
    expect(code).toBe(2);
    expect(allIn(top)).toEqual(before);
  });

  test('a place beside it is written to', () => {
    expect(runPlinth(join(top, 'content'), ['build', '--output', '../out']).error).toBe('');
    expect(readdirSync(join(top, 'out'))).toContain('site');
    expect(runPlinth(top, [...assemble, 'handed-in']).error).toBe('');
    expect(runPlinth(top, [...build, '.', '--no-site']).error).toBe('');
  });
});

describe('an output folder that cannot be made', () => {
  test.each<readonly [string, string]>([
    ['a-file', 'there is a file of that name'],
    ['a-file/more', 'there is a file of that name'],
    ['loose', 'there is a file of that name'],
    // Only Linux has it.
    ...(process.platform === 'linux'
      ? [['/proc/no-such-place/more', 'no such file or folder'] as const]
      : []),
  ])('%s is refused at once', (place, why) => {
    const before = allIn(top);
    for (const words of [build, assemble]) {
      const { code, error } = runPlinth(top, [...words, place]);
      expect(error).toContain(`no files can be written to "${place}": ${why}`);
      expect(error).toContain('Name another folder with --output');
      expect(code).toBe(2);
    }
    expect(allIn(top)).toEqual(before);
  });
});

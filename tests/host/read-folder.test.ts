import { chmodSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { readFolder, systemMessage } from '../../src/host/read-folder.ts';
import { analyse } from '../../src/pipeline.ts';
import { largestFileBytes } from '../../src/records/source-file.ts';
import { ownSchemas } from '../support/technical-file.ts';

let outside: string;
let root: string;

beforeEach(() => {
  outside = mkdtempSync(join(tmpdir(), 'plinth-read-'));
  root = join(outside, 'file');
  mkdirSync(root);
});
afterEach(() => rmSync(outside, { recursive: true, force: true }));

const put = (path: string, content = 'x'): void => {
  const full = join(root, path);
  mkdirSync(dirname(full), { recursive: true });
  writeFileSync(full, content);
};
const link = (target: string, path: string): void => symlinkSync(target, join(root, path));
const paths = (): readonly string[] => readFolder(root).files.map((file) => file.path);
const refused = (): readonly string[] =>
  readFolder(root).refused.map((each) => `${each.path} ${each.reason}`);

describe('a folder', () => {
  test('is read to any depth, in order of path by code unit', () => {
    for (const path of ['b.md', 'B.md', 'ä.md', 'a/b/c/d/e.md', 'a.csv', 'a/z.yaml', 'a-b/x.json', 'a/y.YML'])
      put(path);
    expect(paths()).toEqual([
      'B.md',
      'a-b/x.json',
      'a.csv',
      'a/b/c/d/e.md',
      'a/y.YML',
      'a/z.yaml',
      'b.md',
      'ä.md',
    ]);
  });

  test('gives the bytes as they are', () => {
    put('a.md', '\ufeffa\r\nb\n');
    expect([...(readFolder(root).files[0]?.bytes ?? [])]).toEqual([
      0xef, 0xbb, 0xbf, 0x61, 0x0d, 0x0a, 0x62, 0x0a,
    ]);
  });

  test('is passed over where it is hidden or not of the file, and so are other kinds of files', () => {
    for (const path of [
      '.git/a.md',
      '.hidden.md',
      '.x/a.md',
      'node_modules/p/a.md',
      'figure.png',
      'md',
      'a.txt',
    ])
      put(path);
    expect(readFolder(root)).toEqual({ files: [], refused: [] });
  });

  test('that is missing is left to the caller to explain', () => {
    expect(() => readFolder(join(root, 'nothing'))).toThrow();
  });

  test('is the same when reached through a link', () => {
    put('a.md');
    symlinkSync(root, join(outside, 'way'));
    expect(readFolder(join(outside, 'way'))).toEqual(readFolder(root));
  });
});

describe('a file', () => {
  test('is read up to its largest size and refused above, before it is loaded', () => {
    put('fits.csv');
    put('large.csv');
    truncateSync(join(root, 'fits.csv'), largestFileBytes);
    truncateSync(join(root, 'large.csv'), largestFileBytes + 1);
    expect(paths()).toEqual(['fits.csv']);
    expect(refused()).toEqual(['large.csv too-large']);
  });

  // The superuser may read everything, and Windows knows no such bits.
  test.skipIf(process.platform === 'win32' || process.getuid?.() === 0)(
    'that may not be read is refused, and so is a folder; the others are read',
    () => {
      put('a.md');
      put('b.md');
      put('c/d.md');
      chmodSync(join(root, 'a.md'), 0);
      chmodSync(join(root, 'c'), 0);
      expect(paths()).toEqual(['b.md']);
      expect(refused()).toEqual(['a.md unreadable', 'c unreadable']);
      chmodSync(join(root, 'c'), 0o755);
    },
  );

  test.skipIf(process.platform === 'win32')(
    'that is none, such as a socket, is refused and never waited for',
    async () => {
      const server = createServer();
      await new Promise<void>((done) => server.listen(join(root, 's.md'), done));
      put('a.md');
      expect(paths()).toEqual(['a.md']);
      expect(refused()).toEqual(['s.md not-a-file']);
      await new Promise((done) => server.close(done));
    },
  );
});

describe('links', () => {
  test('to places outside are refused, whether to a file or a folder, directly or by way of another link', () => {
    writeFileSync(join(outside, 'secret.md'), 'x');
    mkdirSync(join(outside, 'file-2'));
    writeFileSync(join(outside, 'file-2/secret.md'), 'x');
    put('a.md');
    link('../secret.md', 'b.md');
    link('b.md', 'c.md');
    link('..', 'up');
    link('../file-2', 'twin');
    link('../secret.md', 'other.png');
    expect(paths()).toEqual(['a.md']);
    expect(refused()).toEqual([
      'b.md outside-root',
      'c.md outside-root',
      'twin outside-root',
      'up outside-root',
    ]);
  });

  test('in a circle or to nothing are refused, and nothing is read twice', () => {
    put('a/one.md');
    link('self.md', 'self.md');
    link('pong.md', 'ping.md');
    link('ping.md', 'pong.md');
    link('gone.md', 'lost.md');
    link('..', 'a/back');
    link('.', 'here');
    link('a', 'again');
    expect(paths()).toEqual(['a/one.md']);
    expect(refused()).toEqual([
      'lost.md unreadable',
      'ping.md unreadable',
      'pong.md unreadable',
      'self.md unreadable',
    ]);
  });

  test('inside the root count once for a record, under its own name, and are allowed for data', () => {
    put('z/UN-01.md');
    put('z/data.csv');
    link('z/UN-01.md', 'a.md');
    link('z/data.csv', 'data.csv');
    expect(paths()).toEqual(['data.csv', 'z/UN-01.md', 'z/data.csv']);
    expect(refused()).toEqual([]);
  });
});

test('whatever was refused is a finding with a hint, and every other record is still read', () => {
  put('plinth.yaml', 'device: { name: Applicator, maker: Harrow Lane Instruments }\n');
  put(
    'UN-01.md',
    '---\nid: UN-01\ntype: user-need\ntitle: A need\nstatus: draft\nneeded_by: [surgeon]\n---\nIt holds.\n\n## Rationale\n\nSo.\n',
  );
  put('large.md');
  truncateSync(join(root, 'large.md'), largestFileBytes + 1);
  link('/', 'root');
  link('loop.md', 'loop.md');
  const { findings, graph } = analyse(
    { ...readFolder(root), schemas: ownSchemas, today: '2026-11-20', toolVersion: '0.0.0-test' },
    [],
  );
  expect(graph.record('UN-01')?.sound).toBe(true);
  expect(findings.map(({ place, message }) => `${place.file}: ${message}`)).toEqual([
    expect.stringMatching(/^large\.md: .*5\.1 MB, at most 5 MB/),
    expect.stringMatching(/^loop\.md: .*links lead in a circle/),
    expect.stringMatching(/^root: .*outside/),
  ]);
  for (const { hint, message } of findings) {
    expect(hint).toBeTruthy();
    expect(message).not.toContain(outside);
  }
});

test('what the system says is told in words, without its paths', () => {
  const error = Object.assign(new Error(`EACCES: permission denied, open '${tmpdir()}/x'`), {
    code: 'EACCES',
  });
  expect(systemMessage(error)).toBe('permission denied');
  expect(systemMessage(Object.assign(new Error('x'), { code: 'EMFILE' }))).toBe('EMFILE');
  expect(systemMessage('thrown text')).toBe('unknown error');
  expect(systemMessage(Object.assign(new Error('x'), { code: 'constructor' }))).toBe('constructor');
});

import { execFileSync } from 'node:child_process';
import { chmodSync, mkdirSync, mkdtempSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readFolder, systemMessage } from '../../src/host/read-folder.ts';

const folderWith = (files: Readonly<Record<string, string>>): string => {
  const root = mkdtempSync(join(tmpdir(), 'plinth-read-'));
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(join(root, path, '..'), { recursive: true });
    writeFileSync(join(root, path), text);
  }
  return root;
};

const read = (root: string) => {
  const { files, refused } = readFolder(root);
  return {
    files: files.map((file) => file.path),
    refused: refused.map(({ path, reason, detail }) => `${path} ${reason}: ${detail}`),
  };
};

/** The program of every POSIX system that makes a named pipe. */
const makePipe = 'mkfifo';

/** Runs without the rights of the superuser, to whom no file is closed. */
const asOrdinaryUser = <T>(run: () => T): T => {
  if (process.getuid?.() !== 0) return run();
  process.seteuid?.(65534);
  try {
    return run();
  } finally {
    process.seteuid?.(0);
  }
};

describe('a folder', () => {
  test('is read at any depth, in order of path, but for what is hidden or of another kind', () => {
    const root = folderWith({
      'plinth.yaml': '',
      'b/c/d/DI-2.md': '',
      'b/DI-10.md': '',
      'b.md': '',
      'a/x.csv': '',
      'a/x.txt': '',
      'a/x.docx': '',
      'schemas/t.schema.json': '{}',
      'UPPER.MD': '',
      '.hidden/x.md': '',
      '.x.md': '',
      'node_modules/p/x.md': '',
      '.git/x.md': '',
      'ä/µ.md': '',
    });
    expect(read(root)).toEqual({
      files: [
        'UPPER.MD',
        'a/x.csv',
        'b.md',
        'b/DI-10.md',
        'b/c/d/DI-2.md',
        'plinth.yaml',
        'schemas/t.schema.json',
        'ä/µ.md',
      ],
      refused: [],
    });
  });

  test('with an ending of a record is a folder', () => {
    expect(read(folderWith({ 'notes.md/a.md': '', 'data.csv/b.csv': '' })).files).toEqual([
      'data.csv/b.csv',
      'notes.md/a.md',
    ]);
  });

  test('has files that are too large or no plain files refused', () => {
    const root = folderWith({ 'large.md': '', 'limit.md': '', 'a.md': '' });
    truncateSync(join(root, 'large.md'), 10 * 1024 * 1024);
    truncateSync(join(root, 'limit.md'), 5 * 1024 * 1024);
    execFileSync(makePipe, [join(root, 'pipe.md')]);
    expect(read(root)).toEqual({
      files: ['a.md', 'limit.md'],
      refused: [
        'large.md too-large: 10.0 MB, at most 5 MB are read',
        'pipe.md not-a-file: only plain files are read',
      ],
    });
  });

  test('has files and folders that may not be opened refused', () => {
    const root = folderWith({ 'a.md': '', 'closed.md': '', 'shut/b.md': '' });
    chmodSync(join(root, 'closed.md'), 0);
    chmodSync(join(root, 'shut'), 0);
    chmodSync(root, 0o755);
    expect(asOrdinaryUser(() => read(root))).toEqual({
      files: ['a.md'],
      refused: ['closed.md unreadable: permission denied', 'shut unreadable: permission denied'],
    });
  });

  test('that is not there is the business of the caller', () => {
    expect(() => readFolder(join(tmpdir(), 'plinth-no-such-folder'))).toThrow();
    expect(systemMessage({ code: 'ENOENT' })).toBe('no such file or folder');
    expect(systemMessage({ code: 'EWEIRD' })).toBe('EWEIRD');
    expect(systemMessage(new Error('anything'))).toBe('unknown error');
  });
});

describe('links', () => {
  test('out of the folder are refused, whatever they lead to', () => {
    const outside = folderWith({ 'secret.md': 'secret', 'folder/b.csv': 'secret' });
    const root = folderWith({ 'a.md': '' });
    symlinkSync(join(outside, 'secret.md'), join(root, 'link.md'));
    symlinkSync(join(outside, 'folder'), join(root, 'shared'));
    symlinkSync('/etc/hostname', join(root, 'host.csv'));
    symlinkSync('..', join(root, 'up'));
    symlinkSync('/etc/hostname', join(root, 'not-wanted'));
    expect(read(root)).toEqual({
      files: ['a.md'],
      refused: [
        'host.csv outside-root: it is a link to a place outside',
        'link.md outside-root: it is a link to a place outside',
        'shared outside-root: it is a link to a place outside',
        'up outside-root: it is a link to a place outside',
      ],
    });
  });

  test('out of the folder by way of a folder whose name starts alike are refused', () => {
    const root = folderWith({ 'inner/a.md': '', 'inner-too/secret.md': 'secret' });
    symlinkSync('../inner-too/secret.md', join(root, 'inner/link.md'));
    expect(read(join(root, 'inner')).refused).toEqual([
      'link.md outside-root: it is a link to a place outside',
    ]);
  });

  test('inside are followed, a record is read once and under its own name', () => {
    const root = folderWith({ 'records/DI-1.md': 'x', 'data/d.csv': 'y', '.store/UN-1.md': 'z' });
    symlinkSync('records/DI-1.md', join(root, 'a-link.md'));
    symlinkSync('records', join(root, 'a-folder'));
    symlinkSync('../data/d.csv', join(root, 'records/d.csv'));
    symlinkSync('.store/UN-1.md', join(root, 'UN-1.md'));
    expect(read(root)).toEqual({
      files: ['UN-1.md', 'data/d.csv', 'records/DI-1.md', 'records/d.csv'],
      refused: [],
    });
  });

  test('in circles and to nothing end', () => {
    const root = folderWith({ 'a/b/x.md': '' });
    symlinkSync('..', join(root, 'a/b/up'));
    symlinkSync('.', join(root, 'self'));
    symlinkSync('round-b.md', join(root, 'round-a.md'));
    symlinkSync('round-a.md', join(root, 'round-b.md'));
    symlinkSync('nowhere', join(root, 'dangling'));
    expect(read(root)).toEqual({
      files: ['a/b/x.md'],
      refused: [
        'dangling unreadable: it is a link: no such file or folder',
        'round-a.md unreadable: it is a link: links lead in a circle',
        'round-b.md unreadable: it is a link: links lead in a circle',
      ],
    });
  });

  test('the folder itself may be one', () => {
    const root = folderWith({ 'a.md': '' });
    const link = join(folderWith({}), 'link');
    symlinkSync(root, link);
    expect(read(link).files).toEqual(['a.md']);
  });
});

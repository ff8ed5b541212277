import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { openRepository, type Repository } from '../../src/host/git.ts';
import { readFolder } from '../../src/host/read-folder.ts';
import { canMakeKeys, commitAll, git as gitAs, makeKey, put } from '../support/real-git.ts';

const folders: string[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

const emptyFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'plinth-git-'));
  folders.push(folder);
  return folder;
};

const git = (folder: string, ...words: readonly string[]): string => gitAs(folder, words);

const commit = (folder: string, subject: string): string => commitAll(folder, subject);

/** A repository with the technical file in `file`, three commits. */
const sample = () => {
  const top = emptyFolder();
  git(top, 'init', '-q', '-b', 'main');
  put(top, 'file/plinth.yaml', 'device: {}\n');
  put(top, 'file/needs/UN-01.md', 'first\n');
  put(top, 'elsewhere.md', 'not of the file\n');
  const first = commit(top, 'Begin');
  put(top, 'file/needs/UN-01.md', 'second\n');
  put(top, 'file/needs/Größe, mit "Zeichen".md', 'name\n');
  const second = commit(top, 'Change the need');
  put(top, 'elsewhere.md', 'changed\n');
  commit(top, 'Change something else');
  return { top, first, second, file: join(top, 'file') };
};

const open = (folder: string): Repository => {
  const outcome = openRepository(folder);
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.repository;
};

describe('a repository around a technical file', () => {
  test('says where the file lies, and reads the folder as it was', () => {
    const { file, first, top } = sample();
    const repository = open(file);
    expect(repository.prefix).toBe('file');
    expect(open(top).prefix).toBe('');
    expect(repository.isShallow).toBe(false);
    const then = repository.readFolder(first);
    expect(then.files.map(({ path, bytes }) => [path, new TextDecoder().decode(bytes)])).toEqual([
      ['needs/UN-01.md', 'first\n'],
      ['plinth.yaml', 'device: {}\n'],
    ]);
  });

  test('reads the last commit as the disk is read', () => {
    const { file } = sample();
    put(file, '.hidden/x.md', 'x');
    put(file, 'picture.png', 'x');
    put(file, 'data/VR-01.csv', 'a,b\n1,2\n');
    symlinkSync('VR-01.csv', join(file, 'data/VR-02.csv'));
    symlinkSync('../../elsewhere.md', join(file, 'needs/outside.md'));
    const id = commit(file, 'More');
    const plain = (content: ReturnType<typeof readFolder>) =>
      content.files.map(({ path, bytes }) => [path, new TextDecoder().decode(bytes)]).sort();
    const fromGit = open(file).readFolder(id);
    const fromDisk = readFolder(file);
    expect(plain(fromGit)).toEqual(plain(fromDisk));
    expect(fromGit.refused.map(({ path, reason }) => [path, reason])).toEqual(
      fromDisk.refused.map(({ path, reason }) => [path, reason]),
    );
    expect(plain(fromGit).map(([path]) => path)).toContain('data/VR-02.csv');
  });

  test('tells the history of the folder alone, newest first, with content by object id', () => {
    const { file, first, second } = sample();
    const repository = open(file);
    const history = repository.history();
    expect(history.map(({ commit: each }) => [each.id, each.subject, each.author])).toEqual([
      [second, 'Change the need', 'Tamsin Oakrill'],
      [first, 'Begin', 'Tamsin Oakrill'],
    ]);
    const change = history[0]?.changes.find(({ path }) => path === 'needs/UN-01.md');
    const objects = repository.readObjects([change?.before ?? '', change?.after ?? '', '0'.repeat(40)]);
    expect([...objects.values()].map((bytes) => new TextDecoder().decode(bytes))).toEqual([
      'first\n',
      'second\n',
    ]);
    expect(history[0]?.changes.map(({ path }) => path)).toContain('needs/Größe, mit "Zeichen".md');
  });

  test('resolves names, and takes no name for an option', () => {
    const { file, first, top } = sample();
    const repository = open(file);
    expect(repository.resolve('HEAD~2')?.id).toBe(first);
    expect(repository.resolve('main')?.subject).toBe('Change something else');
    expect(repository.resolve('no-such-name')).toBeUndefined();
    expect(repository.resolve('--output=stolen')).toBeUndefined();
    expect(existsSync(join(top, 'stolen^{commit}'))).toBe(false);
    expect(existsSync(join(top, 'stolen'))).toBe(false);
  });

  test('knows whether the folder differs from the last commit', () => {
    const { file, top } = sample();
    expect(open(file).isDirty()).toBe(false);
    put(top, 'elsewhere.md', 'dirty\n');
    expect(open(file).isDirty()).toBe(false);
    put(file, 'needs/UN-02.md', 'new\n');
    expect(open(file).isDirty()).toBe(true);
  });

  test('a merge that changes nothing itself repeats what its branch brought', () => {
    const { file, top } = sample();
    git(top, 'switch', '-q', '-c', 'branch', 'HEAD~1');
    put(file, 'needs/UN-02.md', 'new\n');
    const onBranch = commit(top, 'Add a need');
    git(top, 'switch', '-q', 'main');
    git(top, 'merge', '-q', '--no-ff', '-m', 'Merge', 'branch');
    const ids = open(file)
      .history()
      .filter(({ changes }) => changes.some(({ path }) => path === 'needs/UN-02.md'))
      .map(({ commit: each }) => each.id);
    expect(ids).toHaveLength(2);
    expect(ids[1]).toBe(onBranch);
  });

  test('a shallow clone says so', () => {
    const { top } = sample();
    const copy = emptyFolder();
    execFileSync('git', ['clone', '-q', '--depth', '1', `file://${top}`, copy], { stdio: 'pipe' });
    const repository = open(join(copy, 'file'));
    expect(repository.isShallow).toBe(true);
    expect(repository.resolve('HEAD~1')).toBeUndefined();
  });

  test('no program of the repository is run', () => {
    const { top, file } = sample();
    put(top, 'trap.sh', '#!/bin/sh\ntouch "$(dirname "$0")/sprung"\n');
    execFileSync('chmod', ['+x', join(top, 'trap.sh')]);
    git(top, 'config', 'core.fsmonitor', join(top, 'trap.sh'));
    git(top, 'config', 'diff.external', join(top, 'trap.sh'));
    const repository = open(file);
    repository.isDirty();
    repository.history();
    expect(existsSync(join(top, 'sprung'))).toBe(false);
  });

  test('outside of any repository it says so', () => {
    expect(openRepository(emptyFolder())).toEqual({
      ok: false,
      reason: 'the folder is not in a git work tree',
    });
  });
});

describe.skipIf(!canMakeKeys)('signatures of commits (needs ssh-keygen)', () => {
  test('good, stranger and unsigned are told apart', () => {
    const { top, file, first } = sample();
    const keys = emptyFolder();
    const trusted = makeKey(keys, 'trusted');
    makeKey(keys, 'stranger');
    const signers = join(keys, 'allowed-signers');
    writeFileSync(signers, `tamsin@example.com namespaces="git" ${trusted}\n`);
    const signedBy = (key: string): string => {
      put(file, 'needs/UN-03.md', `${key}\n`);
      git(top, 'add', '-A');
      git(
        top,
        '-c',
        'gpg.format=ssh',
        '-c',
        `user.signingKey=${join(keys, key)}`,
        'commit',
        '-q',
        '-S',
        '-m',
        key,
      );
      return git(top, 'rev-parse', 'HEAD');
    };
    const repository = open(file);
    expect(repository.signatureOf(signedBy('trusted'), signers)).toMatchObject({
      state: 'good',
      signer: 'tamsin@example.com',
    });
    expect(repository.signatureOf(signedBy('stranger'), signers).state).toBe('untrusted');
    expect(repository.signatureOf(first, signers).state).toBe('unsigned');
    expect(repository.signatureOf('0'.repeat(40), signers).state).toBe('unchecked');
  });
});

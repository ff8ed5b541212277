import { cpSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { run } from '../../src/cli/commands/build.ts';
import { git } from '../support/real-git.ts';
import { projectRoot } from '../support/technical-file.ts';
import { emptyFolder, runPlinth } from './run-plinth.ts';

const filesOf = (folder: string): ReadonlyMap<string, string> =>
  new Map(
    readdirSync(join(folder, 'build'))
      .sort()
      .map((name) => [name, readFileSync(join(folder, 'build', name)).toString('base64')]),
  );

/** Names of the files that a build says it has written, without their folder. */
const writtenIn = (out: string): readonly string[] =>
  (out.split('\nWritten:\n')[1] ?? '')
    .split('\n\n')[0]
    ?.split('\n')
    .filter((line) => line.startsWith('  '))
    .map((line) => line.trim().replace('build/', '')) ?? [];

describe('a second build', () => {
  const folder = emptyFolder();
  const build = (...words: readonly string[]) => runPlinth(folder, ['build', '--no-site', ...words]);
  const edit = (path: string, from: string, to: string): void => {
    const file = join(folder, 'content', path);
    const before = readFileSync(file, 'utf8');
    expect(before).toContain(from);
    writeFileSync(file, before.replace(from, to));
  };
  runPlinth(folder, ['start']);
  runPlinth(folder, ['new', 'user-need', '--title', 'One-handed dosing']);
  git(folder, ['init', '-q']);
  git(folder, ['add', '.']);
  git(folder, ['commit', '-q', '-m', 'Start']);
  const first = build();
  const before = filesOf(folder);

  test('writes nothing where nothing has changed', () => {
    expect(writtenIn(first.out).length).toBeGreaterThan(8);
    expect(first.out).toContain('no record yet to write them for:\n  DOC-06 (verification-record)');
    const second = build();
    expect(second.out).toContain('Nothing was written.');
    expect(second.out).toContain(`${writtenIn(first.out).length} files`);
    expect(filesOf(folder)).toEqual(before);
  });

  test('leaves files as they are after a commit that says nothing new', () => {
    edit('plinth.yaml', '\n', '\n# a comment\n');
    git(folder, ['commit', '-q', '-a', '-m', 'Explain']);
    expect(build().out).toContain('Nothing was written.');
    expect(filesOf(folder)).toEqual(before);
  });

  test('writes those documents, and only those, that tell what has changed', () => {
    edit('user-needs/UN-01.md', 'One-handed dosing', 'Dosing with one hand');
    const written = writtenIn(build().out);
    const after = filesOf(folder);
    const changed = [...after].filter(([name, bytes]) => before.get(name) !== bytes).map(([name]) => name);
    expect(changed.filter((name) => name !== 'built-files.json').sort()).toEqual([...written].sort());
    // The two starters that name every record.
    expect(written).toEqual([
      expect.stringContaining('file-index.docx'),
      expect.stringContaining('approvals-and-signature-pages.docx'),
    ]);
    // What is left says just what it would say if it were written anew.
    const cold = emptyFolder();
    cpSync(folder, cold, { recursive: true });
    rmSync(join(cold, 'build'), { recursive: true });
    runPlinth(cold, ['build', '--no-site']);
    const anew = filesOf(cold);
    for (const name of written) expect(after.get(name) === anew.get(name), name).toBe(true);
    expect([...anew.keys()]).toEqual([...after.keys()]);
  });

  test('writes a file again that somebody edited or deleted, and keeps none of the edit', () => {
    const names = [...filesOf(folder).keys()].filter((name) => name.endsWith('.docx'));
    const [edited = '', deleted = ''] = names;
    const was = filesOf(folder);
    writeFileSync(join(folder, 'build', edited), 'edited');
    rmSync(join(folder, 'build', deleted));
    expect([...writtenIn(build().out)].sort()).toEqual([edited, deleted].sort());
    expect(filesOf(folder).size).toBe(was.size);
  });

  test('tells which files are of no document any more, and deletes none', () => {
    const document = readdirSync(join(folder, 'content/documents')).sort()[0] ?? '';
    const text = readFileSync(join(folder, 'content/documents', document), 'utf8');
    const title = /^title: (.*)$/m.exec(text)?.[1] ?? '';
    edit(`documents/${document}`, `title: ${title}`, 'title: Quite another name');
    const { out } = build();
    expect(out).toContain('of no document any more:');
    expect(out).toContain('quite-another-name');
    const [, list = ''] = out.split('of no document any more:\n');
    const old = list.trim().split('\n')[0]?.trim().replace('build/', '') ?? '';
    expect(filesOf(folder).has(old)).toBe(true);
  });

  test('--anew writes all files; a damaged list is as good as none', () => {
    const all = writtenIn(build('--anew').out);
    expect(all.length).toBe(writtenIn(first.out).length);
    writeFileSync(join(folder, 'build/built-files.json'), '{"files": [{"file": 1}, "x"');
    expect(writtenIn(build().out).length).toBe(all.length);
  });
});

/** Builds by the source itself, which has no threads and the layout as its package has it. */
const buildInSource = (content: string, output: string, only?: string): Promise<number> =>
  run(
    {
      command: 'build',
      argument: content,
      arguments: [content],
      options: { output, format: 'text', ...(only ? { only } : {}) },
      switches: new Set(['no-site']),
    },
    { out: () => undefined, progress: () => undefined, colour: false, width: 80, folder: projectRoot },
  );

test('the bundle, with threads and the quicker layout, writes the bytes that the source writes', async () => {
  const [started, inSource, bundled] = [emptyFolder(), emptyFolder(), emptyFolder()];
  runPlinth(started, ['start']);
  const demonstration = join(projectRoot, 'content');
  for (const [content, ...only] of [[join(started, 'content')], [demonstration, 'DOC-12']] as const) {
    const words = ['build', content, ...only.flatMap((id) => ['--only', id]), '--output', bundled];
    expect(runPlinth(projectRoot, words).error).toBe('');
    await buildInSource(content, inSource, only[0]);
  }
  const names = readdirSync(bundled).filter((name) => name.endsWith('.docx'));
  expect(names.length).toBeGreaterThan(10);
  for (const name of names)
    expect(readFileSync(join(inSource, name)).equals(readFileSync(join(bundled, name))), name).toBe(true);
});

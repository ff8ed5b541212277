import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { git } from '../support/real-git.ts';
import { emptyFolder, runPlinth } from './run-plinth.ts';

const need = (id: string, title: string): string =>
  `---\nid: ${id}\ntype: user-need\ntitle: ${title}\nstatus: draft\n---\nThe surgeon doses with one hand.\n`;

describe('the browsable copy that build writes', () => {
  const folder = emptyFolder();
  const path = (name: string): string => join(folder, name);
  const write = (name: string, text: string): void => {
    mkdirSync(join(path(name), '..'), { recursive: true });
    writeFileSync(path(name), text);
  };
  const page = (name: string): string => readFileSync(path(name), 'utf8');
  const build = (...words: readonly string[]): string => {
    const { out, error } = runPlinth(folder, ['build', '--as-of', '2026-11-20', ...words]);
    expect(error).toBe('');
    return out;
  };
  write(
    'content/plinth.yaml',
    'device: { name: Granule applicator, maker: Harrow Lane Instruments, code: GA-1 }\n',
  );
  write('content/UN-01.md', need('UN-01', 'One-handed dosing'));
  write('content/UN-02.md', need('UN-02', 'Dose that can be seen'));
  git(folder, ['init', '-q']);
  git(folder, ['add', '.']);
  git(folder, ['commit', '-q', '-m', 'Start']);

  test('lies beside the documents, and is left as it is where nothing has changed', () => {
    expect(build()).toContain('build/site/index.html');
    expect(page('build/site/index.html')).toContain('Granule applicator');
    expect(page('build/site/records/UN-02.html')).toContain('Dose that can be seen');
    // The commit of a moment ago, from git.
    expect(page('build/site/records/UN-02.html')).toMatch(/id="history"[\s\S]*first written/);
    expect(existsSync(path('build/site/impact.html'))).toBe(false);
    expect(build()).toContain('Nothing was written.');
  });

  test('goes where it is asked to, or nowhere', () => {
    build('--output', 'out', '--site', 'pages');
    expect(existsSync(path('pages/index.html'))).toBe(true);
    expect(existsSync(path('out/site'))).toBe(false);
    build('--output', 'none', '--no-site');
    expect(existsSync(path('none/site'))).toBe(false);
  });

  test('hands on the files of the documents with their pages, and no link to one that was not written', () => {
    write(
      'content/DOC-01.md',
      '---\nid: DOC-01\ntype: document\ntitle: Needs\nstatus: draft\nrevision: "1"\nformats: [docx, html, csv]\n---\n# Needs\n\n```plinth standing\ncaption: Standing\nanchor: standing\n```\n',
    );
    build();
    const document = page('build/site/documents/DOC-01.html');
    const linked = [...document.matchAll(/href="\.\.\/(files\/[^"]*)"( download)?/g)];
    expect(linked.map(([, file = '', saved = '']) => file.replace(/.*\./, '') + saved)).toEqual([
      'docx download',
      'html',
      'csv download',
    ]);
    for (const [, file = ''] of linked)
      expect(readFileSync(path(`build/site/${file}`))).toEqual(
        readFileSync(path(`build/${file.replace('files/', '')}`)),
      );
    expect(page('build/site/documents.html')).toMatch(/href="files\/DOC-01-needs\.docx"/);
    expect(build()).toContain('Nothing was written.');
    // A document that is written as a page only has no Word file to link to.
    write('content/DOC-01.md', page('content/DOC-01.md').replace('[docx, html, csv]', '[html]'));
    build();
    expect(page('build/site/documents/DOC-01.html')).not.toContain('.docx');
    expect(existsSync(path('build/site/files/DOC-01-needs.docx'))).toBe(false);
    rmSync(path('content/DOC-01.md'));
    build();
    expect(existsSync(path('build/site/files'))).toBe(false);
  });

  test('takes its own pages away with their records, and nobody else’s files', () => {
    write('build/site/notes.txt', 'kept');
    rmSync(path('content/UN-02.md'));
    build();
    expect(existsSync(path('build/site/records/UN-02.html'))).toBe(false);
    expect(page('build/site/notes.txt')).toBe('kept');
    expect(page('build/site/types/user-need.html')).not.toContain('UN-02');
  });

  test('shows what changed since an earlier state, with links to the records, where one is named', () => {
    write('content/UN-01.md', need('UN-01', 'One-handed dosing without re-gripping'));
    build('--since', 'HEAD');
    const impact = page('build/site/impact.html');
    expect(impact).toContain('Change impact report');
    expect(impact).toMatch(/href="records\/UN-01\.html"/);
    expect(impact).toContain('UN-02');
    expect(page('build/site/index.html')).toContain('href="impact.html"');
    expect(page('build/site/changes.html')).toContain('href="impact.html"');
    const { code, error } = runPlinth(folder, ['build', '--since', 'v9']);
    expect(error).toContain('there is no revision "v9"');
    expect(code).toBe(2);
  });
});

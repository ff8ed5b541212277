import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { commitAll, git } from '../support/real-git.ts';
import { projectRoot } from '../support/technical-file.ts';
import { emptyFolder, runPlinth } from './run-plinth.ts';

const top = emptyFolder();
cpSync(join(projectRoot, 'content'), join(top, 'content'), { recursive: true });
const edit = (file: string, from: string, to: string): void => {
  const path = join(top, 'content', file);
  const before = readFileSync(path, 'utf8');
  expect(before).toContain(from);
  writeFileSync(path, before.replace(from, to));
};
git(top, ['init', '-q']);
commitAll(top, 'Approved');

interface Report {
  readonly findings: readonly {
    readonly code: string;
    readonly records: readonly string[];
    readonly new?: boolean;
  }[];
  readonly standing: unknown;
}
const check = (...words: readonly string[]): { readonly code: number | null; readonly report: Report } => {
  const { out, code } = runPlinth(top, ['check', '--format', 'json', ...words]);
  return { code, report: JSON.parse(out) as Report };
};

describe('a limit that was loosened once and is loosened again', () => {
  test('is a new finding, though the approval had lapsed before', () => {
    edit('design-inputs/DI-09.md', 'lower: 30', 'lower: 29');
    commitAll(top, 'Loosen a little');
    expect(check('--new-since', 'HEAD').code).toBe(0);
    edit('design-inputs/DI-09.md', 'lower: 29', 'lower: 5');
    const again = check('--new-since', 'HEAD');
    expect(again.code).toBe(1);
    expect(
      again.report.findings.some(
        (finding) => finding.code === 'approval-lapsed' && finding.records[0] === 'DI-09',
      ),
    ).toBe(true);
    git(top, ['checkout', '-q', '--', 'content']);
  });
});

describe('a record whose front matter holds a field twice', () => {
  test('puts what rests on it in doubt, and the walk says that it was not judged', () => {
    edit('design-inputs/DI-09.md', 'lower: 29', 'lower: 29\n    lower: 20');
    const { code, report } = check();
    expect(code).toBe(1);
    expect(report.findings.find((finding) => finding.code === 'duplicate-key')?.records).toEqual(['DI-09']);
    const { out } = runPlinth(top, ['vouch', 'DI-09']);
    expect(out).toMatch(/DI-09 could not be\s+judged/);
    expect(out).not.toContain('lacks the approval');
    expect(runPlinth(top, ['check']).out).toMatch(/Design inputs +27 passed, 1 in doubt/);
  });
});

import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { commitAll, git, put } from '../support/real-git.ts';
import { readTree } from '../support/technical-file.ts';
import { emptyFolder, runPlinth } from './run-plinth.ts';

/** The life of one change, with real git: an engineer, CI and the quality lead, on the demonstration file. */
describe('a tolerance is loosened', () => {
  const top = emptyFolder();
  const output = 'content/design-outputs/DO-04.md';
  const edit = (path: string, from: string, to: string): void => {
    const before = readFileSync(join(top, path), 'utf8');
    expect(before).toContain(from);
    writeFileSync(join(top, path), before.replace(from, to));
  };
  const lineOf = (path: string, words: string): number =>
    readFileSync(join(top, path), 'utf8')
      .split('\n')
      .findIndex((line) => line.includes(words)) + 1;
  const plinth = (...words: readonly string[]) => runPlinth(top, words, { TZ: 'UTC' });

  test('the file is clean at the start', () => {
    mkdirSync(join(top, 'content'));
    for (const [path, bytes] of readTree('content')) put(top, `content/${path}`, bytes);
    git(top, ['init', '-q']);
    commitAll(top, 'Begin');
    const { code, out } = plinth('check');
    expect(out).toContain('0 errors');
    expect(code).toBe(0);
    expect(plinth('impact').out).toContain('Nothing differs');
  });

  test('the engineer loosens it; check fails on that line and shows the difference', () => {
    edit(output, 'nominal: 0.42, plus: 0.05', 'nominal: 0.42, plus: 0.12');
    commitAll(top, 'Loosen the snap undercut');
    const { code, out } = plinth('check', '--format', 'json');
    expect(code).toBe(1);
    const errors = (
      JSON.parse(out) as {
        findings: {
          level: string;
          code: string;
          place: { line: number; file: string };
          related: { message: string }[];
        }[];
      }
    ).findings.filter((finding) => finding.level === 'error');
    expect(errors.map((finding) => finding.code)).toEqual(['approval-lapsed']);
    expect(errors[0]?.place.file).toMatch(/design-outputs\/DO-04\.md$/);
    expect(errors[0]?.place.line).toBe(lineOf(output, 'plus: 0.12'));
    expect(errors[0]?.related[0]?.message).toBe(
      'DO-04 since then: characteristics[snap undercut].plus: 0.05 mm → 0.12 mm (looser)',
    );
    // What a pull request shows: an annotation on the line of the tolerance, and nothing that is not new.
    const annotated = plinth('check', '--format', 'github', '--new-since', 'HEAD~1');
    expect(annotated.code).toBe(1);
    expect(annotated.out).toContain(`::error file=${output},line=${lineOf(output, 'plus: 0.12')},`);
  });

  test('impact tells what to test again, by which path, and which approvals lapse', () => {
    const { code, out } = plinth('impact', 'HEAD~1', '--format', 'json');
    expect(code).toBe(0);
    const impact = JSON.parse(out) as {
      form: string;
      tests: { id: string; action: string; reasons: { path: string[] }[] }[];
      risks: { id: string }[];
      approvals: { id: string }[];
      documents: { id: string }[];
    };
    expect(impact.form).toBe('plinth-impact');
    expect(impact.tests.map((each) => `${each.id} ${each.action}`)).toContain('VR-09B repeat');
    expect(impact.tests.find((each) => each.id === 'VR-09B')?.reasons[0]?.path).toEqual(['VR-09B', 'DO-04']);
    // What was replaced by a repetition before the change is not asked for again.
    expect(impact.tests.map((each) => each.id)).not.toContain('VR-09A');
    expect(impact.risks.map((each) => each.id)).toContain('RK-03');
    expect(impact.approvals.map((each) => each.id)).toContain('DO-04');
    expect(impact.documents.length).toBeGreaterThan(0);
    const text = plinth('impact', 'HEAD~1').out;
    expect(text).toContain('0.12 mm (looser)');
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  test('a limit that moved is no change without technical effect', () => {
    const { code, error, out } = plinth(
      ...['approve', '--because', 'DO-04', '--role', 'quality lead', '--name', 'Brede Falkonet'],
      ...['--date', '2026-11-19', '--no-effect', 'Spelling.'],
    );
    expect(code, out).toBe(2);
    expect(error).toContain('DO-04');
  });

  test('the fix and a new approval make it green again', () => {
    edit(output, 'plus: 0.12', 'plus: 0.06');
    commitAll(top, 'Loosen less');
    const approve = (role: string, name: string) =>
      plinth(
        'approve',
        '--because',
        'DO-04',
        '--role',
        role,
        '--name',
        name,
        '--date',
        '2026-11-19',
        '--meaning',
        'confirmed after the change of the snap undercut',
      );
    for (const [role, name] of [
      ['design engineer', 'Tamsin Oakrill'],
      ['quality lead', 'Brede Falkonet'],
    ] as const) {
      const { code, out, error } = approve(role, name);
      expect(code, `${out}${error}`).toBe(0);
    }
    commitAll(top, 'Approve what rests on DO-04');
    const { code, out } = plinth('check');
    expect(out).toContain('0 errors');
    expect(code).toBe(0);
    // Nothing but approvals was written.
    const changed = git(top, ['diff', '--stat', 'HEAD~1', '--', 'content']);
    expect(changed).toContain('VR-09B.md');
    expect(
      git(top, ['diff', '--numstat', 'HEAD~1'])
        .split('\n')
        .every((line) => line.split('\t')[1] === '0'),
    ).toBe(true);
  });

  test('an auditor draws a sample, and every chain in it holds', () => {
    const { code, out } = plinth('vouch', '--sample', '3', '--seed', 'audit');
    expect(code).toBe(0);
    expect(out).toContain('3 of 28 records of type design-input');
    expect(plinth('vouch', 'DI-09').out).toContain('VR-09B.csv');
  });

  test('the quality lead prints the report for the design change', () => {
    const { code, out } = plinth(
      'impact',
      'HEAD~3',
      'HEAD',
      '--change',
      'DC-01',
      '--format',
      'docx',
      '--output',
      'out/impact.docx',
    );
    expect(code).toBe(0);
    expect(out).toContain('Written: out/impact.docx');
    const bytes = readFileSync(join(top, 'out/impact.docx'));
    expect(bytes.subarray(0, 2).toString()).toBe('PK');
    const again = plinth(
      'impact',
      'HEAD~3',
      'HEAD',
      '--change',
      'DC-01',
      '--format',
      'docx',
      '--output',
      'out/again.docx',
    );
    expect(again.code).toBe(0);
    expect(readFileSync(join(top, 'out/again.docx')).equals(bytes)).toBe(true);
  });
});

describe('impact of states that cannot be compared', () => {
  const top = emptyFolder();
  const need = (title: string) =>
    `---\nid: UN-01\ntype: user-need\ntitle: ${title}\nstatus: draft\nneeded_by: [dental surgeon]\n---\nA need.\n\n## Rationale\n\nWhy.\n`;

  test('two folders need no git', () => {
    for (const [folder, title] of [
      ['a', 'Old'],
      ['b', 'New'],
    ] as const) {
      put(top, `${folder}/plinth.yaml`, 'device: { name: Applicator, maker: Harrow Lane Instruments }\n');
      put(top, `${folder}/UN-01.md`, need(title));
    }
    const { code, out } = runPlinth(top, ['impact', 'a', 'b', '--in', 'b']);
    expect(code).toBe(0);
    expect(out).toContain('From a to b');
    expect(out).toMatch(/UN-01\s+title\s+Old\s+New/);
  });

  test('without git, without the revision and in a shallow clone it says what it needs', () => {
    expect(runPlinth(top, ['impact', '--in', 'a'])).toMatchObject({ code: 2 });
    expect(runPlinth(top, ['impact', '--in', 'a']).error).toContain('not in a git work tree');
    git(top, ['init', '-q']);
    commitAll(top, 'One');
    put(top, 'a/UN-01.md', need('Newer'));
    commitAll(top, 'Two');
    expect(runPlinth(top, ['impact', 'no-such', '--in', 'a']).error).toContain(
      'there is no revision "no-such"',
    );
    const copy = emptyFolder();
    git(copy, ['clone', '-q', '--depth', '1', `file://${top}`, 'clone']);
    const shallow = runPlinth(join(copy, 'clone'), ['impact', 'HEAD~1', '--in', 'a']);
    expect(shallow.code).toBe(2);
    expect(shallow.error).toContain('holds only the latest commits');
    const within = runPlinth(join(copy, 'clone'), ['impact', '--in', 'a']);
    expect(within.code).toBe(0);
    expect(within.out.replace(/[│\s]+/g, ' ')).toContain(
      'Not seen: what happened before the first commit of this clone',
    );
  });

  test('a record that does not meet its schema is named as not seen', () => {
    put(top, 'a/UN-01.md', need('Newer').replace('needed_by', 'needed'));
    const { out } = runPlinth(top, ['impact', '--in', 'a']);
    expect(out.replace(/\s+/g, ' ')).toContain('Not seen:');
  });

  test('a file with a conflict left by git is named as not seen, not only as gone', () => {
    put(top, 'a/UN-01.md', need('<<<<<<< HEAD\ntitle: One\n=======\ntitle: Two\n>>>>>>> other'));
    const { out } = runPlinth(top, ['impact', '--in', 'a']);
    expect(out.replace(/[│\s]+/g, ' ')).toContain(
      'Not seen: the record in 1 file of the work tree that could not be read as records, such as UN-01.md.',
    );
  });
});

import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { emptyFolder, runPlinth } from './run-plinth.ts';

/** What a new user does in the first hour, in one folder. */
describe('the first hour', () => {
  const folder = emptyFolder();
  const edit = (path: string, change: (text: string) => string): void => {
    const file = join(folder, path);
    const before = readFileSync(file, 'utf8');
    const after = change(before);
    expect(after, `the edit of ${path} must change something`).not.toBe(before);
    writeFileSync(file, after);
  };

  test('start lays down a file that checks clean', () => {
    const started = runPlinth(folder, ['start']);
    expect(started).toMatchObject({ code: 0, error: '' });
    expect(existsSync(join(folder, 'content/plinth.yaml'))).toBe(true);
    const checked = runPlinth(folder, ['check']);
    expect(checked.out).toContain('0 errors');
    expect(checked.code).toBe(0);
    // A report opens with its verdict, so that a failed test reads as failed.
    expect(readFileSync(join(folder, 'content/documents/DOC-06.md'), 'utf8')).toContain(
      '# What was shown\n\nThe verdict on :each[id] is *:value[each/verdict]*: :value[each/reason].',
    );
  });

  test('start names commands that work from where it was run', () => {
    const here = emptyFolder();
    const { out } = runPlinth(here, ['start', '.']);
    const [, words = ''] = /5\. plinth (build .*)/.exec(out) ?? [];
    expect(words).toBe('build . --output ../build');
    const elsewhere = words.replace('../build', emptyFolder()).split(' ');
    expect(runPlinth(here, [...elsewhere, '--only', 'DOC-01']).code).toBe(0);
    expect(runPlinth(here, ['build', '.']).error).toContain('Name a place outside of it with --output');
  });

  test('start does not touch a file that exists', () => {
    const again = runPlinth(folder, ['start']);
    expect(again.code).toBe(2);
    expect(again.error).toContain('holds a technical file already');
  });

  test('new gives the next free id, and check says what is to be filled in', () => {
    expect(runPlinth(folder, ['new', 'user-need', '--title', 'One-handed dosing']).out).toContain(
      'Wrote content/user-needs/UN-01.md',
    );
    expect(runPlinth(folder, ['new', 'user-need']).out).toContain('UN-02.md');
    const checked = runPlinth(folder, ['check']);
    expect(checked.code).toBe(1);
    expect(checked.out).toContain('needed_by is an empty list');
    expect(checked.out).toMatch(/user-needs\/UN-02\.md:4:8/);
  });

  test('a need without an input is an error; an input mends it', () => {
    edit('content/user-needs/UN-01.md', (text) =>
      text.replace('needed_by: []', 'needed_by: [dental surgeon]'),
    );
    edit('content/user-needs/UN-02.md', (text) =>
      text.replace('title: ""', 'title: Reach').replace('needed_by: []', 'needed_by: [dental surgeon]'),
    );
    const before = runPlinth(folder, ['check']);
    expect(before.out).toContain('UN-01 "One-handed dosing" has no design input');
    expect(runPlinth(folder, ['new', 'design-input', '--title', 'Squeeze force']).code).toBe(0);
    edit('content/design-inputs/DI-01.md', (text) =>
      text
        .replace('derives_from: []', 'derives_from: [UN-01, UN-02]')
        .replace('limits: []', 'limits:\n  - { characteristic: squeeze force, unit: N, upper: 25 }')
        .replace('method: []', 'method: [test]'),
    );
    const after = runPlinth(folder, ['check']);
    expect(after.out).not.toContain('has no design input');
    expect(after.out).toContain('DI-01');
  });

  test('a misspelt link is found with the nearest id and the place', () => {
    edit('content/design-inputs/DI-01.md', (text) =>
      text.replace('derives_from: [UN-01, UN-02]', 'derives_from: [UN-01, UN-03]'),
    );
    const checked = runPlinth(folder, ['check']);
    expect(checked.out).toContain('DI-01 derives from UN-03, which does not exist');
    expect(checked.out).toMatch(/content\/design-inputs\/DI-01\.md:\d+:23 {2}error {2}unknown-link-target/);
    edit('content/design-inputs/DI-01.md', (text) => text.replace('UN-03', 'UN-02'));
  });

  test('a misspelt field is found with the nearest name', () => {
    edit('content/design-inputs/DI-01.md', (text) => text.replace('\nmethod: [test]', '\nmetod: [test]'));
    const checked = runPlinth(folder, ['check']);
    expect(checked.out).toContain('unknown field "metod"');
    expect(checked.out).toContain('Did you mean "method"?');
    edit('content/design-inputs/DI-01.md', (text) => text.replace('\nmetod: [test]', '\nmethod: [test]'));
  });

  test('a protocol can be added, broken and mended', () => {
    expect(runPlinth(folder, ['new', 'VP', '--title', 'Squeeze force, fresh']).out).toContain(
      'verification-protocols/VP-01.md',
    );
    edit('content/verification-protocols/VP-01.md', (text) =>
      text
        .replace('verifies: []', 'verifies: [DI-01]')
        .replace('\nmethod:', '\nmethod: test')
        .replace('condition: ""', 'condition: fresh')
        .replace('acceptance: []', 'acceptance:\n  - { characteristic: squeeze force, unit: mm, upper: 25 }')
        .replace(
          'kind: ""',
          'kind: normal-tolerance-interval\n  confidence: 0.95\n  reliability: 0.90\n  size: 30',
        )
        .replace('rationale: ""', 'rationale: "Variables plan."'),
    );
    const broken = runPlinth(folder, ['check']);
    expect(broken.out).toContain('VP-01');
    expect(broken.out).toMatch(/acceptance-unit-not-convertible/);
    edit('content/verification-protocols/VP-01.md', (text) => text.replace('unit: mm', 'unit: N'));
    expect(runPlinth(folder, ['check']).out).not.toMatch(/acceptance-unit-not-convertible {2}\n/);
  });

  test('build writes the documents', () => {
    const built = runPlinth(folder, ['build']);
    expect(built.out).toContain('build/DOC-04-design-trace-matrix.docx');
    for (const name of [
      'DOC-04-design-trace-matrix.docx',
      'DOC-04-design-trace-matrix.html',
      'DOC-04-matrix.csv',
      'DOC-10-design-and-development-file-index.docx',
      'DOC-01-design-plan.docx',
      'DOC-03-design-output-index.docx',
      'DOC-07-design-validation-report.docx',
      'DOC-11-risk-management-plan.docx',
      'DOC-13-risk-management-report.docx',
      'DOC-15-general-safety-and-performance-requirements.docx',
      'DOC-15-general-safety-and-performance-requirements.html',
    ])
      expect(existsSync(join(folder, 'build', name)), name).toBe(true);
    // The requirements are drawn row by row, before anybody has answered one.
    const requirements = readFileSync(
      join(folder, 'build/DOC-15-general-safety-and-performance-requirements.html'),
      'utf8',
    );
    expect(requirements).toContain('Chapter III: Information supplied with the device');
    expect(requirements).toContain('not answered');
    // What nobody has written is found, and is seen in the document.
    expect(built.out).toContain('DOC-07 still has the placeholder Write: which lots');
    // The default set is whole: what gathers one matter from the whole file is there too.
    for (const name of [
      'DOC-21-standards-applied.docx',
      'DOC-22-usability-summary.docx',
      'DOC-23-evidence-report.docx',
      'DOC-24-approvals-and-signature-pages.docx',
    ])
      expect(existsSync(join(folder, 'build', name)), name).toBe(true);
    expect(readFileSync(join(folder, 'build/DOC-04-matrix.csv'), 'utf8')).toContain(
      'UN-01 One-handed dosing',
    );
  });
});

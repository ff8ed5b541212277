import { describe, expect, test } from 'vitest';
import { checks } from '../../src/checks/index.ts';
import { commands } from '../../src/cli/commands.ts';
import { markdownCodes } from '../../src/document/markdown-findings.ts';
import { calculations } from '../../src/evidence/calculations/index.ts';
import { evidenceCodes } from '../../src/evidence/evidence-findings.ts';
import { evidenceMethods } from '../../src/evidence/methods/index.ts';
import { studies } from '../../src/evidence/studies/index.ts';
import { readingCodes } from '../../src/records/reading-findings.ts';
import { documentCodes } from '../../src/views/document-findings.ts';
import { views } from '../../src/views/index.ts';
import { projectRoot } from '../support/technical-file.ts';
import { runPlinth } from './run-plinth.ts';

const tooWide = (text: string): readonly string[] => text.split('\n').filter((line) => [...line].length > 80);

describe('help', () => {
  test('names every command, fits 80 columns and carries the caution', () => {
    const { out, code } = runPlinth(projectRoot, ['--help']);
    expect(code).toBe(0);
    for (const command of commands) expect(out).toContain(`  ${command.name} `);
    expect(out).toContain('never says that a device is safe');
    expect(tooWide(out)).toEqual([]);
  });

  test.each(commands.map((command) => [command.name, command] as const))(
    '%s --help names its options',
    (name, command) => {
      const { out, code } = runPlinth(projectRoot, [name, '--help']);
      expect(code).toBe(0);
      for (const option of command.options) expect(out).toContain(`--${option.name}`);
      expect(tooWide(out)).toEqual([]);
    },
  );

  test('without a command it shows the help and exits with 2', () => {
    expect(runPlinth(projectRoot, [])).toMatchObject({ code: 2 });
  });

  test('--version is that of package.json', () => {
    expect(runPlinth(projectRoot, ['--version']).out).toMatch(/^\d+\.\d+\.\d+\n$/);
  });
});

describe('explain', () => {
  const list = runPlinth(projectRoot, ['explain']).out;
  const names = [
    ...checks.map((check) => check.code),
    ...[readingCodes, evidenceCodes, documentCodes, markdownCodes].flatMap(Object.keys),
    ...[...evidenceMethods, ...calculations, ...studies].map((each) => each.name),
    ...views.map((view) => view.name),
  ];

  test('lists everything that can be explained, each name once', () => {
    for (const name of names) expect(list).toMatch(new RegExp(`^  ${name} `, 'm'));
    expect(new Set(names).size).toBe(names.length);
    expect(tooWide(list)).toEqual([]);
  });

  test.each([
    'need-without-input',
    'duplicate-id',
    'normal-tolerance-interval',
    'design-input',
    'trace-matrix',
    'raw-html',
    'clause-tables',
    'deficiency-questions',
  ])('%s', (name) => {
    const { out, code } = runPlinth(projectRoot, ['explain', name]);
    expect(code).toBe(0);
    expect(out.split('\n').length).toBeGreaterThan(4);
    expect(tooWide(out)).toEqual([]);
  });
});

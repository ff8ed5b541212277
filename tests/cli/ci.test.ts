import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { commands } from '../../src/cli/commands.ts';
import { commitAll, git, put } from '../support/real-git.ts';
import { projectRoot, readTree } from '../support/technical-file.ts';
import { emptyFolder, runPlinth } from './run-plinth.ts';

const need = (id: string) =>
  `---\nid: ${id}\ntype: user-need\ntitle: One-handed dosing\nstatus: draft\nneeded_by: [dental surgeon]\n---\nA need.\n\n## Rationale\n\nWhy.\n`;

describe('the forms for CI, in a repository', () => {
  const top = emptyFolder();
  const file = join(top, 'device/file/UN-01.md');
  put(top, 'device/file/plinth.yaml', 'device: { name: Applicator, maker: Harrow Lane Instruments }\n');
  put(top, 'device/file/UN-01.md', need('UN-01'));
  git(top, ['init', '-q']);
  commitAll(top, 'Begin');
  const check = (...words: readonly string[]) => runPlinth(join(top, 'device'), ['check', 'file', ...words]);

  test('give paths from the root of the repository', () => {
    expect(check('--format', 'github').out).toContain('::error file=device/file/UN-01.md,line=2,');
    expect(JSON.parse(check('--format', 'gitlab').out)[0].location.path).toBe('device/file/UN-01.md');
    expect(check('--format', 'sarif').out).toContain('"uri": "device/file/UN-01.md"');
    expect(check('--format', 'junit').out).toContain('device/file/UN-01.md:2:5 error');
    expect(JSON.parse(check('--format', 'json').out).folder).toBe('device/file');
  });

  test('give the exit code of the level, in every form', () => {
    for (const form of ['text', 'json', 'sarif', 'junit', 'github', 'gitlab']) {
      expect(check('--format', form).code, form).toBe(1);
      expect(check('--format', form).error, form).toBe('');
    }
    put(top, 'device/quiet/plinth.yaml', 'device: { name: Applicator, maker: Harrow Lane Instruments }\n');
    put(
      top,
      'device/quiet/EQ-01.md',
      '---\nid: EQ-01\ntype: equipment\ntitle: Gauge\nstatus: draft\ntag: FG-1\ncalibrations:\n  - { certificate: C-1, from: 2025-01-01, to: 2026-01-01 }\n---\nTODO\n',
    );
    const quiet = (level: string) =>
      runPlinth(join(top, 'device'), ['check', 'quiet', '--fail-on', level]).code;
    expect([quiet('error'), quiet('warning'), quiet('note')]).toEqual([0, 1, 1]);
  });

  test('fail only on what is new since a revision', () => {
    const before = check('--new-since', 'HEAD', '--format', 'json');
    expect(before.code).toBe(0);
    expect(JSON.parse(before.out).counts).toMatchObject({ error: 1, new: 0 });
    // The known finding moves down a line; that does not make it new.
    writeFileSync(file, readFileSync(file, 'utf8').replace('---\nid', '---\n# moved\nid'));
    expect(check('--new-since', 'HEAD').code).toBe(0);
    put(top, 'device/file/UN-02.md', need('UN-02'));
    const after = check('--new-since', 'HEAD', '--format', 'json');
    expect(after.code).toBe(1);
    const fresh = (
      JSON.parse(after.out) as { findings: { new: boolean; records: string[] }[] }
    ).findings.filter((each) => each.new);
    expect(new Set(fresh.map((each) => each.records[0]))).toEqual(new Set(['UN-02']));
    expect(check('--new-since', 'HEAD').out).toMatch(/UN-02\.md:2:5 {2}error {2}need-without-input {2}new/);
    expect(check('--new-since', 'no-such').code).toBe(2);
  });
});

describe('the JSON forms on the demonstration file', () => {
  const top = emptyFolder();
  for (const [path, bytes] of readTree('content')) put(top, `content/${path}`, bytes);
  git(top, ['init', '-q']);
  commitAll(top, 'Begin');
  const output = join(top, 'content/design-outputs/DO-04.md');
  writeFileSync(
    output,
    readFileSync(output, 'utf8').replace('nominal: 0.42, plus: 0.05', 'nominal: 0.42, plus: 0.12'),
  );

  test.each([
    ['report', ['check', '--format', 'json']],
    ['report', ['build', '--format', 'json', '--only', 'DOC-06']],
    ['impact', ['impact', '--format', 'json', '--change', 'DC-01']],
    ['vouch', ['vouch', '--sample', '2', '--format', 'json']],
  ] as const)('%s meets its schema: %j', (name, words) => {
    const schema = JSON.parse(readFileSync(join(projectRoot, `schemas/outputs/${name}.schema.json`), 'utf8'));
    const validate = new Ajv2020({ strict: false }).compile(schema);
    expect(validate(JSON.parse(runPlinth(top, words).out)), JSON.stringify(validate.errors)).toBe(true);
  });
});

test('the workflow files of the README are YAML, and their commands are ours with options that exist', () => {
  const readme = readFileSync(join(projectRoot, 'README.md'), 'utf8');
  const files = [...readme.matchAll(/```yaml\n([\s\S]*?)```/g)].map((match) => match[1] ?? '');
  const workflows = files.filter((text) => text.includes('plinth.js'));
  expect(workflows).toHaveLength(2);
  const scripts = JSON.parse(readFileSync(join(projectRoot, 'package.json'), 'utf8')).scripts as Record<
    string,
    string
  >;
  for (const workflow of workflows) {
    expect(parse(workflow)).toBeTruthy();
    for (const [, script = ''] of workflow.matchAll(/npm run (\w+) --prefix/g))
      expect(scripts).toHaveProperty(script);
    const calls = [...workflow.matchAll(/plinth\.js (\w+)([^\n>|]*)/g)];
    expect(calls.length).toBeGreaterThan(2);
    for (const [, name, rest = ''] of calls) {
      const command = commands.find((each) => each.name === name);
      expect(command, name).toBeDefined();
      for (const [, option, value] of rest.matchAll(/--([\w-]+) (\S+)/g)) {
        const known = command?.options.find((each) => each.name === option);
        expect(known, `${name} --${option}`).toBeDefined();
        if (known?.choices) expect(known.choices).toContain(value);
      }
    }
  }
});

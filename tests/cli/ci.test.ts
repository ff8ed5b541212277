import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
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
    expect(check('--new-since', 'HEAD', '--format', 'junit').out).toMatch(/failures="[1-9]/);
  });

  test('tell what is gone since a revision', () => {
    commitAll(top, 'Add a need');
    put(top, 'device/file/UN-02.md', need('UN-02').replace('status: draft', 'status: retired'));
    const { code, out } = check('--new-since', 'HEAD', '--format', 'json');
    const report = JSON.parse(out) as {
      counts: { new: number; gone: number };
      gone: { records: string[] }[];
    };
    expect([code, report.counts.new]).toEqual([0, 0]);
    expect(report.counts.gone).toBeGreaterThan(0);
    expect(new Set(report.gone.map((each) => each.records[0]))).toEqual(new Set(['UN-02']));
    const log = JSON.parse(check('--new-since', 'HEAD', '--format', 'sarif').out);
    expect(
      log.runs[0].results.filter((each: { baselineState: string }) => each.baselineState === 'absent'),
    ).toHaveLength(report.counts.gone);
    expect(check('--new-since', 'HEAD').out).toMatch(/0 new, \d+ gone\n$/);
  });

  test('weigh waivers of both states', () => {
    const project = 'device: { name: Applicator, maker: Harrow Lane Instruments }\n';
    const accepted = `${project}waivers:\n  - { code: need-without-input, record: UN-01, reason: "Planned, & agreed.", role: quality lead, date: 2026-01-01, expires: 2026-12-31 }\n`;
    const changes = () => {
      const { code, out } = check('--new-since', 'HEAD', '--format', 'json', '--as-of', '2026-06-01');
      const { counts } = JSON.parse(out) as { counts: Record<string, number> };
      return { code, fresh: counts['new'], gone: counts['gone'], waived: counts['waived'] };
    };
    commitAll(top, 'Retire a need');
    put(top, 'device/file/plinth.yaml', accepted);
    expect(changes()).toEqual({ code: 0, fresh: 0, gone: 0, waived: 1 });
    commitAll(top, 'Accept a finding');
    expect(changes()).toEqual({ code: 0, fresh: 0, gone: 0, waived: 1 });
    put(top, 'device/file/plinth.yaml', project);
    expect(changes()).toEqual({ code: 1, fresh: 1, gone: 0, waived: 0 });
  });

  test('look at the history in both states', () => {
    put(
      top,
      'device/file/plinth.yaml',
      'device: { name: Applicator, maker: Harrow Lane Instruments }\nsignatures: { since: 2026-01-01, people: [{ name: Brede Falkonet, signer: brede@example.com, roles: [quality lead] }] }\n',
    );
    commitAll(top, 'Ask for signatures');
    const { code, out } = check('--new-since', 'HEAD', '--format', 'json');
    const report = JSON.parse(out) as { counts: object; findings: { code: string }[] };
    expect(report.findings.map((each) => each.code)).toContain('signatures-not-checked');
    expect(report.counts).toMatchObject({ new: 0, gone: 0 });
    expect(code).toBe(0);
  });
});

describe('hostile names and texts', () => {
  const top = emptyFolder();
  const name = 'a,b: 100%25 ]]>&\n::error::x\u001b[31m.md';
  put(top, 'content/plinth.yaml', 'device: { name: Applicator, maker: Harrow Lane Instruments }\n');
  put(
    top,
    `content/${name}`,
    '---\nid: UN-01\ntype: user-need\ntitle: T\nstatus: "]]> & \\e[31m\\r\\n::error::y"\nneeded_by: [x]\n---\n',
  );
  git(top, ['init', '-q']);
  const run = (format: string) => runPlinth(top, ['check', '--format', format]);

  test('reach neither the terminal as control characters nor the runner as commands', () => {
    for (const format of ['sarif', 'junit', 'github', 'gitlab', 'json']) {
      const { out, code, error } = run(format);
      expect([code, error], format).toEqual([1, '']);
      // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for.
      expect(out, format).not.toMatch(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/);
      // The same file gives the same bytes.
      expect(run(format).out).toBe(out);
    }
    const lines = run('github').out.trimEnd().split('\n');
    for (const line of lines.slice(0, -1))
      expect(line).toMatch(/^::(error|warning|notice) file=content\/(a%2Cb%3A 100%2525 |plinth\.yaml)/);
  });

  test('stay what they are where the form allows it', () => {
    const { uri } = JSON.parse(run('sarif').out).runs[0].results.find(
      (each: { ruleId: string }) => each.ruleId === 'wrong-value',
    ).locations[0].physicalLocation.artifactLocation;
    expect(decodeURIComponent(uri)).toBe(`content/${name}`);
    const entry = JSON.parse(run('gitlab').out).find(
      (each: { check_name: string }) => each.check_name === 'wrong-value',
    );
    expect(entry.location.path).toBe(`content/${name}`);
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

describe('the workflow files of the README', () => {
  const readme = readFileSync(join(projectRoot, 'README.md'), 'utf8');
  const workflows = [...readme.matchAll(/```yaml\n([\s\S]*?)```/g)]
    .map((match) => match[1] ?? '')
    .filter((text) => text.includes('plinth.js'))
    .map((text): unknown => parse(text));
  const [github, gitlab] = workflows as [
    { jobs: { check: { steps: { uses?: string; run?: string }[] } } },
    {
      'technical-file': { script: string[]; artifacts: { paths: string[]; reports: Record<string, string> } };
    },
  ];
  const hasJq = spawnSync('jq', ['--version']).error === undefined;
  const install = 'npm ci --prefix plinth && npm run bundle --prefix plinth';

  const top = emptyFolder();
  // A new technical file has nothing wrong in it yet.
  runPlinth(top, ['start']);
  git(top, ['init', '-q']);
  git(top, ['update-ref', 'refs/remotes/origin/main', commitAll(top, 'Begin')]);
  mkdirSync(join(top, 'plinth/build'), { recursive: true });
  symlinkSync(dirname(process.env['PLINTH_UNDER_TEST'] ?? ''), join(top, 'plinth/build/cli'));
  /** Runs a line as the service does; where there is no jq, without that part of it. */
  const run = (shell: readonly string[], line: string) => {
    const [program = '', ...words] = shell;
    const command = hasJq ? line : line.replace(/\| jq '[^']*'/, '');
    const { status, stderr } = spawnSync(program, [...words, command], { cwd: top, encoding: 'utf8' });
    expect([status, stderr], line).toEqual([0, '']);
  };
  const written = (path: string): string => readFileSync(join(top, path), 'utf8');

  test('begin with lines that install and bundle', () => {
    expect(workflows).toHaveLength(2);
    const { scripts } = JSON.parse(readFileSync(join(projectRoot, 'package.json'), 'utf8'));
    expect(scripts).toHaveProperty('bundle');
    expect(github.jobs.check.steps.find((step) => step.run)?.run).toBe(install);
    expect(gitlab['technical-file'].script[0]).toBe(install);
  });

  test('run on GitHub', () => {
    const lines = github.jobs.check.steps.flatMap((step) => step.run ?? []).slice(1);
    expect(lines.length).toBeGreaterThan(3);
    for (const line of lines) run(['bash', '-e', '-c'], line);
    expect(JSON.parse(written('plinth.sarif')).version).toBe('2.1.0');
    expect(readdirSync(join(top, 'build/documents')).length).toBeGreaterThan(0);
    expect(readdirSync(join(top, 'build')).filter((file) => file.endsWith('.docx'))).toHaveLength(1);
  });

  test('run on GitLab, and name the files that they write', () => {
    const { script, artifacts } = gitlab['technical-file'];
    expect(script.length).toBeGreaterThan(3);
    for (const line of script.slice(1)) run(['sh', '-e', '-c'], line);
    expect(Array.isArray(JSON.parse(written(artifacts.reports['codequality'] ?? '')))).toBe(true);
    expect(written(artifacts.reports['junit'] ?? '')).toMatch(/failures="0"/);
    for (const path of artifacts.paths) expect(existsSync(join(top, path))).toBe(true);
  });

  test.skipIf(!hasJq)('leave accepted findings out of what is uploaded (needs jq)', () => {
    const filter = github.jobs.check.steps
      .map((step) => /jq '([^']+)'/.exec(step.run ?? '')?.[1])
      .find(Boolean);
    const log = { runs: [{ results: [{ ruleId: 'a' }, { ruleId: 'b', suppressions: [{}] }] }] };
    const { stdout } = spawnSync('jq', [filter ?? ''], { input: JSON.stringify(log), encoding: 'utf8' });
    expect(JSON.parse(stdout)).toEqual({ runs: [{ results: [{ ruleId: 'a' }] }] });
  });
});

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { put } from '../support/real-git.ts';
import { emptyFolder, runPlinth } from './run-plinth.ts';

const need =
  '---\nid: UN-01\ntype: user-need\ntitle: One-handed dosing\nstatus: approved\nneeded_by: [dental surgeon]\n---\nA need.\n\n## Rationale\n\nWhy.\n';
const document =
  '---\nid: DOC-01\ntype: document\ntitle: Matrix\nstatus: draft\nrevision: "1"\n---\n\n```plinth no-such-view\n```\n';
const waiver = (code: string, record: string) => `
  - code: ${code}
    record: ${record}
    reason: Being written.
    role: quality lead
    date: 2026-05-01
    expires: 2026-12-31`;

const checked = (more: string) => {
  const top = emptyFolder();
  put(top, 'content/plinth.yaml', `device: { name: Applicator, maker: Harrow Lane Instruments }\n${more}\n`);
  put(top, 'content/UN-01.md', need);
  put(top, 'content/DOC-01.md', document);
  const { out, code } = runPlinth(top, ['check', '--as-of', '2026-11-20', '--format', 'json']);
  const report = JSON.parse(out) as {
    findings: { code: string; level: string; records: string[] }[];
    waived: { finding: { code: string } }[];
  };
  return {
    code,
    found: report.findings.map((each) => `${each.level} ${each.code} ${each.records[0] ?? '-'}`).sort(),
    waived: report.waived.map((each) => each.finding.code).sort(),
  };
};

describe('waivers over the whole report', () => {
  const plain = checked('');

  test('set findings of records and of documents apart', () => {
    expect(plain.found).toEqual([
      'error need-without-input UN-01',
      'error unknown-view DOC-01',
      'warning need-without-validation UN-01',
    ]);
    const { found, waived, code } = checked(
      `waivers:${waiver('need-without-input', 'UN-01')}${waiver('unknown-view', 'DOC-01')}`,
    );
    expect(waived).toEqual(['need-without-input', 'unknown-view']);
    expect(found).toEqual(['warning need-without-validation UN-01']);
    expect(code).toBe(0);
  });

  test('that meet nothing are told, whatever stage they wait for', () => {
    const { found } = checked(`waivers:${waiver('single-lot', 'UN-01')}${waiver('empty-view', 'DOC-01')}`);
    expect(found).toContain('warning waiver-idle UN-01');
    expect(checked(`waivers:${waiver('need-without-input', 'UN-01')}`).found).not.toContain(
      'warning waiver-idle UN-01',
    );
  });

  test('that name what does not exist are told once', () => {
    const { found } = checked(
      `waivers:${waiver('need-without-inputs', 'UN-01')}${waiver('single-lot', 'VR-99')}`,
    );
    expect(found.filter((each) => each.includes('waiver'))).toEqual([
      'error waiver-unknown -',
      'error waiver-unknown -',
    ]);
  });

  test('are not called idle where their document was left out of a build', () => {
    const top = emptyFolder();
    const second = document.replace('DOC-01', 'DOC-02').replace('no-such-view', 'file-index');
    put(
      top,
      'content/plinth.yaml',
      `device: { name: Applicator, maker: Harrow Lane Instruments }\nwaivers:${waiver('unknown-view', 'DOC-01')}\n`,
    );
    put(top, 'content/UN-01.md', need);
    put(top, 'content/DOC-01.md', document);
    put(top, 'content/DOC-02.md', second);
    const idle = (...more: readonly string[]) =>
      runPlinth(top, ['build', '--as-of', '2026-11-20', ...more]).out.includes('waiver-idle');
    expect(idle()).toBe(false);
    expect(idle('--only', 'DOC-02')).toBe(false);
    put(top, 'content/DOC-01.md', document.replace('no-such-view', 'file-index'));
    expect(idle('--only', 'DOC-02')).toBe(false);
    expect(idle()).toBe(true);
  });
});

describe('the rules that "plinth start" lays down as comments', () => {
  /** plinth.yaml as laid down, with the marks before rules and levels taken away. */
  const opened = (): string => {
    const top = emptyFolder();
    runPlinth(top, ['start']);
    const text = readFileSync(join(top, 'content/plinth.yaml'), 'utf8');
    return text.replace(/^# (trace_rules:|tighten:| {2}- \{ (?:name|code): )/gm, '$1');
  };

  test('can be used as they are, and each has a clause', () => {
    const text = opened();
    const fields = parse(text) as { trace_rules: { clause?: string }[]; tighten: unknown[] };
    expect(fields.trace_rules.length).toBeGreaterThan(3);
    expect(fields.tighten).toHaveLength(1);
    for (const rule of fields.trace_rules) expect(rule.clause).toMatch(/^ISO 13485:2016 7\.3\.\d+$/);
    const top = emptyFolder();
    put(top, 'plinth.yaml', text);
    put(
      top,
      'DI-01.md',
      '---\nid: DI-01\ntype: design-input\ntitle: Force\nstatus: approved\nderives_from: []\nlimits: [{ characteristic: force, unit: N, upper: 25 }]\nmethod: [test]\n---\nLow.\n\n## Rationale\n\nWhy.\n',
    );
    const { out } = runPlinth(top, ['check', '--as-of', '2026-11-20', '--format', 'json']);
    const codes = (JSON.parse(out) as { findings: { code: string; message: string }[] }).findings;
    expect(
      codes.filter(({ code }) =>
        /^(trace-rule-unusable|tightening-without|wrong-value|unknown-field)/.test(code),
      ),
    ).toEqual([]);
    expect(codes.find(({ code }) => code === 'trace-rule-not-met')?.message).toContain(
      'ISO 13485:2016 7.3.3',
    );
  });
});

describe('tightened levels', () => {
  test('raise the level of a finding, for the types and statuses named', () => {
    expect(
      checked(
        'tighten: [{ code: need-without-validation, level: error, types: [user-need], statuses: [approved] }]',
      ).found,
    ).toContain('error need-without-validation UN-01');
    for (const narrow of ['types: [design-input]', 'statuses: [draft]'])
      expect(
        checked(`tighten: [{ code: need-without-validation, level: error, ${narrow} }]`).found,
      ).toContain('warning need-without-validation UN-01');
  });

  test('never lower one', () => {
    const { found } = checked('tighten: [{ code: need-without-input, level: warning }]');
    expect(found).toContain('error need-without-input UN-01');
    expect(found).toContain('warning tightening-without-effect -');
  });
});

import { describe, expect, test } from 'vitest';
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

import { describe, expect, test } from 'vitest';
import type { Finding } from '../../src/findings/finding.ts';
import { fingerprint } from '../../src/findings/fingerprint.ts';
import type { MachineReport } from '../../src/writers/machine-report.ts';
import { writeReportJson } from '../../src/writers/report-json/write-report-json.ts';
import type { ReportContent } from '../../src/writers/report-text/write-report-text.ts';

const finding: Finding = {
  code: 'need-without-input',
  level: 'error',
  place: { file: 'needs/UN-01.md', line: 2, column: 5, endLine: 2, endColumn: 10 },
  message: 'UN-01 has no "design input"\u001b[31m\u2028',
  hint: 'Add one.',
  records: ['UN-01'],
  related: [{ place: { file: 'plinth.yaml', line: 3, column: 1 }, message: 'the wording' }],
  data: { lots: 1 },
};

const content: ReportContent = {
  findings: [finding, { ...finding, level: 'note' }],
  waived: [
    {
      finding: { ...finding, level: 'warning' },
      waiver: {
        code: 'need-without-input',
        record: 'UN-01',
        reason: 'Planned.',
        role: 'quality lead',
        date: '2026-01-01',
        expires: '2026-12-31',
      },
    },
  ],
  recordCount: 7,
  unsound: 2,
  asOf: '2026-11-20',
  verdicts: { pass: 1, fail: 2, undecided: 3 },
  standing: [
    {
      type: 'User needs',
      counts: [
        ['passed', 4],
        ['unplanned', 1],
      ],
    },
  ],
  checks: [{ code: 'need-without-input', examines: 'needs', examined: 5, found: 1 }],
};

const machine: MachineReport = {
  content,
  prefix: 'content',
  toolVersion: '0.0.0-test',
  rules: new Map(),
  printOf: () => '',
  failOn: 'error',
};

describe('the report for machines', () => {
  const text = writeReportJson(machine);
  const report = JSON.parse(text);

  test('has a name and a version of its form, and says what was examined', () => {
    expect(report).toMatchObject({
      form: 'plinth-report',
      version: 1,
      asOf: '2026-11-20',
      records: 7,
      recordsNotJudged: 2,
      verdicts: { pass: 1, fail: 2, undecided: 3 },
      standing: { 'User needs': { passed: 4, unplanned: 1 } },
      checks: [{ code: 'need-without-input', examined: 5, found: 1 }],
    });
  });

  test('counts what stands apart from what is waived', () => {
    expect(report.counts).toEqual({ error: 1, warning: 0, note: 1, waived: 1 });
    expect(report.waived[0].waiver).toMatchObject({ reason: 'Planned.', expires: '2026-12-31' });
    expect(report.waived[0].finding.level).toBe('warning');
  });

  test('holds each finding in full, with what identifies it', () => {
    expect(report.findings[0]).toEqual({ ...finding, fingerprint: fingerprint(finding) });
  });

  test('is the same for the same content, ends its last line, and holds no bare control character', () => {
    expect(writeReportJson(machine)).toBe(text);
    expect(text.endsWith('}\n')).toBe(true);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for.
    expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f]/);
  });

  test('takes further fields of a command at its end', () => {
    const more = JSON.parse(writeReportJson(machine, { documents: ['a.docx'] }));
    expect(more).toEqual({ ...report, documents: ['a.docx'] });
  });
});

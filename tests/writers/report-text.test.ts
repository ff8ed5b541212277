import stringWidth from 'string-width';
import { describe, expect, test } from 'vitest';
import type { Finding } from '../../src/findings/finding.ts';
import { excerptOf } from '../../src/writers/report-text/excerpt.ts';
import { folded } from '../../src/writers/report-text/folded.ts';
import { printable } from '../../src/writers/report-text/printable.ts';
import { type ReportContent, writeReportText } from '../../src/writers/report-text/write-report-text.ts';

const finding: Finding = {
  code: 'need-without-input',
  level: 'error',
  place: { file: 'needs/UN-01.md', line: 2, column: 5, endLine: 2, endColumn: 10 },
  message: 'UN-01 "Dosing with one hand, without shifting the grip on the lever" has no design input',
  hint: 'Add a design input with "derives_from: [UN-01]" (plinth new design-input).',
  records: ['UN-01'],
  related: [{ place: { file: 'plinth.yaml', line: 3, column: 1 }, message: 'the wording' }],
};

const content: ReportContent = {
  findings: [finding],
  waived: [
    {
      finding: { ...finding, code: 'single-lot', level: 'warning' },
      waiver: {
        code: 'single-lot',
        record: 'UN-01',
        reason: 'One shipment.',
        role: 'quality lead',
        date: '2026-01-01',
        expires: '2026-12-31',
      },
    },
  ],
  recordCount: 1,
  unsound: 2,
  asOf: '2026-11-20',
  verdicts: { pass: 1, fail: 0, undecided: 0 },
  standing: [{ type: 'User needs', counts: [['unplanned', 1]] }],
  checks: [
    {
      code: 'need-without-input',
      examines: 'user needs that are not retired, counted one by one',
      examined: 1,
      found: 1,
    },
    { code: 'vague-wording', examines: 'design inputs', examined: 0, found: 0 },
  ],
};

const write = (width: number, more: Partial<ReportContent> = {}, line = 'id: UN-01'): string =>
  writeReportText({ ...content, ...more }, { width, colour: false, folder: 'content', lineOf: () => line });

describe('the report for the terminal', () => {
  test('shows place, level, code, excerpt, related places and what to do', () => {
    expect(write(80)).toContain(
      `content/needs/UN-01.md:2:5  error  need-without-input
  UN-01 "Dosing with one hand, without shifting the grip on the lever" has no
    design input
    id: UN-01
        ~~~~~
  see plinth.yaml:3: the wording
  do: Add a design input with "derives_from: [UN-01]" (plinth new design-input).
`,
    );
  });

  test('says what was examined, what was not, what is waived, and counts in words', () => {
    const text = write(80);
    expect(text).toContain('need-without-input     1 user needs that are not retired');
    expect(text).toContain('Nothing to examine for: vague-wording.');
    expect(text).toContain('UN-01 single-lot: One shipment. (quality lead, until 2026-12-31)');
    expect(text).toContain('2 records could not be judged: they do not meet the schema');
    expect(text.trimEnd().split('\n').slice(-2)).toEqual([
      '1 record, 2 checks, as of 2026-11-20:',
      '1 error, 0 warnings, 0 notes, 1 waived',
    ]);
  });

  test.each([80, 60, 40])('fits %i columns', (width) => {
    for (const line of write(width).split('\n'))
      if (line.trim().includes(' ')) expect(stringWidth(line), line).toBeLessThanOrEqual(Math.max(width, 57));
  });

  test('lets no control character of the content reach the terminal', () => {
    const evil = 'a\u001b[31mred\u0007\u202e\u2028 b\tc\r\n';
    const text = write(
      80,
      {
        findings: [
          {
            ...finding,
            message: evil,
            hint: evil,
            place: { ...finding.place, file: evil },
            related: [{ place: finding.place, message: evil }],
          },
        ],
      },
      evil,
    );
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for.
    expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2028]/);
  });
});

describe('the excerpt', () => {
  test('marks the place below wide characters', () => {
    const { line, before, marks } = excerptOf('µ 針 DI-07 x', 5, 10, 76);
    expect(line).toBe('µ 針 DI-07 x');
    expect(stringWidth(before)).toBe(stringWidth('µ 針 '));
    expect(marks).toBe('~~~~~');
  });

  test('cuts a long line around the place', () => {
    const source = `${'x'.repeat(500)}HERE${'y'.repeat(500)}`;
    const { line, before, marks } = excerptOf(source, 501, 505, 60);
    expect(stringWidth(line)).toBeLessThanOrEqual(60);
    expect(line.slice(before.length, before.length + marks.length)).toBe('HERE');
  });
});

test('folding keeps every word and the width', () => {
  const text = 'one two three four five six seven eight nine ten';
  const lines = folded(text, 20, '  ');
  expect(lines.join(' ').split(/\s+/).filter(Boolean).join(' ')).toBe(text);
  for (const line of lines) expect(line.length).toBeLessThanOrEqual(20);
});

test('printable text keeps letters of every script', () => {
  expect(printable('Grün 針 30 µm ≤ 5 °C')).toBe('Grün 針 30 µm ≤ 5 °C');
});

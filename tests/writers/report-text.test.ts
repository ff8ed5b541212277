import fc from 'fast-check';
import stringWidth from 'string-width';
import { describe, expect, test } from 'vitest';
import type { Finding } from '../../src/findings/finding.ts';
import { excerptOf } from '../../src/writers/report-text/excerpt.ts';
import { folded } from '../../src/writers/report-text/folded.ts';
import { printable } from '../../src/writers/report-text/printable.ts';
import { type ReportContent, writeReportText } from '../../src/writers/report-text/write-report-text.ts';
import { processorMilliseconds } from '../support/processor-time.ts';

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
  see content/plinth.yaml:3: the wording
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

  /** Lines that are too wide though they could have been broken. */
  const tooWide = (text: string, width: number): readonly string[] =>
    text
      .split('\n')
      .filter((line) => stringWidth(line) > width && (line.trim().includes(' ') || line.includes('\u001b')));

  test.each([120, 80, 60, 40])('fits %i columns but for words that cannot be broken', (width) => {
    const states = ['passed', 'planned', 'unplanned', 'in doubt', 'failed'].map(
      (state) => [state, 120] as const,
    );
    const many = write(
      width,
      {
        findings: Array.from({ length: 3_000 }, () => finding),
        standing: [
          { type: 'User needs', counts: states },
          { type: 'Verification protocols', counts: states },
        ],
        recordCount: 123_456,
        unsound: 12_345,
      },
      '針'.repeat(300),
    );
    expect(tooWide(many, width)).toEqual([]);
    expect(many).toContain('unplanned');
  });

  test('puts level and code below a path that leaves no room for them', () => {
    expect(write(40)).toContain('\ncontent/needs/UN-01.md:2:5\n  error  need-without-input\n');
    expect(write(80)).toContain('\ncontent/needs/UN-01.md:2:5  error  need-without-input\n');
  });

  test('names paths from where the user is', () => {
    const here = writeReportText(content, {
      width: 80,
      colour: false,
      folder: '.',
      lineOf: () => undefined,
    });
    expect(here).toContain('\nneeds/UN-01.md:2:5  error');
    expect(here).toContain('\n  see plinth.yaml:3: the wording');
  });

  test('says how many more places there are instead of listing hundreds', () => {
    const related = Array.from({ length: 15 }, (_, index) => ({
      place: { file: 'a.md', line: index + 1, column: 1 },
      message: 'here too',
    }));
    const text = write(80, { findings: [{ ...finding, related }] });
    expect(text.match(/here too/g)).toHaveLength(12);
    expect(text).toContain('  and 3 more places\n');
  });

  test('counts one and many', () => {
    const closing = (level: 'error' | 'note', count: number): string =>
      write(80, {
        findings: Array.from({ length: count }, () => ({ ...finding, level })),
        waived: [],
        unsound: count,
        recordCount: count,
      });
    expect(closing('error', 1)).toContain('1 error, 0 warnings, 0 notes\n');
    expect(closing('error', 1)).toContain('1 record could not be judged: it does not meet the schema');
    expect(closing('note', 2)).toContain('0 errors, 0 warnings, 2 notes\n');
    expect(closing('note', 2)).toContain('2 records, 2 checks');
    expect(closing('error', 0)).not.toContain('could not be judged');
  });

  test('says the same with colour as without', () => {
    const coloured = writeReportText(content, {
      width: 80,
      colour: true,
      folder: 'content',
      lineOf: () => 'id: UN-01',
    });
    // biome-ignore lint/suspicious/noControlCharactersInRegex: the sequences that set colours.
    expect(coloured.replace(/\u001b\[[\d;]+m/g, '')).toBe(write(80));
    expect(coloured).not.toBe(write(80));
  });

  test('lets no control character of the content reach the terminal', () => {
    const evil = 'a\u001b[31mred\u0007\u202e\u061c\u2028 b\tc\r\n';
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
    expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u061c\u2028]/);
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

  test('marks exactly the place, below tabs, wide characters and pairs of code units', () => {
    const letter = fc.constantFrom('a', ' ', '\t', '針', 'é', '\u{1f600}', 'ｗ', '\u0007', '-');
    fc.assert(
      fc.property(
        fc.array(letter, { maxLength: 120 }),
        fc.array(letter, { minLength: 1, maxLength: 5 }),
        fc.array(letter, { maxLength: 120 }),
        fc.integer({ min: 36, max: 116 }),
        (ahead, marked, behind, room) => {
          const [before, place, after] = [ahead.join(''), marked.join(''), behind.join('')];
          const start = before.length + 1;
          const excerpt = excerptOf(before + place + after, start, start + place.length, room);
          expect(stringWidth(excerpt.line)).toBeLessThanOrEqual(room);
          expect(excerpt.line).not.toMatch(/\p{Cs}/u);
          const left = stringWidth(excerpt.before);
          const right = left + excerpt.marks.length;
          let column = 0;
          let found = '';
          for (const sign of excerpt.line) {
            if (column >= left && column < right) found += sign;
            column += stringWidth(sign);
          }
          expect(found).toBe(printable(place));
        },
      ),
      { seed: 20260727, numRuns: 2_000 },
    );
  });

  test('stays within the room and does not throw, wherever the place is said to be', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary', maxLength: 200 }),
        fc.integer({ min: 1, max: 300 }),
        fc.option(fc.integer({ min: 1, max: 300 }), { nil: undefined }),
        (source, column, endColumn) => {
          const { line, before, marks } = excerptOf(source, column, endColumn, 60);
          expect(stringWidth(line)).toBeLessThanOrEqual(60);
          expect(before.length + marks.length).toBeLessThanOrEqual(62);
        },
      ),
      { seed: 20260727, numRuns: 1_000 },
    );
  });

  test('of a line of megabytes takes no time', () => {
    const start = processorMilliseconds();
    excerptOf('x'.repeat(5_000_000), 4_000_000, 4_900_000, 76);
    expect(processorMilliseconds() - start).toBeLessThan(500);
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

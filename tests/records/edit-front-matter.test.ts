import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { appendEntry, type ListEntry, setField } from '../../src/records/edit-front-matter.ts';
import { splitFrontMatter } from '../../src/records/front-matter.ts';

const digest = '0f'.repeat(32);
const entry: ListEntry = {
  role: 'quality lead',
  name: 'Brede Falkonet',
  meaning: 'approved',
  date: '2026-01-10',
  digest,
  relies_on: { 'UN-01': digest, 'RK-02': digest },
};

const record = (...lines: readonly string[]): string => `---\n${lines.join('\n')}\n---\nThe body.\n`;

const textOf = (outcome: ReturnType<typeof setField>): string => {
  if (!outcome.ok) throw new Error(`refused: ${outcome.reason}`);
  return outcome.text;
};

/** The library's own reading, by its general entry point. */
const read = (text: string): Record<string, unknown> => {
  const split = splitFrontMatter(text.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n'));
  if (typeof split === 'string') throw new Error(split);
  return parse(split.yaml, { version: '1.2' }) as Record<string, unknown>;
};

describe('an entry is appended in the layout that the file has', () => {
  test('to a list like those that Plinth writes', () => {
    expect(
      textOf(
        appendEntry(
          record(
            'id: DI-01 # the first',
            'approvals:',
            '  - role: engineer',
            '    name: "A. Name"',
            'method: [test]',
          ),
          'approvals',
          entry,
        ),
      ),
    ).toBe(
      record(
        'id: DI-01 # the first',
        'approvals:',
        '  - role: engineer',
        '    name: "A. Name"',
        '  - role: quality lead',
        '    name: Brede Falkonet',
        '    meaning: approved',
        '    date: 2026-01-10',
        `    digest: "${digest}"`,
        '    relies_on:',
        `      UN-01: "${digest}"`,
        `      RK-02: "${digest}"`,
        'method: [test]',
      ),
    );
  });

  test('with dashes in the first column, wide gaps and deep groups', () => {
    expect(
      textOf(
        appendEntry(
          record('approvals:', '-   role: engineer', '    relies_on:', '         UN-01: x'),
          'approvals',
          { role: 'lead', relies_on: { 'UN-02': 'z' } },
        ),
      ),
    ).toBe(
      record(
        'approvals:',
        '-   role: engineer',
        '    relies_on:',
        '         UN-01: x',
        '-   role: lead',
        '    relies_on:',
        '         UN-02: z',
      ),
    );
  });

  test('behind the comments of the entry above, before those of the next field', () => {
    expect(
      textOf(
        appendEntry(
          record(
            'approvals:',
            '  # the first',
            '  - role: engineer # by hand',
            '    # signed on paper',
            '',
            '    # and filed',
            '',
            '  # none yet from the lead',
            '# how it is shown',
            'method: [test]',
          ),
          'approvals',
          { role: 'lead' },
        ),
      ),
    ).toBe(
      record(
        'approvals:',
        '  # the first',
        '  - role: engineer # by hand',
        '    # signed on paper',
        '',
        '    # and filed',
        '  - role: lead',
        '',
        '  # none yet from the lead',
        '# how it is shown',
        'method: [test]',
      ),
    );
  });

  test('a missing list becomes the last field, indented as the first list of the record', () => {
    expect(
      textOf(appendEntry(record('id: DI-01', 'lots:', '    - L1', '# end'), 'approvals', { role: 'lead' })),
    ).toBe(record('id: DI-01', 'lots:', '    - L1', '# end', 'approvals:', '    - role: lead'));
  });

  test('an empty list in brackets, or no list at all, is opened', () => {
    for (const empty of ['approvals: [] # none', 'approvals: # none', 'approvals:   [ ] # none'])
      expect(textOf(appendEntry(record(empty, 'method: [test]'), 'approvals', { role: 'lead' }))).toBe(
        record('approvals: # none', '  - role: lead', 'method: [test]'),
      );
  });

  test('a list in brackets stays one, and commas in it are quoted', () => {
    expect(
      textOf(
        appendEntry(record('approvals: [{ role: engineer }] # short'), 'approvals', {
          role: 'lead',
          meaning: 'approved, with a remark',
          relies_on: { 'UN-01': digest },
        }),
      ),
    ).toBe(
      record(
        `approvals: [{ role: engineer }, { role: lead, meaning: "approved, with a remark", relies_on: { UN-01: "${digest}" } }] # short`,
      ),
    );
  });

  test('behind a block of lines as last value, kept line ends and all', () => {
    const before = record(
      'approvals:',
      '  - role: engineer',
      '    meaning: |+',
      '      seen',
      '',
      'method: [test]',
    );
    const after = textOf(appendEntry(before, 'approvals', { role: 'lead' }));
    expect(read(after)['approvals']).toEqual([{ role: 'engineer', meaning: 'seen\n\n' }, { role: 'lead' }]);
  });

  test('behind an entry whose last field is empty', () => {
    const before = record('approvals:', '  - role: engineer', '    relies_on: # nothing', 'method: [test]');
    expect(textOf(appendEntry(before, 'approvals', { role: 'lead' }))).toBe(
      record(
        'approvals:',
        '  - role: engineer',
        '    relies_on: # nothing',
        '  - role: lead',
        'method: [test]',
      ),
    );
  });

  test.each([
    ['CRLF', '\uFEFF---\r\nid: X\r\napprovals:\r\n- role: a\r\n---\r\nBody', '\r\n- role: lead\r\n---'],
    ['CR', '---\rid: X\rapprovals:\r- role: a\r---\rBody', '\r- role: lead\r---'],
  ])('with the line ends of the file: %s', (_, before, within) => {
    const after = textOf(appendEntry(before, 'approvals', { role: 'lead' }));
    expect(after).toContain(within);
    expect(after.replace(within.replace(/---$/, ''), within.slice(0, within.indexOf('-')))).toBe(before);
  });
});

describe('a field is set in its place', () => {
  test.each([
    ['status: draft # as yet', 'status: approved # as yet'],
    ['status:   "draft"  ', 'status:   "approved"  '],
    ["'status': 'draft'", "'status': 'approved'"],
    ['"status" : draft', '"status" : approved'],
    ['status:', 'status: approved'],
    ['status: # to be set', 'status: approved # to be set'],
    ['status: ~', 'status: approved'],
  ])('%s', (before, after) => {
    const around = (line: string): string => record('id: X', line, 'title: status');
    expect(textOf(setField(around(before), 'status', 'approved'))).toBe(around(after));
  });

  test('a missing field becomes the last one', () => {
    expect(textOf(setField(record('  id: X', '  lots: [a]'), 'status', 'in review'))).toBe(
      record('  id: X', '  lots: [a]', '  status: in review'),
    );
  });
});

test.each([
  ['The body.\n', 'it has no front matter'],
  ['---\nid: X\n', 'its front matter is not closed'],
  ['---\n# nothing\n---\n', 'its front matter holds no fields'],
  [record('{ id: X, approvals: [] }'), 'braces'],
  [record('approvals: yes'), 'the field "approvals" is not a list'],
  [record('approvals: { role: a }'), 'the field "approvals" is not a list'],
  [record('approvals: [', ']'), 'takes several lines'],
  [record('approvals: [ # none', '  ]'), 'takes several lines'],
  [record('? approvals', ': []'), 'several lines'],
  [record('approvals: []', 'approvals: []'), 'stands twice'],
  [record('approvals: [', 'id: X'), 'line 3 cannot be read'],
])('refused with a reason: %j', (text, reason) => {
  const outcome = appendEntry(text, 'approvals', { role: 'lead' });
  expect(outcome.ok ? outcome.text : outcome.reason).toContain(reason);
});

test.each([
  [record('status:', '  - draft'), 'is a list or a group'],
  [record('status: |', '  draft'), 'block of lines'],
  [record('? status', ': draft', 'id: X'), ''],
])('a field that is not one word in one line: %j', (text, reason) => {
  const outcome = setField(text, 'status', 'approved');
  if (reason === '') expect(outcome.ok && read(outcome.text)).toEqual({ status: 'approved', id: 'X' });
  else expect(outcome.ok ? outcome.text : outcome.reason).toContain(reason);
});

/** Layouts that people and other programs write. */
const blank = fc.constantFrom('', '  ', '   ');
const remark = fc.constantFrom('', ' # a remark', '   # role: not this', ' ');
const anyText = fc.oneof(
  fc.string({ maxLength: 30 }),
  fc.string({ unit: 'grapheme', maxLength: 12 }),
  fc.constantFrom(
    'yes',
    'null',
    '12e34',
    '0x1f',
    'a: b',
    'a #b',
    '- a',
    ' a',
    'a ',
    '',
    '2026-01-10',
    'ä, ö',
    "o'clock",
    '[a]',
    '\u2028',
  ),
);

const otherField = fc.constantFrom(
  ['id: DI-01'],
  ['"title":  "A: title"'],
  ['lots: [L1, L2]'],
  ['limits:', '  - { characteristic: force, upper: 0.90 }'],
  ['limits:', '- characteristic: force', '  upper: 1e3'],
  ['note: |', '  line one', '   line two', ''],
  ['note: >-', '  folded', '  text'],
  ['executed: # when', '   from: 2026-01-01', '', '   to: 2026-01-02'],
  ['# approvals:', '#  - role: not this'],
  [''],
);

const approvalList = fc.record({
  name: fc.constantFrom('approvals', '"approvals"', "'approvals' "),
  dash: fc.constantFrom(0, 1, 2, 4, 7),
  gap: fc.integer({ min: 1, max: 4 }),
  group: fc.integer({ min: 1, max: 5 }),
  entries: fc.array(
    fc.record({
      role: fc.constantFrom('engineer', '"lead"', "'surgeon'", 'a b'),
      between: fc.constantFrom([], [''], ['# between'], ['         # deeper', '']),
      relies: fc.boolean(),
      after: remark,
    }),
    { minLength: 1, maxLength: 3 },
  ),
});

const linesOf = ({
  name,
  dash,
  gap,
  group,
  entries,
}: typeof approvalList extends fc.Arbitrary<infer T> ? T : never): string[] => {
  const inner = ' '.repeat(dash + 1 + gap);
  return [
    `${name}:`,
    ...entries.flatMap(({ role, between, relies, after }) => [
      `${' '.repeat(dash)}-${' '.repeat(gap)}role: ${role}${after}`,
      `${inner}name: "A ""`.replace('""', '"'),
      ...(relies ? [`${inner}relies_on:`, `${inner}${' '.repeat(group)}UN-01: ${digest}x${after}`] : []),
      ...between,
    ]),
  ];
};

const manyFields = fc.uniqueArray(otherField, {
  maxLength: 5,
  selector: (lines) => lines[0]?.replace(/[":].*/, ''),
});

const file = fc
  .record({
    before: manyFields,
    list: fc.oneof(approvalList.map(linesOf), fc.constantFrom([], ['approvals:'], ['approvals: []  # none'])),
    lineEnd: fc.constantFrom('\n', '\r\n', '\r'),
    mark: fc.constantFrom('', '\uFEFF'),
    close: fc.constantFrom('---', '---  '),
    body: fc.constantFrom([], [''], ['', 'The body.', '---', 'approvals: no', ''], ['No final line end']),
    trailing: blank,
    at: fc.nat(5),
  })
  .map(({ before, list, lineEnd, mark, close, body, trailing, at }) => {
    const fields: string[][] = before.map((lines) => [...lines]);
    fields.splice(at, 0, [...list]);
    const yaml = [`status: draft${trailing}`, ...fields.flat()];
    return mark + [`---${trailing}`, ...yaml, close, ...body].join(lineEnd);
  });

describe('whatever the layout', () => {
  test('an appended entry is all that is new, and no other byte moves', () => {
    let appended = 0;
    fc.assert(
      fc.property(file, anyText, anyText, fc.boolean(), (text, role, meaning, relies) => {
        const added: ListEntry = { role, meaning, ...(relies ? { relies_on: { 'UN-01': digest } } : {}) };
        const outcome = appendEntry(text, 'approvals', added);
        expect(outcome.ok ? '' : outcome.reason).toBe('');
        if (!outcome.ok) return;
        appended += 1;
        const before = read(text);
        const list = (before['approvals'] ?? []) as readonly unknown[];
        expect(read(outcome.text)).toEqual({ ...before, approvals: [...list, added] });
        // One block of whole lines is new; an empty list loses its brackets.
        const old = text.replace(/approvals: \[\] {2}# none/, 'approvals:  # none');
        let same = 0;
        while (same < old.length && old[same] === outcome.text[same]) same += 1;
        const size = outcome.text.length - old.length;
        const cut = [...Array(size + 1).keys()]
          .map((back) => same - back)
          .find((from) => outcome.text.slice(0, from) + outcome.text.slice(from + size) === old);
        expect(cut).toBeDefined();
      }),
      { numRuns: 1000 },
    );
    expect(appended).toBe(1000);
  });

  test('a set field is all that changes', () => {
    fc.assert(
      fc.property(file, anyText, (text, value) => {
        const outcome = setField(text, 'status', value);
        expect(outcome.ok ? '' : outcome.reason).toBe('');
        if (!outcome.ok) return;
        expect(read(outcome.text)).toEqual({ ...read(text), status: value });
        const [head = '', tail = ''] = text.split('status: draft');
        expect(outcome.text.startsWith(`${head}status: `)).toBe(true);
        expect(outcome.text.endsWith(tail)).toBe(true);
        expect(outcome.text.slice(head.length, outcome.text.length - tail.length)).not.toMatch(/[\r\n]/);
      }),
      { numRuns: 500 },
    );
  });

  test('edits follow each other', () => {
    fc.assert(
      fc.property(file, fc.integer({ min: 1, max: 4 }), (text, times) => {
        let now = text;
        for (let time = 0; time < times; time += 1) now = textOf(appendEntry(now, 'approvals', entry));
        expect((read(now)['approvals'] as readonly unknown[]).slice(-times)).toEqual(
          Array(times).fill(entry),
        );
      }),
      { numRuns: 200 },
    );
  });

  test('any text at all is edited rightly or left alone', () => {
    const words = fc.constantFrom(
      'approvals:',
      ' ',
      '- ',
      '\n',
      'a',
      ': ',
      '[',
      ']',
      '{',
      '}',
      '#',
      '"',
      '|',
      '?',
      ',',
      '&x ',
      '*x',
      '!t ',
      'status: b',
      '\t',
      '---',
    );
    fc.assert(
      fc.property(fc.array(words, { maxLength: 16 }), (parts) => {
        const text = `---\n${parts.join('')}\n---\n`;
        const outcome = appendEntry(text, 'approvals', { role: 'lead' });
        if (outcome.ok)
          expect((read(outcome.text)['approvals'] as readonly unknown[]).at(-1)).toEqual({ role: 'lead' });
      }),
      { numRuns: 2000 },
    );
  });
});

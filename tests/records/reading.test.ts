import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { analyse } from '../../src/pipeline.ts';
import { processorMilliseconds } from '../support/processor-time.ts';
import { inputsFrom } from '../support/technical-file.ts';
import { found, need, readFiles, readOnly, said, withProject } from './read-files.ts';

const bytes = (...parts: readonly (string | readonly number[])[]): Uint8Array =>
  Uint8Array.from(
    parts.flatMap((part) => (typeof part === 'string' ? [...new TextEncoder().encode(part)] : part)),
  );

/** Records that are read whatever the other files are like. */
const alsoRead = (text: string | Uint8Array): readonly string[] => {
  const analysis = readFiles({ 'a.md': text, 'b.md': need('UN-99') });
  expect(analysis.graph.record('UN-99')?.sound, 'every other record is still read').toBe(true);
  for (const finding of analysis.findings) expect(finding.hint, finding.message).toBeTruthy();
  return said(analysis.findings);
};

describe('files', () => {
  test('are read at any depth; the order in which the system names them does not matter', () => {
    const files = withProject({
      'needs/UN-02.md': need('UN-02'),
      'a/b/c/d/UN-01.md': need('UN-01'),
      'UN-10.md': need('UN-10', 'unknwn: 1\n'),
      'z.md': '',
    });
    const straight = analyse(inputsFrom(files), []);
    const turned = analyse(inputsFrom(new Map([...files].reverse())), []);
    expect([...straight.graph.records.keys()]).toEqual(['UN-01', 'UN-02', 'UN-10']);
    expect([...turned.graph.records.keys()]).toEqual([...straight.graph.records.keys()]);
    expect(turned.findings).toEqual(straight.findings);
  });

  test('with CRLF, CR or a byte-order mark say the same at the same place', () => {
    const text = need('UN-01', 'unknwn: 1\n');
    const plain = readFiles({ 'a.md': text });
    for (const other of [text.replaceAll('\n', '\r\n'), text.replaceAll('\n', '\r'), `\ufeff${text}`]) {
      const analysis = readFiles({ 'a.md': other });
      expect(said(analysis.findings)).toEqual(said(plain.findings));
      expect(analysis.approvals.digests).toEqual(plain.approvals.digests);
    }
    expect(said(plain.findings)[0]).toContain('a.md:7:1 unknown-field');
  });

  test.each([
    [
      'Latin-1 µ',
      bytes('---\nid: UN-01\ntitle: 5 ', [0xb5], 'm\n---\n'),
      'a.md:3:10 not-utf-8: byte 0xb5 is not UTF-8',
    ],
    [
      'a character cut off within',
      bytes('ab\ncd', [0xe2, 0x82], 'x'),
      'a.md:2:3 not-utf-8: byte 0xe2 is not UTF-8',
    ],
    [
      'a character cut off at the end',
      bytes('ab\r\ncd', [0xf0, 0x9f, 0x98]),
      'a.md:2:3 not-utf-8: byte 0xf0 is not UTF-8',
    ],
    ['an overlong form', bytes('ab', [0xc0, 0x80]), 'a.md:1:3 not-utf-8: byte 0xc0 is not UTF-8'],
    ['UTF-16', bytes([0xff, 0xfe, 0x2d, 0x00]), 'a.md:1:1 not-utf-8: byte 0xff is not UTF-8'],
    ['after wide characters', bytes('\u{1f600}é', [0xb5]), 'a.md:1:4 not-utf-8: byte 0xb5 is not UTF-8'],
  ])('that are not UTF-8 are named with the byte: %s', (_, content, expected) => {
    expect(alsoRead(content)).toEqual([`${expected} | Save the file as UTF-8.`]);
  });

  test.each([
    ['empty', '', 'a.md:1:1 empty-file: the file is empty'],
    ['blank', ' \n\n\t', 'a.md:1:1 empty-file: the file is empty'],
    [
      'without front matter',
      '# A heading\n',
      'a.md:1:1 missing-front-matter: the file does not start with front matter',
    ],
    ['not closed', '---\nid: UN-01\n', 'a.md:1:1 missing-front-matter: the front matter is not closed'],
    ['only the mark', '---', 'a.md:1:1 missing-front-matter: the front matter is not closed'],
    ['without fields', '---\n---\nText', 'a.md:2:1 broken-front-matter: the front matter holds no fields'],
    ['a list', '---\n- a\n- b\n---\n', 'a.md:2:1 broken-front-matter: the front matter holds no fields'],
    ['a word', '---\njust words\n---\n', 'a.md:2:1 broken-front-matter: the front matter holds no fields'],
  ])('that hold no record say so: %s', (_, text, expected) => {
    expect(alsoRead(text)[0]).toContain(expected);
    expect(alsoRead(text)).toHaveLength(1);
  });

  test('with a capital ending are records as well', () => {
    expect(readFiles({ 'A.MD': need('UN-01') }).graph.record('UN-01')?.sound).toBe(true);
  });

  test('with the same id are both shown', () => {
    const analysis = readFiles({ 'b/two.md': need('UN-01'), 'a/one.md': need('UN-01') });
    expect(said(analysis.findings)).toEqual([
      'b/two.md:2:5 duplicate-id: the id UN-01 is already taken by a/one.md | Give one of the two records a new id.',
    ]);
    expect(analysis.findings[0]?.related[0]?.place).toMatchObject({ file: 'a/one.md', line: 2, column: 5 });
    expect(analysis.graph.record('UN-01')?.file).toBe('a/one.md');
  });

  test('are never a reason to throw, whatever they hold', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary', maxLength: 200 }),
        fc.string({ maxLength: 80 }),
        (front, body) => {
          readOnly({ 'a.md': `---\n${front}\n---\n${body}`, 'plinth.yaml': front });
        },
      ),
      { seed: 20260727, numRuns: 300 },
    );
    const pieces = fc.constantFrom(
      'a',
      ': ',
      '\n',
      '  ',
      '- ',
      '[',
      ']',
      '{',
      '}',
      '"',
      "'",
      '&x ',
      '*x',
      '!t ',
      '|',
      '>',
      '#',
      '%',
      '\t',
      '? ',
      '---',
      '1.5',
      '0x1',
      'id',
      'UN-01',
      '__proto__',
      ',',
    );
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 40 }), (list) => {
        const { records } = readOnly({ 'a.md': `---\n${list.join('')}\n---\n`, 'b.md': need('UN-99') });
        expect(records.find((record) => record.id === 'UN-99')?.sound).toBe(true);
      }),
      { seed: 20260727, numRuns: 500 },
    );
  });
});

describe('YAML', () => {
  test.each([
    ['a tab as indentation', 'x:\n\ty: 1', '3', 'a tab stands where blanks must'],
    ['a quotation mark not closed', 'x: "abc', '', 'a quotation mark is not closed'],
    ['a colon in a value', 'x: Force: high', '2', 'a colon followed by a blank stands within a value'],
    ['bad indentation', 'x: |\n    a\n  b', '4', 'the indentation does not fit'],
    ['a missing blank after the colon', 'x:1\ny: 2', '2', 'is the colon missing, or the blank after it'],
    ['a reserved first sign', 'x: @home', '2', 'reserved character @'],
    ['an alias', 'x: &a 1\ny: *a', '3', 'aliases (*name) are not allowed'],
    ['an unknown alias', 'x: *a', '2', 'aliases (*name) are not allowed'],
    ['a tag', 'x: !!binary aGk=', '2', 'tags (!name) are not allowed'],
    ['an own tag', 'x: !mine 1', '2', 'tag'],
    ['a second document', 'x: 1\n...\ny: 2', '4', 'starts a second document'],
    ['a directive', '%YAML 1.1', '2', 'a line starts with %'],
    ['a list as a name', '? [a]\n: b', '2', 'the name of a field is not a plain word'],
    ['a control character', 'x: a\u0000b', '2', 'the control character U+0000 is not allowed'],
    ['text that turns round', 'x: a\u202e03', '2', 'the control character U+202E is not allowed'],
    ['a hostile key', '__proto__: { polluted: true }', '2', 'the key __proto__ is not allowed'],
    [
      'a hostile key in disguise',
      '"__proto\\u005f_": { polluted: true }',
      '2',
      'the key __proto__ is not allowed',
    ],
    [
      'a hostile key inside',
      'x: { constructor: { prototype: { polluted: true } } }',
      '2',
      'the key constructor is not allowed',
    ],
    ['deep nesting', `x: ${'['.repeat(60)}${']'.repeat(60)}`, '', 'nested deeper than 40 levels'],
    ['very deep nesting', `x: ${'['.repeat(20_000)}`, '', ''],
    ['very long front matter', `x: ${'a'.repeat(200_000)}`, '2', 'at most 100000 are read'],
  ])('that is broken is told in plain words: %s', (_, front, line, words) => {
    const [first = ''] = alsoRead(`---\n${front}\n---\nText\n`);
    expect(first).toMatch(new RegExp(`^a\\.md:${line || '\\d+'}:\\d+ broken-front-matter: `));
    expect(first).toContain(words);
    expect({}).not.toHaveProperty('polluted');
  });

  test('with one slip gives few findings, not one for every line after it', () => {
    expect(alsoRead(`---\nid: "UN-01\n${'a: 1\n'.repeat(50)}---\n`).length).toBeLessThanOrEqual(3);
  });

  test('that names a field twice shows the second, at any depth', () => {
    expect(alsoRead(need('UN-01', 'title: Again\n'))).toEqual([
      'a.md:7:1 duplicate-key: the field "title" stands twice | Keep one of the two.',
    ]);
    expect(alsoRead(need('UN-01', 'states: { a: x, b: y, a: z }\n'))).toEqual([
      'a.md:7:23 duplicate-key: the field "a" stands twice | Keep one of the two.',
    ]);
  });

  test('keeps dates and unusual numbers as people mean them', () => {
    const { graph } = readFiles({
      'a.md': need('UN-01', 'states: { a: 2026-06-01, b: "012", c: yes, d: 1_000, e: 12:30, f: 1.10.2 }\n'),
    });
    expect(graph.record('UN-01')?.fields['states']).toEqual({
      a: '2026-06-01',
      b: '012',
      c: 'yes',
      d: '1_000',
      e: '12:30',
      f: '1.10.2',
    });
  });

  test('keeps the written form of numbers, and quotes it in the hint', () => {
    const { graph, findings } = readFiles({
      'a.md': need('UN-01', 'states: { a: 0.90, b: 012, c: .5, d: 1e3 }\n'),
    });
    const yaml = graph.record('UN-01')?.yaml;
    expect(['a', 'b', 'c', 'd'].map((key) => yaml?.written(['states', key]))).toEqual([
      '0.90',
      '012',
      '.5',
      '1e3',
    ]);
    expect(said(findings)).toEqual([
      'a.md:7:14 wrong-value: states.a is 0.9, expected text | Put it in quotes: "0.90".',
      'a.md:7:23 wrong-value: states.b is 12, expected text | Put it in quotes: "012".',
      'a.md:7:31 wrong-value: states.c is 0.5, expected text | Put it in quotes: ".5".',
      'a.md:7:38 wrong-value: states.d is 1000, expected text | Put it in quotes: "1e3".',
    ]);
  });
});

describe('fields', () => {
  const faults = (front: string): readonly string[] => found({ 'a.md': need('UN-01', front) });

  test('that are unknown bring the nearest name, also inside other fields', () => {
    expect(faults('aprovals: []\n')).toEqual([
      'a.md:7:1 unknown-field: unknown field "aprovals" | Did you mean "approvals"?',
    ]);
    const digest = '0'.repeat(64);
    expect(
      faults(
        `approvals:\n  - { role: a, name: b, meaning: c, date: 2026-01-01, digest: "${digest}", relys_on: {} }\n`,
      ),
    ).toEqual([
      expect.stringContaining(
        'unknown-field: unknown field "relys_on" in approvals[1] | Did you mean "relies_on"?',
      ),
    ]);
    expect(faults('colour: red\n')[0]).toMatch(/unknown field "colour" \| Use one of: id, type, title/);
  });

  test('beside a faulty one are not called unknown', () => {
    expect(found({ 'a.md': need('UN-01').replace('status: draft', 'status: drafty') })).toEqual([
      'a.md:5:9 wrong-value: status is "drafty", expected one of: draft, in review, approved, retired | Did you mean "draft"?',
    ]);
    expect(found({ 'a.md': need('un-1') })).toEqual([
      'a.md:2:5 wrong-value: id is "un-1", which does not have the expected form | Write it as the prefix of the type, a hyphen and a number, such as UN-01.',
    ]);
  });

  test('that are empty, of a wrong kind or missing are told', () => {
    expect(found({ 'a.md': need('UN-01').replace('title: A need', 'title:') })).toEqual([
      'a.md:4:7 wrong-value: title is empty, expected text',
    ]);
    expect(found({ 'a.md': need('UN-01').replace('title: A need', 'title: ""') })).toEqual([
      'a.md:4:8 wrong-value: title is empty | Write the text; an optional field may also be removed.',
    ]);
    expect(found({ 'a.md': need('UN-01').replace('title: A need\n', '') })).toEqual([
      'a.md:1:1 missing-field: the field "title" is missing | Add "title".',
    ]);
    expect(found({ 'a.md': need('UN-01').replace('[dental surgeon]', 'dental surgeon') })).toEqual([
      'a.md:6:12 wrong-value: needed_by is "dental surgeon", expected a list | Write it as a list: [a, b].',
    ]);
    expect(found({ 'a.md': need('UN-01').replace('[dental surgeon]', '[.nan, .inf]') })[0]).toContain(
      'needed_by[1] is NaN, expected text',
    );
  });

  test('id and type are asked for together', () => {
    expect(found({ 'a.md': '---\ntitle: x\n---\n' })).toEqual([
      expect.stringContaining('a.md:1:1 missing-field: the field "id" is missing'),
      expect.stringContaining('a.md:1:1 missing-field: the field "type" is missing'),
    ]);
  });

  test('an unknown type brings the nearest; the record can still be linked', () => {
    const analysis = readFiles({ 'a.md': need('UN-01').replace('user-need', 'user-ned') });
    expect(said(analysis.findings)).toEqual([
      'a.md:3:7 unknown-type: unknown record type "user-ned" | Did you mean "user-need"?',
    ]);
    expect(analysis.graph.record('UN-01')?.sound).toBe(false);
    expect(analysis.unsound).toBe(1);
  });

  test.each(['constructor', '__proto__', 'toString', 'hasOwnProperty'])(
    'a type or id named %s harms nothing',
    (name) => {
      const files = withProject({ 'a.md': `---\nid: ${name}\ntype: ${name}\n---\n` });
      files.set('plinth.yaml', `device: { name: x, maker: y }\napproval_roles: { "*": [quality lead] }\n`);
      const analysis = analyse(inputsFrom(files));
      expect(said(analysis.findings).join('\n')).toContain(`unknown record type "${name}"`);
    },
  );

  test('a wrong prefix and a missing heading are found; headings in code do not count', () => {
    expect(
      found({ 'a.md': need('DI-01', '', 'Text\n\n```\n## Rationale\n```\n<!--\n## Rationale\n-->\n') }),
    ).toEqual([
      'a.md:2:5 wrong-prefix: the id DI-01 does not start with UN-, the prefix of a user-need | Rename it to UN-…, or correct the type.',
      'a.md:8:1 missing-heading: DI-01 has no heading "Rationale" | Add "## Rationale" and write the section.',
    ]);
    expect(found({ 'a.md': need('UN-01', '', '# rationale ##\nText.\n') })).toEqual([]);
  });
});

describe('plinth.yaml', () => {
  const project = (text: string): readonly string[] => {
    const analysis = analyse(
      inputsFrom(
        new Map([
          ['a.md', need('UN-01')],
          ['plinth.yaml', text],
        ]),
      ),
      [],
    );
    expect(analysis.graph.record('UN-01')?.sound, 'records are read all the same').toBe(true);
    expect(analysis.project.fields.device.name).toBeTruthy();
    return said(analysis.findings);
  };

  test('that is missing is asked for, and a near name is seen', () => {
    const without = (path?: string): readonly string[] =>
      said(
        analyse(inputsFrom(new Map([['a.md', need('UN-01')], ...(path ? [[path, 'x'] as const] : [])])), [])
          .findings,
      );
    expect(without()).toEqual([
      expect.stringMatching(/^plinth\.yaml:1:1 project-file-missing: .* Run "plinth start"/),
    ]);
    expect(without('plinth.yml')[0]).toContain('Rename the file that is there to plinth.yaml');
    expect(without('Plinth.yaml')[0]).toContain('Rename the file that is there to plinth.yaml');
  });

  test.each([
    ['empty', '', 'plinth.yaml:1:1 missing-field: the field "device" is missing | Add "device".'],
    [
      'only comments',
      '# nothing yet\n',
      'plinth.yaml:1:1 missing-field: the field "device" is missing | Add "device".',
    ],
    ['a list', '- a\n', 'plinth.yaml:1:1 wrong-value: plinth.yaml is ["a"], expected a group of fields'],
    ['broken', 'device: { name: x\nmaker: y\n', 'broken-front-matter'],
    [
      'twice',
      'device: { name: x, maker: y }\nlanguage: en\nlanguage: de\n',
      'plinth.yaml:3:1 duplicate-key: the field "language" stands twice',
    ],
    [
      'partly wrong',
      'device: { name: x, maker: y }\nlanguage: 7\n',
      'plinth.yaml:2:11 wrong-value: language is 7, expected text | Put it in quotes: "7".',
    ],
    [
      'a number with zeros in front',
      'device: { name: x, maker: y, identifiers: [{ level: unit, gtin: 09520123456788 }] }\n',
      'Put it in quotes: "09520123456788".',
    ],
  ])('that is %s gives a finding with its place', (_, text, expected) => {
    const list = project(text);
    expect(list[0]).toContain(expected);
  });

  test('keeps its sound fields where another one is wrong', () => {
    const analysis = analyse(
      inputsFrom(
        new Map([
          [
            'plinth.yaml',
            'device: { name: Applicator, maker: y }\nlanguage: 7\nphrases: { shelf_life: 3 years }\n',
          ],
        ]),
      ),
      [],
    );
    expect(analysis.project.fields.device.name).toBe('Applicator');
    expect(analysis.project.fields.phrases).toEqual({ shelf_life: '3 years' });
    expect(analysis.project.fields.language).toBeUndefined();
  });

  test('names what is no record', () => {
    const files = withProject({
      'notes/a.md': 'no record',
      'b.md': 'no record',
      'notes2/c.md': need('UN-01'),
    });
    files.set('plinth.yaml', 'device: { name: x, maker: y }\nignore: [notes/, ./b.md]\n');
    expect(said(analyse(inputsFrom(files), []).findings)).toEqual([]);
  });
});

describe('time', () => {
  const under = (milliseconds: number, text: string): void => {
    const start = processorMilliseconds();
    found({ 'a.md': text });
    expect(processorMilliseconds() - start).toBeLessThan(milliseconds);
  };

  test.each([
    ['many open comments', need('UN-01', '', '<!--'.repeat(500_000))],
    ['a heading of blanks', need('UN-01', '', `#${' '.repeat(200_000)}${'a'.repeat(300)}`)],
    ['blanks within a line', need('UN-01', '', `a${' '.repeat(300_000)}b`)],
    ['a line of 4 MB', need('UN-01', '', 'x'.repeat(4_000_000))],
    ['many fields', need('UN-01', Array.from({ length: 8_000 }, (_, index) => `k${index}: 1\n`).join(''))],
    ['bad escapes', need('UN-01', `x: "${'\\q '.repeat(10_000)}"\n`)],
  ])('does not run away: %s', (_, text) => under(10_000, text));
});

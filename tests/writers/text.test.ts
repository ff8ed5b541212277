import fc from 'fast-check';
import stringWidth from 'string-width';
import { describe, expect, test } from 'vitest';
import type { Block, Document, Inline } from '../../src/document/model.ts';
import { writeText } from '../../src/writers/text/write-text.ts';

const documentOf = (...blocks: readonly Block[]): Document => ({
  id: 'DOC-01',
  title: 'Trial',
  number: 'DOC-01',
  revision: '1',
  status: 'draft',
  date: '2026-11-20',
  organisation: 'Harrow Lane Instruments',
  product: 'Applicator',
  language: 'en-GB',
  signatures: [],
  blocks,
  footnotes: [],
  caution: '',
  provenance: [],
  recordTitles: new Map(),
});

const written = (width: number, ...blocks: readonly Block[]): readonly string[] =>
  writeText(documentOf(...blocks), { width, colour: false })
    .split('\n')
    .slice(2, -1);

const says = (value: string): Inline => ({ kind: 'text', value });
const table = (rows: readonly (readonly string[])[], titles: readonly string[]): Block => ({
  kind: 'table',
  columns: titles.map((title) => ({ title, width: 10 })),
  rows: rows.map((cells) => ({ cells: cells.map((value) => ({ children: [says(value)] })) })),
});

describe('a document at a terminal', () => {
  test('headings are numbered, lists and particulars set in', () => {
    expect(
      written(
        30,
        { kind: 'heading', level: 1, children: [says('What changed')] },
        {
          kind: 'list',
          ordered: true,
          items: [{ blocks: [{ kind: 'paragraph', children: [says('one two three four five six seven')] }] }],
        },
        { kind: 'particulars', entries: [{ name: 'From', value: [says('HEAD')] }] },
      ),
    ).toEqual([
      '1 What changed',
      '─'.repeat(30),
      '',
      '1. one two three four five six',
      '   seven',
      '',
      'From  HEAD',
    ]);
  });

  test('columns of a table take what they need, and cells are folded', () => {
    expect(
      written(
        40,
        table(
          [
            ['DI-09', 'the tip stays on the barrel under an axial pull'],
            ['DI-10', 'short'],
          ],
          ['Record', 'Statement'],
        ),
      ),
    ).toEqual([
      'Record  Statement',
      '─'.repeat(40),
      'DI-09   the tip stays on the barrel',
      '        under an axial pull',
      '',
      'DI-10   short',
    ]);
  });

  test('a table with more columns than the terminal holds is written row by row', () => {
    const titles = ['First', 'Second', 'Third', 'Fourth', 'Fifth'];
    const cells = titles.map((title) => `the words of the ${title.toLowerCase()} cell of this row`);
    const lines = written(32, table([cells], titles));
    expect(lines[0]).toBe('First   the words of the first');
    expect(lines.filter((line) => /^(First|Second|Third|Fourth|Fifth) /.test(line))).toHaveLength(5);
  });

  test('a cell that reaches down leaves its column blank below', () => {
    const block: Block = {
      kind: 'table',
      columns: [
        { title: 'A', width: 1 },
        { title: 'B', width: 1 },
      ],
      rows: [
        { cells: [{ children: [says('x')], rowSpan: 2 }, { children: [says('1')] }] },
        { cells: [{ children: [says('2')] }] },
      ],
    };
    expect(written(20, block)).toEqual(['A  B', '────', 'x  1', '   2']);
  });

  test('numbers are set to the right where the column says so', () => {
    const block: Block = {
      kind: 'table',
      columns: [
        { title: 'Record', width: 1 },
        { title: 'Largest', width: 1, align: 'right' },
      ],
      rows: ['9.5', '110.25'].map((value) => ({
        cells: [{ children: [says('VR-01')] }, { children: [says(value)] }],
      })),
    };
    expect(written(40, block)).toEqual([
      'Record  Largest',
      '─'.repeat(15),
      'VR-01       9.5',
      'VR-01    110.25',
    ]);
  });

  test('pieces of a word that was cut stand without a blank, and the column beside them stays in line', () => {
    expect(
      written(24, table([[`ab${'x'.repeat(12)}`, 'y']], ['A', 'B']), {
        kind: 'paragraph',
        children: [says('a'), { kind: 'text', value: 'b'.repeat(30), bold: true }],
      }),
    ).toEqual([
      'A               B',
      '─'.repeat(17),
      'abxxxxxxxxxxxx  y',
      '',
      'a',
      'b'.repeat(24),
      'b'.repeat(6),
    ]);
  });

  test('a figure becomes its words', () => {
    const figure: Block = {
      kind: 'figure',
      caption: 'Readings',
      svg: '<svg/>',
      alternative: 'All thirty readings lie above 30 N.',
      widthPx: 10,
      heightPx: 10,
    };
    expect(written(80, figure)).toEqual(['Figure 1: Readings. All thirty readings lie above 30 N.']);
  });

  test('deep blocks and long tables are written', () => {
    let deep: Block = { kind: 'paragraph', children: [says('at the bottom')] };
    for (let depth = 0; depth < 60; depth += 1) deep = { kind: 'quote', blocks: [deep] };
    expect(written(40, deep).join(' ')).toContain('bottom');
    const rule: Block = { kind: 'quote', blocks: [{ kind: 'rule' }] };
    expect(written(1, rule).join('')).toContain('─');
    const long = table(
      Array.from({ length: 130_000 }, (_, row) => [String(row)]),
      ['Row'],
    );
    expect(written(40, long)).toHaveLength(130_002);
  });

  test('what was taken out and put in is marked by signs', () => {
    expect(
      written(40, {
        kind: 'paragraph',
        children: [
          says('at least '),
          { kind: 'text', value: '30', strike: true },
          { kind: 'text', value: '28', inserted: true },
          says(' N'),
        ],
      }),
    ).toEqual(['at least [-30-][+28+] N']);
  });

  const word = fc.constantFrom(
    'a',
    'tip',
    'retention',
    '保持力',
    'é',
    'x'.repeat(50),
    '\u001b[31m',
    'b\u202ec',
  );
  const text = fc.array(word, { maxLength: 12 }).map((words) => words.join(' '));
  const inlines = fc.array(
    fc.oneof(
      text.map((value): Inline => ({ kind: 'text', value })),
      fc.constant<Inline>({ kind: 'line-break' }),
      fc.constantFrom<Inline>({ kind: 'record-reference', id: 'DI-09' }),
    ),
    { maxLength: 4 },
  );
  const block: fc.Arbitrary<Block> = fc.letrec<{ block: Block }>((tie) => ({
    block: fc.oneof(
      { maxDepth: 2 },
      inlines.map((children): Block => ({ kind: 'paragraph', children })),
      inlines.map((children): Block => ({ kind: 'heading', level: 2, children })),
      text.map((value): Block => ({ kind: 'code', value })),
      fc
        .array(fc.array(text, { minLength: 3, maxLength: 3 }), { minLength: 1, maxLength: 3 })
        .map((rows) => table(rows, ['One', 'Two', 'Three'])),
      fc.array(tie('block'), { maxLength: 2 }).map((blocks): Block => ({ kind: 'quote', blocks })),
      fc
        .array(tie('block'), { maxLength: 2 })
        .map((blocks): Block => ({ kind: 'list', ordered: false, items: [{ blocks }] })),
      fc
        .array(tie('block'), { maxLength: 2 })
        .map((blocks): Block => ({ kind: 'notice', tone: 'bad', blocks })),
    ),
  })).block;

  test('no line is wider than the terminal, nothing can move the cursor, and the same comes out twice', () => {
    fc.assert(
      fc.property(fc.array(block, { maxLength: 4 }), fc.integer({ min: 40, max: 100 }), (blocks, width) => {
        const out = writeText(documentOf(...blocks), { width, colour: false });
        for (const line of out.split('\n')) expect(stringWidth(line)).toBeLessThanOrEqual(width);
        for (const mover of ['\u001b', '\u202e']) expect(out).not.toContain(mover);
        expect(writeText(documentOf(...blocks), { width, colour: false })).toBe(out);
      }),
      { seed: 11, numRuns: 1_000 },
    );
  });

  test('no word is lost', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom('tip', 'pull', 'force', 'barrel'), { minLength: 1, maxLength: 30 }),
        (words) => {
          const cells = [words.join(' '), words.join(' '), 'x'];
          const out = writeText(
            documentOf(
              { kind: 'paragraph', children: [says(words.join(' '))] },
              table([cells], ['One', 'Two', 'Three']),
            ),
            { width: 60, colour: false },
          );
          for (const each of new Set(words))
            expect(out.split(/[^a-z]+/).filter((found) => found === each)).toHaveLength(
              3 * words.filter((found) => found === each).length,
            );
        },
      ),
      { seed: 12, numRuns: 300 },
    );
  });

  test('words come in the order of the document', () => {
    const words = fc.array(
      fc.integer({ min: 0, max: 1e6 }).map((number) => `w${number}`),
      {
        minLength: 1,
        maxLength: 12,
      },
    );
    const paragraph = words.map((each): [readonly string[], Block] => [
      each,
      { kind: 'paragraph', children: each.map((word) => says(`${word} `)) },
    ]);
    const nested = fc
      .array(paragraph, { minLength: 1, maxLength: 3 })
      .chain((parts): fc.Arbitrary<[readonly string[], Block]> => {
        const blocks = parts.map(([, each]) => each);
        return fc
          .constantFrom<Block>(
            { kind: 'quote', blocks },
            { kind: 'notice', tone: 'good', blocks },
            { kind: 'list', ordered: true, items: blocks.map((each) => ({ blocks: [each] })) },
            // Seven columns don't fit into 44 columns of the terminal: these are written row by row.
            {
              kind: 'table',
              columns: Array.from({ length: 7 }, () => ({ title: 'titled column', width: 1 })),
              rows: blocks.map((each) => ({
                cells: Array.from({ length: 7 }, (_, at) => ({
                  children:
                    at === 3 && each.kind === 'paragraph'
                      ? each.children
                      : [says('the cell of a column that is not narrow')],
                })),
              })),
            },
          )
          .map((block) => [parts.flatMap(([all]) => all), block]);
      });
    fc.assert(
      fc.property(fc.array(fc.oneof(paragraph, nested), { maxLength: 4 }), (parts) => {
        const out = writeText(documentOf(...parts.map(([, each]) => each)), { width: 44, colour: false });
        expect(out.match(/w\d+/g) ?? []).toEqual(parts.flatMap(([all]) => all));
      }),
      { seed: 13, numRuns: 300 },
    );
  });

  test('colour adds sequences and nothing else', () => {
    const document = documentOf({
      kind: 'paragraph',
      children: [{ kind: 'text', value: 'pass', tone: 'good' }],
    });
    const coloured = writeText(document, { width: 60, colour: true });
    expect(coloured).toContain('\u001b[32mpass\u001b[0m');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: the sequences are what is taken out.
    expect(coloured.replace(/\u001b\[[0-9;]*m/g, '')).toBe(writeText(document, { width: 60, colour: false }));
  });
});

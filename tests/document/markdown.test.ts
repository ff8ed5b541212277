import { describe, expect, test } from 'vitest';
import type { Block } from '../../src/document/model.ts';
import { writingPrompts } from '../../src/records/writing-prompts.ts';
import { compile, paragraph, text } from './compile.ts';

/** What the Markdown says, and the blocks that it must give without any finding. */
const plainCases: readonly {
  readonly name: string;
  readonly body: string;
  readonly blocks: readonly Block[];
}[] = [
  {
    name: 'emphasis, strong, code, strike (CommonMark 0.31.2, 6.1 and 6.2; GFM 0.29, 6.5)',
    body: '*a* **b** ***c*** `d * e` ~~f~~',
    blocks: [
      paragraph(
        text('a', { italic: true }),
        ' ',
        text('b', { bold: true }),
        ' ',
        text('c', { italic: true, bold: true }),
        ' ',
        text('d * e', { code: true }),
        ' ',
        text('f', { strike: true }),
      ),
    ],
  },
  {
    name: 'soft and hard line breaks (CommonMark 0.31.2, 6.7 and 6.8)',
    body: 'a\nb\\\nc  \nd',
    blocks: [paragraph('a b', { kind: 'line-break' }, 'c', { kind: 'line-break' }, 'd')],
  },
  {
    name: 'entities and backslash escapes (CommonMark 0.31.2, 2.4 and 2.5)',
    body: '&lt;b&gt; \\*no\\* &#8804; 3',
    blocks: [paragraph('<b> *no* ≤ 3')],
  },
  {
    name: 'lists: nested, numbered from another number (CommonMark 0.31.2, 5.3)',
    body: '- a\n- b\n\n  3. c\n  4. d\n\n     e\n',
    blocks: [
      {
        kind: 'list',
        ordered: false,
        items: [
          { blocks: [paragraph('a')] },
          {
            blocks: [
              paragraph('b'),
              {
                kind: 'list',
                ordered: true,
                start: 3,
                items: [{ blocks: [paragraph('c')] }, { blocks: [paragraph('d'), paragraph('e')] }],
              },
            ],
          },
        ],
      },
    ],
  },
  {
    name: 'task list (GFM 0.29, 5.3)',
    body: '- [x] done\n- [ ] open\n- plain',
    blocks: [
      {
        kind: 'list',
        ordered: false,
        items: [
          { checked: true, blocks: [paragraph('done')] },
          { checked: false, blocks: [paragraph('open')] },
          { blocks: [paragraph('plain')] },
        ],
      },
    ],
  },
  {
    name: 'table with alignment, escaped upright line and a missing cell (GFM 0.29, 4.10)',
    body: '| name | n | unit |\n| --- | ---: | :-: |\n| force \\| peak | 25 | N |\n| span |\n',
    blocks: [
      {
        kind: 'table',
        columns: [
          { title: 'name', width: 12, align: undefined },
          { title: 'n', width: 4, align: 'right' },
          { title: 'unit', width: 4, align: 'center' },
        ].map(({ align, ...rest }) => ({
          ...rest,
          ...(align && { align }),
        })) as never,
        rows: [
          {
            cells: [
              { children: [text('force | peak')] },
              { children: [text('25')] },
              { children: [text('N')] },
            ],
          },
          {
            cells: [{ children: [text('span')] }, { children: [] }, { children: [] }],
          },
        ],
      },
    ],
  },
  {
    name: 'table caption with anchor',
    body: 'Table: Limits of force {#limits}\n\n| a |\n| - |\n| 1 |\n\nSee [](#limits).',
    blocks: [
      {
        kind: 'table',
        caption: 'Limits of force',
        anchor: 'limits',
        columns: [{ title: 'a', width: 4 }],
        rows: [{ cells: [{ children: [text('1')] }] }],
      },
      paragraph('See ', { kind: 'cross-reference', anchor: 'limits' }, '.'),
    ],
  },
  {
    name: 'quote, code, rule (CommonMark 0.31.2, 5.1, 4.5, 4.1)',
    body: '> a\n> b\n\n```r\nx <- 1\n```\n\n---\n',
    blocks: [
      { kind: 'quote', blocks: [paragraph('a b')] },
      { kind: 'code', value: 'x <- 1', language: 'r' },
      { kind: 'rule' },
    ],
  },
  {
    name: 'links: web, mail, bare address, by definition',
    body: '[a](https://example.org/?x=1&y=2) <mailto:a@example.org> https://example.org [b][c]\n\n[c]: http://example.org/c',
    blocks: [
      paragraph(
        {
          kind: 'external-link',
          target: 'https://example.org/?x=1&y=2',
          children: [text('a')],
        },
        ' ',
        {
          kind: 'external-link',
          target: 'mailto:a@example.org',
          children: [text('mailto:a@example.org')],
        },
        ' ',
        {
          kind: 'external-link',
          target: 'https://example.org',
          children: [text('https://example.org')],
        },
        ' ',
        {
          kind: 'external-link',
          target: 'http://example.org/c',
          children: [text('b')],
        },
      ),
    ],
  },
  {
    name: 'headings: the highest becomes level 1, anchors are unique, links by anchor',
    body: '## Scope\n### Scope\n### Größe & Maß\n[](#scope) [the size](#größe-maß)',
    blocks: [
      { kind: 'heading', level: 1, children: [text('Scope')], anchor: 'scope' },
      {
        kind: 'heading',
        level: 2,
        children: [text('Scope')],
        anchor: 'scope-2',
      },
      {
        kind: 'heading',
        level: 2,
        children: [text('Größe & Maß')],
        anchor: 'größe-maß',
      },
      paragraph({ kind: 'cross-reference', anchor: 'scope' }, ' ', {
        kind: 'cross-reference',
        anchor: 'größe-maß',
        children: [text('the size')],
      }),
    ],
  },
  {
    name: 'record ids: linked in prose, cells and marks, not in code or links',
    body: 'See VP-09A, **DI-09** and `UN-01`, [UN-01](https://example.org).\n\n    VP-09A\n',
    blocks: [
      paragraph(
        'See ',
        { kind: 'record-reference', id: 'VP-09A' },
        ', ',
        { kind: 'record-reference', id: 'DI-09' },
        ' and ',
        text('UN-01', { code: true }),
        ', ',
        {
          kind: 'external-link',
          target: 'https://example.org',
          children: [text('UN-01')],
        },
        '.',
      ),
      { kind: 'code', value: 'VP-09A' },
    ],
  },
  {
    name: 'inline values, with the label and attributes as typed',
    body: 'Limit :value[VR-009A/lower_bound_x]{digits=2} of :phrase[shelf life].',
    blocks: [paragraph('Limit value(VR-009A/lower_bound_x){"digits":"2"} of phrase(shelf life).')],
  },
  {
    name: 'colons of ordinary prose stay text',
    body: 'At 10:30 the ratio 1:4, :warning, a:b and \\:note[with *stress* and VP-09A]{x=1}.',
    blocks: [
      paragraph(
        'At 10:30 the ratio 1:4, :warning, a:b and :note[with ',
        text('stress', { italic: true }),
        ' and ',
        { kind: 'record-reference', id: 'VP-09A' },
        ']{x=1}.',
      ),
    ],
  },
  {
    name: 'view blocks, landscape, page break, notices',
    body: '::page-break\n\n:::landscape\n## Matrix\n```plinth trace-matrix\nrows: user-need\n```\n:::\n\n:::caution\nRead this.\n:::\n\n:::note\nAnd this.\n:::\n',
    blocks: [
      { kind: 'page-break' },
      {
        kind: 'landscape',
        blocks: [
          {
            kind: 'heading',
            level: 1,
            children: [text('Matrix')],
            anchor: 'matrix',
          },
          paragraph('view trace-matrix: rows: user-need'),
        ],
      },
      { kind: 'notice', tone: 'caution', blocks: [paragraph('Read this.')] },
      { kind: 'notice', tone: 'quiet', blocks: [paragraph('And this.')] },
    ],
  },
  {
    name: 'comments are an author’s remarks',
    body: '<!-- a\nb -->\n\nx <!-- y --> z',
    blocks: [paragraph('x  z')],
  },
  {
    name: 'a heading with an anchor of its own, and one that only looks so',
    body: '# A *b* c {#limits}\n\n# \\{#x} A\n\n[](#limits)',
    blocks: [
      {
        kind: 'heading',
        level: 1,
        children: [text('A '), text('b', { italic: true }), text(' c')],
        anchor: 'limits',
      },
      { kind: 'heading', level: 1, children: [text('{#x} A')], anchor: 'x-a' },
      paragraph({ kind: 'cross-reference', anchor: 'limits' }),
    ],
  },
  {
    name: 'a heading makes room for a table that has its words for a name',
    body: '# Limits\n\nTable: B {#limits}\n\n| a |\n| - |\n| 1 |\n\n[](#limits) [](#limits-2)',
    blocks: [
      { kind: 'heading', level: 1, children: [text('Limits')], anchor: 'limits-2' },
      {
        kind: 'table',
        caption: 'B',
        anchor: 'limits',
        columns: [{ title: 'a', width: 4 }],
        rows: [{ cells: [{ children: [text('1')] }] }],
      },
      paragraph({ kind: 'cross-reference', anchor: 'limits' }, ' ', {
        kind: 'cross-reference',
        anchor: 'limits-2',
      }),
    ],
  },
  {
    name: 'a block within one of more colons, and in a quote',
    body: '::::note\n\n:::caution\n\na\n\n:::\n\n::::\n\n> :::note\n> b\n> :::',
    blocks: [
      {
        kind: 'notice',
        tone: 'quiet',
        blocks: [{ kind: 'notice', tone: 'caution', blocks: [paragraph('a')] }],
      },
      { kind: 'quote', blocks: [{ kind: 'notice', tone: 'quiet', blocks: [paragraph('b')] }] },
    ],
  },
  { name: 'an empty body', body: '\n\n', blocks: [] },
];

describe('Markdown that is shown as written', () => {
  test.each(plainCases)('$name', ({ body, blocks }) => {
    const compiled = compile(body);
    expect(compiled.findings).toEqual([]);
    expect(compiled.blocks).toEqual(blocks);
  });
});

/** Whoever hands in a document must see which section nobody has written; no section may only look empty. */
describe('what is still to be written', () => {
  const toBeWritten = (html: string) => writingPrompts(html).map(({ wanted }) => wanted);
  test.each<{ readonly name: string; readonly body: string; readonly blocks: readonly Block[] }>([
    {
      name: 'is a notice in its section, with record ids and marks as plain text',
      body: '<!-- Write: which lots of VP-09A,\n*made* and packed how. -->',
      blocks: [
        {
          kind: 'notice',
          tone: 'caution',
          blocks: [paragraph('To be written: which lots of VP-09A, *made* and packed how.')],
        },
      ],
    },
    {
      name: 'stands in bold where it was written within a sentence',
      body: 'a <!-- Write: b. --> c',
      blocks: [paragraph('a ', text('To be written: b.', { bold: true, tone: 'caution' }), ' c')],
    },
    {
      name: 'the remarks that a new record has',
      body: '<!-- Say here in one or two sentences what this record states. -->\n\n<!-- Write this section. -->',
      blocks: [
        { kind: 'notice', tone: 'caution', blocks: [paragraph('To be written: what this record states.')] },
        { kind: 'notice', tone: 'caution', blocks: [paragraph('To be written: this section.')] },
      ],
    },
    { name: 'other remarks stay out', body: '<!-- Write to the clinic. -->\n\n<!-- Write: -->', blocks: [] },
  ])('$name', ({ body, blocks }) => {
    const compiled = compile(body, { toBeWritten });
    expect(compiled.findings).toEqual([]);
    expect(compiled.blocks).toEqual(blocks);
  });
});

/** What can't be shown, the findings that say so (line and code), and the text that must remain. */
const lossCases: readonly {
  readonly name: string;
  readonly body: string;
  readonly findings: readonly string[];
  readonly blocks: readonly Block[];
}[] = [
  {
    name: 'raw HTML inline: the tags go, the text stays',
    body: 'a <b>bold</b> c',
    findings: ['1 raw-html', '1 raw-html'],
    blocks: [paragraph('a bold c')],
  },
  {
    name: 'raw HTML block',
    body: 'a\n\n<div>\nb\n</div>\n',
    findings: ['3 raw-html'],
    blocks: [paragraph('a')],
  },
  {
    name: 'HTML behind a comment',
    body: '<!-- a --> <script>x</script>',
    findings: ['1 raw-html'],
    blocks: [],
  },
  {
    name: 'links that run or hide something',
    body: '[a](javascript:alert(1)) [b](data:text/html,x) [c](JaVaScRiPt:x) [d](//example.org) [e](vbscript:x)',
    findings: Array(5).fill('1 unsafe-link'),
    blocks: [paragraph('a b c d e')],
  },
  {
    name: 'an encoded scheme',
    body: '[a](java&#10;script:x) [b](<\u0009javascript:x>)',
    findings: ['1 unsafe-link', '1 unsafe-link'],
    blocks: [paragraph('a b')],
  },
  {
    name: 'a link to a file',
    body: 'see [it](../x.md)',
    findings: ['1 lossy-markdown'],
    blocks: [paragraph('see it')],
  },
  {
    name: 'images',
    body: '![](a.png) x\n\n![the tip](b.png)',
    findings: ['1 image-without-alternative', '3 lossy-markdown'],
    blocks: [paragraph(' x'), paragraph('[the tip]')],
  },
  {
    name: 'an anchor that nothing has',
    body: 'x [](#nowhere)',
    findings: ['1 unknown-anchor'],
    blocks: [paragraph('x ', { kind: 'cross-reference', anchor: 'nowhere' })],
  },
  {
    name: 'a heading in a list',
    body: '- # A',
    findings: ['1 lossy-markdown'],
    blocks: [
      {
        kind: 'list',
        ordered: false,
        items: [{ blocks: [paragraph(text('A', { bold: true }))] }],
      },
    ],
  },
  {
    name: 'a skipped heading level',
    body: '# A\n### B',
    findings: ['2 heading-level-jump'],
    blocks: [
      { kind: 'heading', level: 1, children: [text('A')], anchor: 'a' },
      { kind: 'heading', level: 3, children: [text('B')], anchor: 'b' },
    ],
  },
  {
    name: 'unknown directives keep their text',
    body: ':::box\ninside\n:::\n\n::jump{x=1}\n\nA :vaule[VP-09A].',
    findings: ['1 unknown-directive', '5 unknown-directive', '7 unknown-directive'],
    blocks: [
      paragraph('inside'),
      paragraph('::jump{x=1}'),
      paragraph('A :vaule[', { kind: 'record-reference', id: 'VP-09A' }, '].'),
    ],
  },
  {
    name: 'a directive named like a property of every object',
    body: ':::constructor\ninside\n:::',
    findings: ['1 unknown-directive'],
    blocks: [paragraph('inside')],
  },
  {
    name: 'cells beyond the last column',
    body: '| a |\n| - |\n| 1 | 2 |',
    findings: ['3 lossy-markdown'],
    blocks: [
      {
        kind: 'table',
        columns: [{ title: 'a', width: 4 }],
        rows: [{ cells: [{ children: [text('1')] }] }],
      },
    ],
  },
  {
    name: 'a footnote nobody refers to',
    body: 'a\n\n[^x]: lost',
    findings: ['3 lossy-markdown'],
    blocks: [paragraph('a')],
  },
  {
    name: 'a footnote that is written nowhere, where it stands in running text',
    body: 'a\nb[^9] \\[^8] `[^7]` [^x y]',
    findings: ['2 footnote-missing'],
    blocks: [paragraph('a b[^9] [^8] ', text('[^7]', { code: true }), ' [^x y]')],
  },
  {
    name: 'a block that is not closed',
    body: 'a\n\n:::landscape\n\nb',
    findings: ['3 directive-unbalanced'],
    blocks: [paragraph('a'), { kind: 'landscape', blocks: [paragraph('b')] }],
  },
  {
    name: 'a block within one of as many colons: its end is taken for the end of both',
    body: ':::note\n\n:::caution\n\na\n\n:::\n\nb\n\n:::',
    findings: ['3 directive-unbalanced', '11 directive-unbalanced'],
    blocks: [
      {
        kind: 'notice',
        tone: 'quiet',
        blocks: [{ kind: 'notice', tone: 'caution', blocks: [paragraph('a')] }],
      },
      paragraph('b'),
      paragraph(':::'),
    ],
  },
  {
    name: 'a name that is none, or does not stand at the end',
    body: '# A {#bad name}\n\n# {#x} B\n\nTable: lonely {#z}',
    findings: ['1 lossy-markdown', '3 lossy-markdown', '5 lossy-markdown'],
    blocks: [
      { kind: 'heading', level: 1, children: [text('A {#bad name}')], anchor: 'a-bad-name' },
      { kind: 'heading', level: 1, children: [text('{#x} B')], anchor: 'x-b' },
      paragraph('Table: lonely {#z}'),
    ],
  },
  {
    name: 'a list within nine others',
    body: Array.from({ length: 10 }, (_, depth) => `${'  '.repeat(depth)}- ${depth}`).join('\n'),
    findings: ['10 lossy-markdown'],
    blocks: [
      Array.from({ length: 10 }, (_, depth) => depth).reduceRight<Block | undefined>(
        (inner, depth) => ({
          kind: 'list',
          ordered: false,
          items: [{ blocks: [paragraph(String(depth)), ...(inner ? [inner] : [])] }],
        }),
        undefined,
      ) as Block,
    ],
  },
  {
    name: 'headings without words',
    body: 'a\n\n##\n\n## {#x}',
    findings: ['3 lossy-markdown', '5 lossy-markdown'],
    blocks: [paragraph('a')],
  },
  {
    name: 'a footnote and a target that are written twice',
    body: 'a[^d] [b][t]\n\n[^d]: 25 N.\n\n[^d]: 52 N.\n\n[t]: https://example.org/1\n[t]: https://example.org/2',
    findings: ['5 lossy-markdown', '8 lossy-markdown'],
    blocks: [
      paragraph('a', { kind: 'footnote-reference', index: 0 }, ' ', {
        kind: 'external-link',
        target: 'https://example.org/1',
        children: [text('b')],
      }),
    ],
  },
  {
    name: 'settings and words of blocks that take none',
    body: ':::note{title="Before"}\n\na\n\n:::\n\n::page-break[Part two]\n\n::page-break{x=y}\n\n:::landscape{foo=bar}\n\nb\n\n:::',
    findings: ['1 lossy-markdown', '7 lossy-markdown', '9 lossy-markdown', '11 lossy-markdown'],
    blocks: [
      { kind: 'notice', tone: 'quiet', blocks: [paragraph('a')] },
      { kind: 'page-break' },
      { kind: 'page-break' },
      { kind: 'landscape', blocks: [paragraph('b')] },
    ],
  },
  {
    name: 'a name that a heading and a table want both',
    body: '# A {#x}\n\nTable: B {#x}\n\n| a |\n| - |\n| 1 |',
    findings: ['5 lossy-markdown'],
    blocks: [
      { kind: 'heading', level: 1, children: [text('A')], anchor: 'x' },
      {
        kind: 'table',
        caption: 'B',
        columns: [{ title: 'a', width: 4 }],
        rows: [{ cells: [{ children: [text('1')] }] }],
      },
    ],
  },
  {
    name: 'an anchor that is given twice',
    body: '# A {#x}\n\n# B {#x}',
    findings: ['3 lossy-markdown'],
    blocks: [
      { kind: 'heading', level: 1, children: [text('A')], anchor: 'x' },
      { kind: 'heading', level: 1, children: [text('B')], anchor: 'b' },
    ],
  },
  {
    name: 'control characters',
    body: 'ok\n\na\u0001b\ud800',
    findings: ['3 control-character'],
    blocks: [paragraph('ok'), paragraph('a\ufffdb\ufffd')],
  },
  {
    name: 'characters that turn the direction of text',
    body: 'at most \u202e03\u202c N\n\nU+200F \u200f stays',
    findings: ['1 control-character'],
    blocks: [paragraph('at most \ufffd03\ufffd N'), paragraph('U+200F \u200f stays')],
  },
];

describe('Markdown that cannot be shown as written', () => {
  test.each(lossCases)('$name', ({ body, findings, blocks }) => {
    const compiled = compile(body);
    expect(compiled.findings.map(({ place, code }) => `${place.line} ${code}`)).toEqual(findings);
    expect(compiled.blocks).toEqual(blocks);
  });
});

describe('footnotes', () => {
  test('a note that is named twice is one note', () => {
    const { blocks, footnotes, findings } = compile('a[^1] b[^two] c[^1]\n\n[^1]: one\n[^two]: two\n', {
      firstFootnote: 5,
    });
    expect(findings).toEqual([]);
    expect(footnotes).toEqual([[paragraph('one')], [paragraph('two')]]);
    expect(blocks).toEqual([
      paragraph(
        'a',
        { kind: 'footnote-reference', index: 5 },
        ' b',
        { kind: 'footnote-reference', index: 6 },
        ' c',
        {
          kind: 'footnote-reference',
          index: 5,
        },
      ),
    ]);
  });

  test('a note within a note is reported, also where it names itself', () => {
    const { footnotes, findings } = compile('a[^1]\n\n[^1]: one[^1]');
    expect(findings.map(({ code }) => code)).toEqual(['lossy-markdown']);
    expect(footnotes).toEqual([[paragraph('one')]]);
  });
});

describe('places', () => {
  test('lines count from the start of the file', () => {
    const { findings } = compile('a\n\n<br>', { firstLine: 12 });
    expect(findings[0]?.place).toEqual({
      file: 'documents/doc-03.md',
      line: 14,
      column: 1,
      endLine: 14,
      endColumn: 5,
    });
  });

  test('a view block is given its place and the level of the heading above', () => {
    const seen: unknown[] = [];
    compile('# A\n\n## B\n\n```plinth records\ntype: x\n```', {
      firstLine: 10,
      expandView: (name, yamlText, place, enclosingLevel) => {
        seen.push([name, yamlText, place.line, place.column, enclosingLevel]);
        return [];
      },
    });
    expect(seen).toEqual([['records', 'type: x', 14, 1, 2]]);
  });

  test('ids that name no record are handed to the caller with line and column', () => {
    const { unknownRecordIds, findings } = compile('VP-09A and\nalso VP-77 here', { firstLine: 3 });
    expect(findings).toEqual([]);
    expect(unknownRecordIds).toEqual([
      {
        id: 'VP-77',
        place: { file: 'documents/doc-03.md', line: 4, column: 6 },
      },
    ]);
  });

  test('a landscape view within a list gives its blocks', () => {
    const { blocks } = compile('- a\n\n  ```plinth v\n  ```', {
      expandView: () => [{ kind: 'landscape', blocks: [paragraph('wide')] }],
    });
    expect(blocks).toEqual([
      {
        kind: 'list',
        ordered: false,
        items: [{ blocks: [paragraph('a'), paragraph('wide')] }],
      },
    ]);
  });

  test('the highest heading can be set lower', () => {
    const { blocks } = compile('# A\n## B', { topHeadingLevel: 3 });
    expect(blocks.map((block) => block.kind === 'heading' && block.level)).toEqual([3, 4]);
  });
});

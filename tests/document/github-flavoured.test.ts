import { describe, expect, test } from 'vitest';
import { documentText } from '../../src/document/document-text.ts';
import type { Block, Inline } from '../../src/document/model.ts';
import { compile } from './compile.ts';

// Rules of the extensions in the GitHub Flavored Markdown Spec, version 0.29-gfm, by its section numbers. The
// specification has no package with its examples, so the texts are ours, one for each rule that it states.

const of = (markdown: string) => {
  const { blocks, footnotes, findings } = compile(markdown);
  return { blocks, findings: findings.map(({ code }) => code), text: documentText({ blocks, footnotes }) };
};
const kinds = (blocks: readonly Block[]): readonly string[] => blocks.map(({ kind }) => kind);
const inlinesOf = (markdown: string): readonly Inline[] => {
  const [block] = of(markdown).blocks;
  if (block?.kind !== 'paragraph') throw new Error(`no paragraph but ${block?.kind}`);
  return block.children;
};
const tableOf = (markdown: string) => {
  const [block] = of(markdown).blocks;
  if (block?.kind !== 'table') throw new Error(`no table but ${block?.kind}`);
  return {
    titles: block.columns.map(({ title }) => title),
    align: block.columns.map(({ align }) => align),
    rows: block.rows.map((row) =>
      row.cells.map(({ children }) =>
        documentText({ blocks: [{ kind: 'paragraph', children }], footnotes: [] }),
      ),
    ),
  };
};

describe('4.10 Tables', () => {
  test('a header row, a delimiter row and data rows', () => {
    expect(tableOf('| part | mm |\n| --- | --- |\n| bore | 4.00 |')).toEqual({
      titles: ['part', 'mm'],
      align: [undefined, undefined],
      rows: [['bore', '4.00']],
    });
  });
  test('cells need not match in length, and outer pipes may be left out', () => {
    expect(tableOf('part | mm\n:-: | -----------:\nbore | 4.00')).toMatchObject({
      align: ['center', 'right'],
      rows: [['bore', '4.00']],
    });
  });
  test('a pipe in a cell is escaped, within other marks too', () => {
    expect(tableOf('| f\\|oo |\n| ------ |\n| b `\\|` az |\n| b **\\|** im |').rows).toEqual([
      ['b | az'],
      ['b | im'],
    ]);
  });
  test('the table is broken at the first empty line, or the start of another block', () => {
    expect(kinds(of('| a | b |\n| - | - |\n| 1 | 2 |\n> quote').blocks)).toEqual(['table', 'quote']);
    expect(kinds(of('| a | b |\n| - | - |\n| 1 | 2 |\nword\n\nword').blocks)).toEqual(['table', 'paragraph']);
    expect(tableOf('| a | b |\n| - | - |\n| 1 | 2 |\nword').rows).toEqual([
      ['1', '2'],
      ['word', ''],
    ]);
  });
  test('the header row must match the delimiter row in the number of cells', () => {
    expect(kinds(of('| a | b |\n| - |\n| 1 |').blocks)).toEqual(['paragraph']);
  });
  test('rows with fewer cells are filled up; further cells are left out, and that is said', () => {
    const markdown = '| a | b |\n| - | - |\n| 1 |\n| 1 | 2 | 3 |';
    expect(tableOf(markdown).rows).toEqual([
      ['1', ''],
      ['1', '2'],
    ]);
    expect(of(markdown).findings).toEqual(['lossy-markdown']);
  });
  test('a table may have no rows of data', () => {
    expect(tableOf('| a | b |\n| - | - |').rows).toEqual([]);
  });
});

describe('5.3 Task list items', () => {
  test('are checked or not, in lists of either kind and in nested ones', () => {
    expect(of('- [ ] open\n- [x] done\n  1. [X] inner\n  2. [ ] other').blocks).toMatchObject([
      {
        kind: 'list',
        items: [
          { checked: false },
          {
            checked: true,
            blocks: [
              { kind: 'paragraph' },
              { kind: 'list', ordered: true, items: [{ checked: true }, { checked: false }] },
            ],
          },
        ],
      },
    ]);
  });
  test('other brackets are text', () => {
    expect(of('- [y] no task\n- [] none\n- [ ]none').text).toBe('[y] no task\n[] none\n[ ]none');
  });
});

describe('6.5 Strikethrough', () => {
  test('between one tilde or two', () => {
    expect(inlinesOf('~~Hi~~ Hello, ~there~ world!')).toEqual([
      { kind: 'text', value: 'Hi', strike: true },
      { kind: 'text', value: ' Hello, ' },
      { kind: 'text', value: 'there', strike: true },
      { kind: 'text', value: ' world!' },
    ]);
  });
  test('three tildes are none, and a new paragraph ends it', () => {
    expect(of('This will ~~~not~~~ strike.').text).toBe('This will ~~~not~~~ strike.');
    expect(of('This ~~has a\n\nnew paragraph~~.').text).toBe('This ~~has a\nnew paragraph~~.');
  });
});

describe('6.9 Autolinks', () => {
  const targets = (markdown: string): readonly string[] =>
    inlinesOf(markdown).flatMap((inline) => (inline.kind === 'external-link' ? [inline.target] : []));
  test.each([
    ['www.example.org', ['http://www.example.org']],
    ['Visit www.example.org/help for more.', ['http://www.example.org/help']],
    ['Visit www.example.org.', ['http://www.example.org']],
    ['Visit www.example.org/a.b.', ['http://www.example.org/a.b']],
    ['www.example.org/search?q=Markup+(business)', ['http://www.example.org/search?q=Markup+(business)']],
    ['(www.example.org/search?q=Markup+(business))', ['http://www.example.org/search?q=Markup+(business)']],
    ['www.example.org/search?q=(business))+ok', ['http://www.example.org/search?q=(business))+ok']],
    ['www.example.org/search?q=commonmark&hl;', ['http://www.example.org/search?q=commonmark']],
    ['www.example.org/he<lp', ['http://www.example.org/he']],
    ['http://example.org', ['http://example.org']],
    [
      '(Visit https://encrypted.example.org/search?q=Markup+(business))',
      ['https://encrypted.example.org/search?q=Markup+(business)'],
    ],
    ['foo@bar.example', ['mailto:foo@bar.example']],
    ["hello@mail+xyz.example isn't valid, but hello+xyz@mail.example is.", ['mailto:hello+xyz@mail.example']],
    ['a.b-c_d@a.b.', ['mailto:a.b-c_d@a.b']],
    ['a.b-c_d@a.b- and a.b-c_d@a.b_', []],
  ])('%s', (markdown, expected) => {
    expect(targets(markdown)).toEqual(expected);
    expect(of(markdown).text).toBe(markdown);
  });
});

describe('6.11 Disallowed raw HTML', () => {
  test.each(['title', 'textarea', 'style', 'xmp', 'iframe', 'noembed', 'noframes', 'script', 'plaintext'])(
    'the tag %s is refused as all HTML is',
    (tag) => {
      const { findings, text } = of(`One <${tag}>two</${tag}> three.`);
      expect(findings).toContain('raw-html');
      expect(text).not.toContain(`<${tag}`);
    },
  );
});

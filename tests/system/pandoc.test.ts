import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { documentText, inlineText } from '../../src/document/document-text.ts';
import { createMarkdownCompiler } from '../../src/document/markdown.ts';
import type { Block, Document } from '../../src/document/model.ts';
import { createCounters, findTargets, forEachBlock, isDrawn } from '../../src/document/numbering.ts';
import { analyse } from '../../src/pipeline.ts';
import { compileDocuments } from '../../src/views/compile-document.ts';
import { writeDocx } from '../../src/writers/docx/write-docx.ts';
import { writeHtml } from '../../src/writers/html/write-html.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';
import { plainPng } from '../writers/plain-png.ts';
import { sampleDocument } from '../writers/sample-document.ts';
import { inFolder, run } from './programs.ts';

// Pandoc reads Word files by a program that has nothing in common with ours. What it finds in a file must be what the
// document model says: the same headings, the same tables, the same words.

interface PandocNode {
  readonly t: string;
  readonly c?: unknown;
}

const read = (content: Uint8Array | string, format: 'docx' | 'html'): readonly PandocNode[] =>
  inFolder((folder) => {
    const file = join(folder, `document.${format}`);
    writeFileSync(file, content);
    const json = join(folder, 'document.json');
    const { status, output } = run('pandoc', ['-f', format, '-t', 'json', '-o', json, file]);
    if (status !== 0) throw new Error(output);
    return (JSON.parse(readFileSync(json, 'utf8')) as { blocks: readonly PandocNode[] }).blocks;
  });

/** All text below a node, words apart by one blank. */
const textOf = (node: unknown): string => {
  if (Array.isArray(node)) return node.map(textOf).join('');
  if (typeof node !== 'object' || node === null) return '';
  const { t, c } = node as PandocNode;
  if (t === 'Str') return String(c);
  if (t === 'Space' || t === 'SoftBreak' || t === 'LineBreak') return ' ';
  if (t === 'Code' || t === 'CodeBlock') return ` ${String((c as readonly unknown[])[1])} `;
  // Of links, spans and headings the text is the last but attributes and targets come before and after.
  if (t === 'Link' || t === 'Image' || t === 'Span') return textOf((c as readonly unknown[])[1]);
  if (t === 'Para' || t === 'Plain') return `${textOf(c)} `;
  if (c !== undefined) return textOf(c);
  return Object.values(node).map(textOf).join('');
};

const bare = (text: string): string => text.normalize('NFKC').replace(/\s+/g, '');

const nodesOf = (nodes: unknown, wanted: string, found: PandocNode[] = []): readonly PandocNode[] => {
  if (Array.isArray(nodes)) for (const node of nodes) nodesOf(node, wanted, found);
  else if (typeof nodes === 'object' && nodes !== null) {
    const node = nodes as PandocNode;
    if (node.t === wanted) found.push(node);
    nodesOf(Object.values(node), wanted, found);
  }
  return found;
};

const headingsOf = (document: Document): readonly string[] => {
  const targets = findTargets(document);
  const counters = createCounters();
  const headings: string[] = [];
  forEachBlock(document.blocks, (block, nested) => {
    if (block.kind === 'heading' && !nested)
      headings.push(`${counters.heading(block.level).level} ${bare(inlineText(block.children, targets))}`);
  });
  return headings;
};

/** Texts of the tables of data, in order, each as one line. */
const tablesOf = (document: Document): readonly string[] => {
  const targets = findTargets(document);
  const tables: string[] = [];
  const add = (blocks: readonly Block[]): void =>
    forEachBlock(blocks, (block) => {
      if (block.kind !== 'table' || !isDrawn(block)) return;
      const cells = block.rows.flatMap((row) => row.cells.map((cell) => inlineText(cell.children, targets)));
      tables.push(bare([...block.columns.map(({ title }) => title), ...cells].join(' ')));
    });
  add(document.blocks);
  return tables;
};

const rasterise = (_svg: string, width: number, height: number) => plainPng(width, height);
const analysis = analyse(inputsFrom(readTree('content')), []);
const compiled = compileDocuments(
  { ...analysis, waived: analysis.waivers.waived },
  await createMarkdownCompiler(),
).filter(({ document }) => !/^DOC-20-VR-(?!01$|09A$|17$)/.test(document.id));

const documents: readonly (readonly [string, Document])[] = [
  ['every kind of block', sampleDocument],
  ...compiled.map(({ document }) => [document.id, document] as const),
];

describe('pandoc reads back', () => {
  test.each(documents)('%s', async (_name, document) => {
    // Without layout: page numbers do not matter here.
    const { bytes } = await writeDocx(document, { rasterise, mostCellsToLayOut: -1 });
    const blocks = read(bytes, 'docx');
    const headings = nodesOf(blocks, 'Header').map(({ c }) => {
      const [level, , inlines] = c as readonly [number, unknown, unknown];
      return `${level} ${bare(textOf(inlines))}`;
    });
    const expected = headingsOf(document);
    expect(headings.filter((heading) => expected.includes(heading))).toEqual(expected);
    // Head, bodies and foot: what pandoc takes for a table's caption is its alternative text.
    const tables = nodesOf(blocks, 'Table').map(({ c }) => bare(textOf((c as readonly unknown[]).slice(3))));
    const missing = tablesOf(document).filter((table) => !tables.includes(table));
    expect(missing).toEqual([]);
    const all = bare(textOf(blocks));
    const lines = documentText(document)
      .split(/[\n\t]/)
      .map(bare)
      .filter((line) => line !== '');
    expect(lines.filter((line) => !all.includes(line))).toEqual([]);
    // The page says what the Word file says.
    const page = read(writeHtml(document), 'html');
    const onPage = bare(textOf(page));
    expect(lines.filter((line) => !onPage.includes(line))).toEqual([]);
    const tablesOfPage = nodesOf(page, 'Table').map(({ c }) =>
      bare(textOf((c as readonly unknown[]).slice(3))),
    );
    expect(tablesOf(document).filter((table) => !tablesOfPage.includes(table))).toEqual([]);
  });

  test('no fewer documents than the file has', () => {
    expect(compiled.length).toBeGreaterThan(15);
    expect(readdirSync(new URL('../../content/documents', import.meta.url)).length).toBeGreaterThan(10);
  });
});

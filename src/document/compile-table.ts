import type { Nodes, Table as TableNode } from 'mdast';
import { toString as textOf } from 'mdast-util-to-string';
import {
  type Compilation,
  ownAnchor,
  reportLoss,
  reportTypedName,
  type Surroundings,
} from './compilation.ts';
import { compileInlines } from './compile-inlines.ts';
import type { Table } from './model.ts';

/** The caption that an author writes in a paragraph of its own right above the table: `Table: Limits {#limits}`. */
export interface TableCaption {
  readonly caption: string;
  readonly anchor?: string;
}

/** Reads the paragraph above a table; `undefined` where it is no caption. */
export function tableCaption(node: Nodes | undefined): TableCaption | undefined {
  if (node?.type !== 'paragraph') return undefined;
  const match = /^Table:\s+(.+?)(?:\s*\{#([\p{L}\p{N}-]+)\})?$/su.exec(textOf(node));
  const [, caption, anchor] = match ?? [];
  if (caption === undefined) return undefined;
  return {
    caption: caption.replace(/\s+/g, ' '),
    ...(anchor !== undefined && { anchor }),
  };
}

/** Compiles a table; columns get room by what stands in them. */
export function compileTable(
  node: TableNode,
  caption: TableCaption | undefined,
  compilation: Compilation,
  around: Surroundings,
): Table {
  const [head, ...body] = node.children;
  const titles = head?.children ?? [];
  for (const title of titles) {
    if (title.children.some((child) => !['text', 'strong', 'emphasis', 'inlineCode'].includes(child.type))) {
      const hint = 'Move links, notes and values into the rows.';
      reportLoss(compilation, title, `the column title "${textOf(title)}" is kept as plain text`, hint);
    }
  }
  for (const row of body) {
    const extra = row.children.slice(titles.length);
    if (extra.length === 0) continue;
    const message = `${extra.length} cell(s) beyond the last column are left out: ${extra.map((cell) => textOf(cell)).join(' | ')}`;
    reportLoss(compilation, row, message, 'Add a column title, or put a backslash before the upright line.');
  }
  const anchor = ownAnchor(compilation, node, caption?.anchor);
  if (caption) reportTypedName(compilation, node, caption.caption);
  return {
    kind: 'table',
    ...(caption ? { caption: caption.caption } : {}),
    ...(anchor !== undefined && { anchor }),
    columns: titles.map((title, column) => {
      const align = node.align?.[column];
      return {
        title: textOf(title),
        width: columnWidth(
          node.children.map((row) => textOf(row.children[column] ?? { type: 'text', value: '' })),
        ),
        ...(align && { align }),
      };
    }),
    rows: body.map((row) => ({
      cells: titles.map((_, column) => ({
        children: compileInlines(row.children[column]?.children ?? [], compilation, around),
      })),
    })),
  };
}

/** A share between the longest word, which should not break, and the longest cell, which may. */
function columnWidth(texts: readonly string[]): number {
  const longestWord = Math.max(
    ...texts.map((text) => Math.max(...text.split(/\s+/).map((word) => word.length))),
  );
  const longest = Math.max(...texts.map((text) => text.length));
  return Math.max(4, Math.min(longestWord, 24), Math.min(longest, 40));
}

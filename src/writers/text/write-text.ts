import stringWidth from 'string-width';
import type { Block, Column, Document, Inline, Row, Table } from '../../document/model.ts';
import {
  type Counters,
  createCounters,
  findTargets,
  isDrawn,
  type Targets,
} from '../../document/numbering.ts';
import { printable } from '../report-text/printable.ts';
import { foldWords, type Line, type Style, type Word, wordsOf } from './styled-words.ts';

export interface TextOptions {
  /** Columns of the terminal. */
  readonly width: number;
  readonly colour: boolean;
}

const escapeSequence = '\u001b[';
const colours: Readonly<Record<Style, string>> = {
  good: '32',
  bad: '31;1',
  caution: '33;1',
  quiet: '2',
  strong: '1',
  plain: '',
};

/** Blanks between two columns of a table. */
const gap = 2;
/** Columns narrower than this are no columns: the table is then written row by row. */
const narrowestColumn = 9;

/** However deep a block lies, this many columns are left to it, even beyond the edge of the terminal. */
const leastRoom = 8;

/** The largest of some counts, at least 1. A loop, since a long table has more rows than Math.max takes arguments. */
const widest = (counts: readonly number[]): number => counts.reduce((most, each) => Math.max(most, each), 1);

interface Page extends TextOptions {
  readonly targets: Targets;
  readonly counters: Counters;
}

const isColoured = (style: Style, page: Page): boolean => page.colour && colours[style] !== '';

const painted = (text: string, style: Style, page: Page): string =>
  isColoured(style, page) ? `${escapeSequence}${colours[style]}m${text}${escapeSequence}0m` : text;

const lineText = (line: Line, page: Page): string =>
  line.words
    .map(
      (word: Word, index) =>
        `${index > 0 && !word.isGlued ? ' ' : ''}${painted(word.text, word.style, page)}`,
    )
    .join('');

/** A document for a person at a terminal: no line is wider than the terminal. Figures become their alternative text. */
export const writeText = (document: Document, options: TextOptions): string => {
  const page: Page = { ...options, targets: findTargets(document), counters: createCounters() };
  const head = [
    ...folded([{ kind: 'text', value: document.title, bold: true }], page.width, page),
    ...(document.subtitle ? folded([{ kind: 'text', value: document.subtitle }], page.width, page) : []),
  ];
  const parts = [
    head,
    ...document.blocks.map((block) => blockLines(block, page.width, page)),
    ...document.footnotes.map((blocks, index) =>
      hanging(`[${index + 1}] `, blocksLines(blocks, page.width - 4, page), page.width),
    ),
    document.provenance.flatMap(({ name, value }) =>
      folded([{ kind: 'text', value: `${name}: ${value}`, tone: 'quiet' }], page.width, page),
    ),
  ];
  return `${parts
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n')}\n`;
};

const folded = (children: readonly Inline[], width: number, page: Page): readonly string[] =>
  foldWords(wordsOf(children, page.targets), width).map((line) => lineText(line, page));

/** Lines behind a mark: the first one right of it, the others set in as far. */
const hanging = (mark: string, lines: readonly string[], width: number): readonly string[] => {
  const indent = ' '.repeat(Math.min(stringWidth(mark), width));
  return lines.map((line, index) => (line === '' ? '' : `${index === 0 ? mark : indent}${line}`));
};

const blocksLines = (blocks: readonly Block[], width: number, page: Page): readonly string[] =>
  blocks.flatMap((block, index) => {
    const lines = blockLines(block, width, page);
    return index === 0 || lines.length === 0 ? lines : ['', ...lines];
  });

const blockLines = (block: Block, room: number, page: Page): readonly string[] => {
  const width = Math.max(leastRoom, room);
  switch (block.kind) {
    case 'heading': {
      const { level, number } = page.counters.heading(block.level);
      const words = folded(
        [{ kind: 'text', value: `${number} `, bold: true }, ...block.children.map(bold)],
        width,
        page,
      );
      return level === 1 ? [...words, painted('─'.repeat(width), 'quiet', page)] : words;
    }
    case 'paragraph':
      return folded(block.children, width, page);
    case 'list':
      return block.items.flatMap((item, index) => {
        const mark = block.ordered
          ? `${(block.start ?? 1) + index}. `
          : item.checked === undefined
            ? '- '
            : item.checked
              ? '[x] '
              : '[ ] ';
        return hanging(mark, blocksLines(item.blocks, width - mark.length, page), width);
      });
    case 'table':
      return isDrawn(block) ? tableLines(block, width, page) : [];
    case 'particulars': {
      const column = Math.min(
        widest(block.entries.map(({ name }) => stringWidth(printable(name)))),
        Math.floor(width / 3),
      );
      return block.entries.flatMap(({ name, value }) =>
        sideBySide(
          [
            foldWords(wordsOf([{ kind: 'text', value: name, tone: 'quiet' }], page.targets), column),
            foldWords(wordsOf(value, page.targets), width - column - gap),
          ],
          [column, width - column - gap],
          page,
        ),
      );
    }
    case 'figure':
      return folded(
        [
          { kind: 'text', value: `Figure ${page.counters.figure()}: ${block.caption}. `, bold: true },
          { kind: 'text', value: block.alternative },
        ],
        width,
        page,
      );
    case 'code':
      return block.value.split(/\r\n|\n|\r/).flatMap((line) => cut(`    ${printable(line)}`, width));
    case 'quote':
      return hanging('> ', blocksLines(block.blocks, width - 2, page), width);
    case 'notice':
      return blocksLines(block.blocks, width - 2, page).map(
        (line) => `${painted('│', block.tone, page)}${line === '' ? '' : ` ${line}`}`,
      );
    case 'landscape':
      return blocksLines(block.blocks, width, page);
    case 'rule':
      return [painted('─'.repeat(width), 'quiet', page)];
    case 'page-break':
      return [];
  }
};

const bold = (child: Inline): Inline => (child.kind === 'text' ? { ...child, bold: true } : child);

/** A line of code, cut rather than folded: its blanks mean something. */
const cut = (line: string, width: number): readonly string[] => {
  const lines: string[] = [''];
  for (const character of line) {
    if (stringWidth((lines.at(-1) ?? '') + character) > width) lines.push('');
    lines[lines.length - 1] += character;
  }
  return lines;
};

/** Cells next to each other, each filled up to its width. */
const sideBySide = (
  cells: readonly (readonly Line[])[],
  widths: readonly number[],
  page: Page,
  columns: readonly Column[] = [],
): readonly string[] => {
  const height = widest(cells.map((cell) => cell.length));
  return Array.from({ length: height }, (_, row) =>
    cells
      .map((cell, index) => {
        const line = cell[row];
        const blanks = Math.max(0, (widths[index] ?? 0) - (line?.width ?? 0));
        const before = { right: blanks, center: Math.floor(blanks / 2), left: 0 }[
          columns[index]?.align ?? 'left'
        ];
        return `${' '.repeat(before)}${line ? lineText(line, page) : ''}${' '.repeat(blanks - before)}`;
      })
      .join(' '.repeat(gap))
      .trimEnd(),
  );
};

/** The cells of a row at their columns: where a cell above reaches down, there is none. */
const cellsAt = (table: Table): readonly (readonly (Row['cells'][number] | undefined)[])[] => {
  const open = table.columns.map(() => 0);
  return table.rows.map((row) => {
    let next = 0;
    return table.columns.map((_, column) => {
      if ((open[column] ?? 0) > 0) {
        open[column] = (open[column] ?? 0) - 1;
        return undefined;
      }
      const cell = row.cells[next];
      next += 1;
      open[column] = Math.max(0, (cell?.rowSpan ?? 1) - 1);
      return cell;
    });
  });
};

/** Widest part of a cell that is not broken where there is room, up to a fifth of the line. */
const columnWidths = (
  table: Table,
  rows: ReturnType<typeof cellsAt>,
  width: number,
  page: Page,
): readonly number[] | undefined => {
  const room = width - gap * (table.columns.length - 1);
  const wanted = table.columns.map((column, index) =>
    widest([
      stringWidth(printable(column.title)),
      ...rows.map((row) => {
        const lines = wordsOf(row[index]?.children ?? [], page.targets);
        return widest(foldWords(lines, room).map((line) => line.width));
      }),
    ]),
  );
  const total = wanted.reduce((sum, each) => sum + each, 0);
  if (total <= room) return wanted;
  // Columns that want less than their share get what they want; the others divide the rest.
  const shares = table.columns.reduce((sum, column) => sum + column.width, 0) || 1;
  let widths = table.columns.map(() => 0);
  let left = room;
  let undecided = table.columns.map((_, index) => index);
  for (;;) {
    const part = undecided.reduce((sum, index) => sum + (table.columns[index]?.width ?? 0), 0) || shares;
    const modest = undecided.filter(
      (index) => (wanted[index] ?? 0) <= Math.floor((left * (table.columns[index]?.width ?? 0)) / part),
    );
    if (modest.length === 0) {
      widths = widths.map((each, index) =>
        undecided.includes(index) ? Math.floor((left * (table.columns[index]?.width ?? 0)) / part) : each,
      );
      break;
    }
    for (const index of modest) {
      widths[index] = wanted[index] ?? 0;
      left -= wanted[index] ?? 0;
    }
    undecided = undecided.filter((index) => !modest.includes(index));
    if (undecided.length === 0) break;
  }
  const isTooNarrow = widths.some(
    (each, index) => each < Math.min(narrowestColumn, wanted[index] ?? 0) || each === 0,
  );
  return isTooNarrow ? undefined : widths;
};

const tableLines = (table: Table, width: number, page: Page): readonly string[] => {
  const caption =
    table.caption === undefined
      ? []
      : folded(
          [{ kind: 'text', value: `Table ${page.counters.table()}: ${table.caption}`, bold: true }],
          width,
          page,
        );
  const rows = cellsAt(table);
  const widths = columnWidths(table, rows, width, page);
  if (widths === undefined) return [...caption, ...rowByRow(table, rows, width, page)];
  const heads = table.columns.map((column, index) =>
    foldWords(
      wordsOf([{ kind: 'text', value: column.title, tone: 'quiet' }], page.targets),
      widths[index] ?? 1,
    ),
  );
  const bodies = rows.map((row) =>
    sideBySide(
      row.map((cell, index) => foldWords(wordsOf(cell?.children ?? [], page.targets), widths[index] ?? 1)),
      widths,
      page,
      table.columns,
    ),
  );
  const isOpen = bodies.some((lines) => lines.length > 1);
  const whole = widths.reduce((sum, each) => sum + each, 0) + gap * (widths.length - 1);
  return [
    ...caption,
    ...sideBySide(heads, widths, page, table.columns),
    painted('─'.repeat(Math.min(width, whole)), 'quiet', page),
    ...bodies.flatMap((lines, index) => (isOpen && index > 0 ? ['', ...lines] : lines)),
  ];
};

/** A table with more columns than the terminal holds: a block for each row, a line for each cell. */
const rowByRow = (
  table: Table,
  rows: ReturnType<typeof cellsAt>,
  width: number,
  page: Page,
): readonly string[] => {
  const column = Math.min(
    widest(table.columns.map(({ title }) => stringWidth(printable(title)))),
    Math.floor(width / 3),
  );
  return rows.flatMap((row, at) => [
    ...(at > 0 ? [''] : []),
    ...row.flatMap((cell, index) =>
      cell === undefined
        ? []
        : sideBySide(
            [
              foldWords(
                wordsOf(
                  [{ kind: 'text', value: table.columns[index]?.title ?? '', tone: 'quiet' }],
                  page.targets,
                ),
                column,
              ),
              foldWords(wordsOf(cell.children, page.targets), width - column - gap),
            ],
            [column, width - column - gap],
            page,
          ),
    ),
  ]);
};

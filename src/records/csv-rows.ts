import { CsvError, parse } from 'csv-parse/sync';

/** One cell of a raw-data file. */
export interface Cell {
  readonly text: string;
  /** Line of the file, from 1. */
  readonly line: number;
  /** Column of its first character in that line, from 1. */
  readonly column: number;
}

/** What is wrong with the text, and where. */
export interface CsvFault {
  readonly line: number;
  readonly column: number;
  readonly message: string;
}

export type CsvOutcome =
  | { readonly ok: true; readonly rows: readonly (readonly Cell[])[] }
  | { readonly ok: false; readonly fault: CsvFault };

/** The sign between columns: the first of comma, semicolon and tab that the first line holds outside quotes. */
export const delimiterOf = (firstLine: string): string => {
  const bare = firstLine.replace(/"[^"]*"/g, '');
  return [',', ';', '\t'].find((sign) => bare.includes(sign)) ?? ',';
};

/** Where a cell's first character stands in its line. Lines with quoted cells are not taken apart again: there it is 1. */
const columnOf = (line: string, index: number, delimiter: string): number => {
  if (line.includes('"')) return 1;
  let start = 0;
  for (let cell = 0; cell < index; cell += 1) start = line.indexOf(delimiter, start) + 1;
  while (line[start] === ' ') start += 1;
  return start + 1;
};

/** Cells of a row with their places; the parser tells the line on which the row ends. */
const cellsOf = (
  values: readonly string[],
  lastLine: number,
  lines: readonly string[],
  delimiter: string,
): readonly Cell[] => {
  const cells: Cell[] = [];
  let line = lastLine;
  for (let index = values.length - 1; index >= 0; index -= 1) {
    const value = values[index] ?? '';
    for (let at = value.indexOf('\n'); at !== -1; at = value.indexOf('\n', at + 1)) line -= 1;
    cells.push({ text: value.trim(), line, column: columnOf(lines[line - 1] ?? '', index, delimiter) });
  }
  return cells.reverse();
};

const faultWords: Readonly<Record<string, string>> = {
  CSV_QUOTE_NOT_CLOSED: 'a quoted value is not closed',
  CSV_INVALID_CLOSING_QUOTE: 'text follows a quoted value; double the quotation marks within it',
  INVALID_OPENING_QUOTE: 'a quotation mark stands in the wrong place',
};

const lastQuote = (lines: readonly string[]): { readonly line: number; readonly column: number } => {
  const index = lines.findLastIndex((line) => line.includes('"'));
  return { line: index + 1, column: (lines[index]?.lastIndexOf('"') ?? 0) + 1 };
};

/**
 * Cuts a text with LF line ends into rows and cells by RFC 4180. Blanks around a cell don't count. Lines without
 * anything are left out where a row has more than one cell; with a single column an empty line is an empty cell, except
 * at the end. Every row must be as long as the first.
 */
export const csvRows = (text: string, delimiter: string): CsvOutcome => {
  const lines = text.split('\n');
  let rows: (readonly Cell[])[];
  try {
    const parsed = parse(text.trimEnd(), {
      delimiter,
      trim: true,
      info: true,
      // Widths are compared below, where the message can name both.
      relax_column_count: true,
    }) as unknown as readonly {
      readonly record: readonly string[];
      readonly info: { readonly lines: number };
    }[];
    rows = parsed.map(({ record, info }) => cellsOf(record, info.lines, lines, delimiter));
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const line = Number((error as unknown as { readonly lines?: number }).lines ?? 1);
    // The parser notices an open quote at the end of the file only; the last quotation mark is the one to look at.
    const place = error.code === 'CSV_QUOTE_NOT_CLOSED' ? lastQuote(lines) : { line, column: 1 };
    return {
      ok: false,
      fault: { ...place, message: faultWords[error.code] ?? 'the row cannot be read' },
    };
  }
  const width = rows.find((row) => !isEmpty(row))?.length ?? 0;
  const kept = width === 1 ? rows : rows.filter((row) => !isEmpty(row));
  const odd = kept.find((row) => row.length !== width);
  if (odd)
    return {
      ok: false,
      fault: {
        line: odd[0]?.line ?? 1,
        column: 1,
        message: `the row has ${odd.length} ${odd.length === 1 ? 'value' : 'values'}, the heading has ${width}`,
      },
    };
  return { ok: true, rows: kept };
};

const isEmpty = (row: readonly Cell[]): boolean => row.length === 1 && row[0]?.text === '';

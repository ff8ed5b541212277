import { CsvError, parse } from 'csv-parse/sync';
import type { Place } from '../findings/finding.ts';
import { type Decoded, decodeText } from './decode.ts';

/** One cell of a raw-data file. */
export interface Cell {
  readonly text: string;
  /** Line of the file, from 1. */
  readonly line: number;
  /** Number of the column, from 1. */
  readonly column: number;
}

export interface DataColumn {
  /** Heading without the unit. */
  readonly name: string;
  /** Unit from the heading's brackets. */
  readonly unit?: string;
  readonly cells: readonly Cell[];
}

export interface DataTable {
  readonly file: string;
  readonly rows: number;
  readonly columns: readonly DataColumn[];
}

export type TableCode = 'data-unreadable' | 'data-malformed';

export interface TableProblem {
  readonly code: TableCode;
  readonly place: Place;
  readonly message: string;
  readonly hint?: string;
}

/** The columns, or what is wrong with the file. */
export type TableOutcome = { readonly table: DataTable } | { readonly problem: TableProblem };

const headingPattern = /^(.{0,200}?)\s*(?:\[([^\]]{0,60})\])?\s*$/;

/** Splits a heading such as `force [N]` into name and unit. */
export const splitHeading = (heading: string): { readonly name: string; readonly unit?: string } => {
  const match = headingPattern.exec(heading.trim());
  const name = match?.[1] ?? heading;
  return match?.[2] === undefined ? { name } : { name, unit: match[2] };
};

/** Reads a CSV file strictly: comma-separated (or semicolons, seen from the heading), quoted by RFC 4180, every row as long as the heading. */
export const readTable = (file: string, bytes: Uint8Array): TableOutcome => {
  const decoded: Decoded = decodeText(bytes);
  const fail = (
    code: TableCode,
    line: number,
    column: number,
    message: string,
    hint?: string,
  ): TableOutcome => ({
    problem: {
      code,
      place: { file, line, column },
      message,
      ...(hint ? { hint } : {}),
    },
  });
  if (!decoded.ok)
    return fail(
      'data-unreadable',
      decoded.line,
      decoded.column,
      `byte 0x${decoded.byte.toString(16)} is not UTF-8`,
      'Save the file as UTF-8.',
    );
  if (decoded.text.trim() === '')
    return fail('data-unreadable', 1, 1, 'the file is empty', 'Put the heading and the readings in it.');
  const heading = decoded.text.slice(0, decoded.text.indexOf('\n') + 1 || undefined);
  const delimiter =
    !heading.includes(',') && heading.includes(';')
      ? ';'
      : !heading.includes(',') && heading.includes('\t')
        ? '\t'
        : ',';
  let rows: { record: string[]; info: { lines: number } }[];
  try {
    rows = parse(decoded.text, {
      delimiter,
      bom: true,
      info: true,
      skip_empty_lines: true,
      trim: true,
    }) as unknown as typeof rows;
  } catch (error) {
    const line = error instanceof CsvError ? Number((error as unknown as { lines?: number }).lines ?? 1) : 1;
    return fail(
      'data-malformed',
      line,
      1,
      csvMessage(error),
      delimiter === ',' ? 'With a decimal comma, separate the columns by semicolons.' : undefined,
    );
  }
  const names = (rows[0]?.record ?? []).map(splitHeading);
  const seen = new Map<string, number>();
  for (const [index, { name }] of names.entries()) {
    if (name === '')
      return fail(
        'data-malformed',
        1,
        index + 1,
        `column ${index + 1} has no heading`,
        'Give every column a heading.',
      );
    const twin = seen.get(name);
    if (twin !== undefined)
      return fail(
        'data-malformed',
        1,
        index + 1,
        `columns ${twin + 1} and ${index + 1} are both called "${name}"`,
        'Give every column its own heading.',
      );
    seen.set(name, index);
  }
  const body = rows.slice(1);
  return {
    table: {
      file,
      rows: body.length,
      columns: names.map(({ name, unit }, index) => ({
        name,
        ...(unit === undefined ? {} : { unit }),
        cells: body.map(({ record, info }) => ({
          text: record[index] ?? '',
          line: info.lines,
          column: index + 1,
        })),
      })),
    },
  };
};

const csvMessage = (error: unknown): string => {
  const code = error instanceof CsvError ? error.code : '';
  const detail = error as {
    lines?: number;
    column?: unknown;
    record?: unknown[];
    index?: number;
  };
  if (code === 'CSV_RECORD_INCONSISTENT_FIELDS_LENGTH' || code === 'CSV_RECORD_INCONSISTENT_COLUMNS')
    return `the row has ${detail.record?.length ?? 'another number of'} values, the heading another number`;
  if (code === 'CSV_QUOTE_NOT_CLOSED') return 'a quoted value is not closed';
  if (code === 'CSV_INVALID_CLOSING_QUOTE' || code === 'INVALID_OPENING_QUOTE')
    return 'a quotation mark stands in the wrong place';
  return error instanceof Error
    ? (error.message.split('\n')[0] ?? 'the row can not be read')
    : 'the row can not be read';
};

/** A number read from a cell. */
export type Reading =
  | { readonly kind: 'number'; readonly value: number }
  /** Below the reporting limit, written `<1.0`. The limit is the largest value it can have. */
  | { readonly kind: 'below'; readonly value: number }
  /** Beyond the range of the instrument, written `>50`. */
  | { readonly kind: 'above'; readonly value: number }
  | { readonly kind: 'blank' }
  | { readonly kind: 'wrong'; readonly reason: string; readonly hint: string };

/**
 * Reads a number. The decimal sign is a point, or a comma where the record says so; a sign between thousands is
 * never guessed away, since `1,234` is one number in some countries and another elsewhere.
 */
export const readNumber = (text: string, decimal: '.' | ',' = '.'): Reading => {
  const trimmed = text.trim();
  if (trimmed === '') return { kind: 'blank' };
  const bound = /^[<>]/.exec(trimmed)?.[0];
  const digits = bound ? trimmed.slice(1).trim() : trimmed;
  const plain = decimal === ',' ? digits.replace(',', '.') : digits;
  const other = decimal === ',' ? '.' : ',';
  if (digits.includes(other) && /^[+-]?\d{1,3}([.,]\d+)*(e[+-]?\d+)?$/i.test(digits))
    return {
      kind: 'wrong',
      reason: `"${trimmed}" holds a ${other === ',' ? 'comma' : 'point'}, but the decimal sign is a ${decimal === '.' ? 'point' : 'comma'}`,
      hint: `Write the number without signs between thousands; where the file has decimal ${other === ',' ? 'commas' : 'points'}, say so with "decimal" under "data".`,
    };
  if (/^\d{1,3}(?:[\s\u00a0\u202f']\d{3})+/.test(digits))
    return {
      kind: 'wrong',
      reason: `"${trimmed}" holds a sign between thousands`,
      hint: 'Write the number without it.',
    };
  if (!/^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d{1,3})?$/i.test(plain))
    return {
      kind: 'wrong',
      reason: `"${trimmed}" is not a number`,
      hint: 'Write a number, or exclude the unit with a reason and a deviation.',
    };
  const value = Number(plain);
  if (!Number.isFinite(value))
    return {
      kind: 'wrong',
      reason: `"${trimmed}" is not a finite number`,
      hint: 'Write a finite number.',
    };
  return {
    kind: bound === '<' ? 'below' : bound === '>' ? 'above' : 'number',
    value,
  };
};

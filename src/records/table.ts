import type { Place } from '../findings/finding.ts';
import { type Cell, csvRows, delimiterOf } from './csv-rows.ts';
import { type Decoded, decodeText } from './decode.ts';

export type { Cell } from './csv-rows.ts';

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

/** Splits a heading such as `force [N]` into name and unit. */
export const splitHeading = (heading: string): { readonly name: string; readonly unit?: string } => {
  const text = heading.trim();
  const open = text.endsWith(']') ? text.lastIndexOf('[') : -1;
  return open === -1
    ? { name: text }
    : { name: text.slice(0, open).trim(), unit: text.slice(open + 1, -1).trim() };
};

/**
 * Reads a CSV file strictly: comma-separated (or semicolons, seen from the heading), quoted by RFC 4180, every row as long
 * as the heading. Bytes that are the same object as before are read once.
 */
export const readTable = (file: string, bytes: Uint8Array): TableOutcome => {
  const known = outcomes.get(bytes);
  if (known?.file === file) return known.outcome;
  const outcome = parseTable(file, bytes);
  outcomes.set(bytes, { file, outcome });
  return outcome;
};

const outcomes = new WeakMap<Uint8Array, { readonly file: string; readonly outcome: TableOutcome }>();

const parseTable = (file: string, bytes: Uint8Array): TableOutcome => {
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
  // Excel writes the sign between columns into a line of its own, which is no heading.
  const declared = /^sep=(.)\n/.exec(decoded.text)?.[1];
  if (declared !== undefined)
    return fail(
      'data-malformed',
      1,
      1,
      'the first line "sep=…" is a mark of a spreadsheet program, not a heading',
      'Take the line out.',
    );
  const firstLine = decoded.text.split('\n', 1000).find((line) => line.trim() !== '') ?? '';
  const delimiter = delimiterOf(firstLine);
  const outcome = csvRows(decoded.text, delimiter);
  if (!outcome.ok)
    return fail(
      'data-malformed',
      outcome.fault.line,
      outcome.fault.column,
      outcome.fault.message,
      /^the row has/.test(outcome.fault.message) && delimiter === ','
        ? 'Give every row a value for every heading; with a decimal comma, separate the columns by semicolons.'
        : 'Mend the row shown.',
    );
  const heading = outcome.rows[0] ?? [];
  const names = heading.map((cell) => splitHeading(cell.text));
  const at = (index: number): [number, number] => [heading[index]?.line ?? 1, heading[index]?.column ?? 1];
  const seen = new Map<string, number>();
  for (const [index, { name }] of names.entries()) {
    if (name === '')
      return fail(
        'data-malformed',
        ...at(index),
        `column ${index + 1} has no heading`,
        'Give every column a heading.',
      );
    const twin = seen.get(name);
    if (twin !== undefined)
      return fail(
        'data-malformed',
        ...at(index),
        `columns ${twin + 1} and ${index + 1} are both called "${name}"`,
        'Give every column its own heading.',
      );
    seen.set(name, index);
  }
  const body = outcome.rows.slice(1);
  return {
    table: {
      file,
      rows: body.length,
      columns: names.map(({ name, unit }, index) => ({
        name,
        ...(unit === undefined ? {} : { unit }),
        cells: body.map((row) => row[index] ?? { text: '', line: 1, column: 1 }),
      })),
    },
  };
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

const shortened = (text: string): string => (text.length > 60 ? `${text.slice(0, 57)}…` : text);

/** Largest size of a reading that is computed with. */
const largestReading = 1e60;

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
  if (digits.includes(other) && /^[+-]?[\d.,]+(e[+-]?\d+)?$/i.test(digits))
    return {
      kind: 'wrong',
      reason: `"${shortened(trimmed)}" holds a ${other === ',' ? 'comma' : 'point'}, but the decimal sign is a ${decimal === '.' ? 'point' : 'comma'}`,
      hint: `Write the number without signs between thousands; where the file has decimal ${other === ',' ? 'commas' : 'points'}, say so with "decimal" under "data".`,
    };
  if (/^\d{1,3}(?:[\s\u00a0\u202f']\d{3})+/.test(digits))
    return {
      kind: 'wrong',
      reason: `"${shortened(trimmed)}" holds a sign between thousands`,
      hint: 'Write the number without it.',
    };
  if (!/^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d{1,3})?$/i.test(plain))
    return {
      kind: 'wrong',
      reason: `"${shortened(trimmed)}" is not a number`,
      hint: trimmed.includes('\u2212')
        ? 'Write the minus sign as a hyphen (-).'
        : 'Write a number, or exclude the unit with a reason and a deviation.',
    };
  const value = Number(plain);
  if (!Number.isFinite(value))
    return {
      kind: 'wrong',
      reason: `"${shortened(trimmed)}" is not a finite number`,
      hint: 'Write a finite number.',
    };
  // Squares and fourth powers of readings must neither overflow nor vanish.
  const size = Math.abs(value);
  if (size > largestReading || (size < 1 / largestReading && /[1-9]/.test(plain.replace(/e.*$/i, ''))))
    return {
      kind: 'wrong',
      reason: `"${shortened(trimmed)}" is too ${size > 1 ? 'large' : 'small'} to compute with; readings lie between 1e-60 and 1e60, or are 0`,
      hint: 'Write the readings in a unit in which they have usual numbers.',
    };
  return {
    kind: bound === '<' ? 'below' : bound === '>' ? 'above' : 'number',
    value,
  };
};

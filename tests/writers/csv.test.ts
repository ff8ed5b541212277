import { parse } from 'csv-parse/sync';
import { describe, expect, test } from 'vitest';
import type { Table } from '../../src/document/model.ts';
import { writeCsv } from '../../src/writers/csv/write-csv.ts';

function table(
  titles: readonly string[],
  rows: readonly (readonly (string | { text: string; rowSpan: number })[])[],
): Table {
  return {
    kind: 'table',
    columns: titles.map((title) => ({ title, width: 1 })),
    rows: rows.map((cells) => ({
      cells: cells.map((cell) =>
        typeof cell === 'string'
          ? { children: [{ kind: 'text', value: cell }] }
          : { children: [{ kind: 'text', value: cell.text }], rowSpan: cell.rowSpan },
      ),
    })),
  };
}

// RFC 4180, section 2, rules 1 to 7.
test('lines end in CRLF, commas, quotes and line breaks are quoted, quotes doubled', () => {
  expect(
    writeCsv(
      table(
        ['a', 'b'],
        [
          ['x', 'y,z'],
          ['say "so"', 'two\nlines'],
          ['cr\r', ' padded '],
        ],
      ),
    ),
  ).toBe('a,b\r\nx,"y,z"\r\n"say ""so""","two\nlines"\r\n"cr\r"," padded "\r\n');
});

test('rows are complete: spans are repeated, missing cells are empty', () => {
  const rows = [
    [{ text: 'UN-01', rowSpan: 2 }, 'DI-01', { text: 'open', rowSpan: 3 }],
    ['DI-03'],
    ['UN-02', 'DI-05'],
    ['UN-03'],
  ];
  expect(writeCsv(table(['need', 'input', 'state'], rows))).toBe(
    'need,input,state\r\nUN-01,DI-01,open\r\nUN-01,DI-03,open\r\nUN-02,DI-05,open\r\nUN-03,,\r\n',
  );
});

test('line breaks between records stay line breaks', () => {
  const withRecords: Table = {
    kind: 'table',
    columns: [{ title: 'protocols', width: 1 }],
    rows: [
      {
        cells: [
          {
            children: [
              { kind: 'record-reference', id: 'VP-09' },
              { kind: 'line-break' },
              { kind: 'record-reference', id: 'VP-09A' },
            ],
          },
        ],
      },
    ],
  };
  expect(writeCsv(withRecords)).toBe('protocols\r\n"VP-09\nVP-09A"\r\n');
});

describe('the formula guard', () => {
  // Common practice, no source: what spreadsheets take for a formula.
  test.each([
    '=1+1',
    '+A1',
    '-A1',
    '@SUM(A1)',
    '|cmd',
    '  =1',
    '\u0001=1',
    '\t1',
    '\r1',
    '\uff1d1',
    '\uff0b1',
    '\uff20x',
    '-5.2mm',
    '-',
    "=cmd|' /C calc'!A0",
  ])('leads %j with an apostrophe', (value) => {
    const [, row] = parse(writeCsv(table(['a'], [[value]])), { relax_column_count: false }) as string[][];
    expect(row).toEqual([`'${value}`]);
  });

  test.each(['-5.2', '+3', '-.5', '-1e-6', '1.25E+3', 'a=b', 'DI-09', '', '0.90', '≤ 3'])(
    'leaves %j as it is',
    (value) => {
      const parsed = parse(writeCsv(table(['a', 'b'], [[value, 'x']]))) as string[][];
      expect(parsed[1]).toEqual([value, 'x']);
    },
  );

  test('can be switched off for machines', () => {
    expect(writeCsv(table(['a'], [['=1']]), { formulaGuard: false })).toBe('a\r\n=1\r\n');
  });
});

test('printed numbers become numbers for a spreadsheet; words keep their signs', () => {
  expect(writeCsv(table(['a', 'b', 'c', 'd'], [['−3', '1.2 × 10⁻¹³', '10⁻⁶', '−3 to 3 N']]))).toBe(
    'a,b,c,d\r\n-3,1.2e-13,1e-6,−3 to 3 N\r\n',
  );
});

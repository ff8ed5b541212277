import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { csvRows, delimiterOf } from '../../src/records/csv-rows.ts';
import { readNumber, readTable, splitHeading } from '../../src/records/table.ts';

const table = (text: string | Uint8Array) =>
  readTable('d.csv', typeof text === 'string' ? new TextEncoder().encode(text) : text);

const read = (text: string) => {
  const outcome = table(text);
  if ('problem' in outcome) throw new Error(outcome.problem.message);
  return outcome.table;
};

const fault = (text: string | Uint8Array): string => {
  const outcome = table(text);
  if (!('problem' in outcome)) throw new Error('no problem found');
  const { code, place, message, hint } = outcome.problem;
  expect(hint).toBeTruthy();
  return `${place.line}:${place.column} ${code}: ${message}`;
};

describe('a CSV file', () => {
  test('has names and units in its heading', () => {
    const { columns, rows } = read('unit,force [N],"peel, mean [N/15 mm]"\nA,1.5,2\nB,2,3\n');
    expect(rows).toBe(2);
    expect(columns.map(({ name, unit }) => [name, unit])).toEqual([
      ['unit', undefined],
      ['force', 'N'],
      ['peel, mean', 'N/15 mm'],
    ]);
    expect(columns[1]?.cells.map((cell) => cell.text)).toEqual(['1.5', '2']);
  });

  test.each([
    ['force [N]', 'force', 'N'],
    ['  force  [ N ] ', 'force', 'N'],
    ['force', 'force', undefined],
    ['force []', 'force', ''],
    ['a [b] c', 'a [b] c', undefined],
    ['a [b] [c]', 'a [b]', 'c'],
    ['[N]', '', 'N'],
    [`a${' '.repeat(300_000)}b`, `a${' '.repeat(300_000)}b`, undefined],
  ])('heading %#', (heading, name, unit) => {
    expect(splitHeading(heading)).toEqual(unit === undefined ? { name } : { name, unit });
  });

  test.each([
    ['comma', 'unit,force\nA,"1;5"\n'],
    ['semicolon', 'unit;force\nA;1,5\n'],
    ['tab', 'unit\tforce\nA\t1,5\n'],
    ['CRLF and a byte-order mark', '\ufeffunit,force\r\nA,1\r\n'],
    ['blank lines before, between and after', '\n\nunit,force\n\nA,1\n\n\n'],
    ['no line break at the end', 'unit,force\nA,1'],
    ['blanks around', ' unit , force \n A , 1 \n'],
  ])('may be separated and ended in the usual ways: %s', (_, text) => {
    const { columns, rows } = read(text);
    expect(columns.map((column) => column.name)).toEqual(['unit', 'force']);
    expect(rows).toBe(1);
    expect(columns[0]?.cells[0]?.text).toBe('A');
  });

  test('has places that an editor can open, also below quoted line breaks', () => {
    const { columns } = read('unit,note,force\nA,"one\ntwo, ""three""\n\nfour", 1\n\nB,,x\n');
    expect(columns[1]?.cells[0]).toEqual({ text: 'one\ntwo, "three"\n\nfour', line: 2, column: 1 });
    expect(columns[2]?.cells).toEqual([
      { text: '1', line: 5, column: 1 },
      { text: 'x', line: 7, column: 4 },
    ]);
    expect(columns[1]?.cells[1]).toEqual({ text: '', line: 7, column: 3 });
  });

  test('with one column keeps an empty line within as an empty cell: a reading is missing there', () => {
    expect(read('force\n1\n\n3\n\n').columns[0]?.cells.map((cell) => [cell.text, cell.line])).toEqual([
      ['1', 2],
      ['', 3],
      ['3', 4],
    ]);
  });

  test('with only a heading has no rows', () => {
    expect(read('unit,force\n').rows).toBe(0);
  });

  test.each([
    ['', '1:1 data-unreadable: the file is empty'],
    [' \n\n', '1:1 data-unreadable: the file is empty'],
    ['a,b\n1,2\n3\n', '3:1 data-malformed: the row has 1 value, the heading has 2'],
    ['a,b\n1,2\n\n"x\ny",2,3\n', '4:1 data-malformed: the row has 3 values, the heading has 2'],
    ['unit,force\nA,12,5\n', '2:1 data-malformed: the row has 3 values, the heading has 2'],
    ['a,b\n1,"2\n3,4\n', '2:3 data-malformed: a quoted value is not closed'],
    ['a,b\n1,2"3\n', '2:1 data-malformed: a quotation mark stands in the wrong place'],
    [
      'a,b\n1,"2"3\n',
      '2:1 data-malformed: text follows a quoted value; double the quotation marks within it',
    ],
    ['a,,c\n1,2,3\n', '1:3 data-malformed: column 2 has no heading'],
    ['[N],b\n1,2\n', '1:1 data-malformed: column 1 has no heading'],
    ['force [N],unit,force [kN]\n1,2,3\n', '1:16 data-malformed: columns 1 and 3 are both called "force"'],
    [
      'sep=;\na;b\n',
      '1:1 data-malformed: the first line "sep=…" is a mark of a spreadsheet program, not a heading',
    ],
  ])('that is malformed says where: %j', (text, expected) => {
    expect(fault(text)).toBe(expected);
  });

  test('in another encoding shows the byte', () => {
    expect(fault(Uint8Array.from([...new TextEncoder().encode('a\nb'), 0xb5]))).toBe(
      '2:2 data-unreadable: byte 0xb5 is not UTF-8',
    );
  });

  test('gives back what was put in, by RFC 4180, with the line of each row', () => {
    const cell = fc.string({ unit: fc.constantFrom('a', '1', ',', '"', '\n', ';', 'é'), maxLength: 6 });
    const rows = fc
      .integer({ min: 2, max: 4 })
      .chain((width) =>
        fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 5 }),
      );
    fc.assert(
      fc.property(rows, (list) => {
        const written = list.map((row) => row.map((each) => `"${each.replaceAll('"', '""')}"`).join(','));
        const outcome = csvRows(written.join('\n'), ',');
        expect(outcome.ok && outcome.rows.map((row) => row.map((each) => each.text))).toEqual(
          list.map((row) => row.map((each) => each.trim())),
        );
        let line = 1;
        for (const [index, row] of written.entries()) {
          expect(outcome.ok && outcome.rows[index]?.[0]?.line).toBe(line);
          line += row.split('\n').length;
        }
      }),
      { seed: 20260727, numRuns: 500 },
    );
  });

  test('never throws, and the sign between columns is looked for outside quotes', () => {
    fc.assert(
      fc.property(
        fc.string({
          unit: fc.constantFrom('a', '"', ',', ';', '\n', '\r', '\t', ' ', '[', ']'),
          maxLength: 60,
        }),
        (text) => {
          table(text);
        },
      ),
      { seed: 20260727, numRuns: 2_000 },
    );
    expect(delimiterOf('"force, peak";unit')).toBe(';');
    expect(delimiterOf('force')).toBe(',');
  });

  test('of ten times the rows takes about ten times as long', () => {
    const secondsFor = (rows: number): number => {
      const start = process.cpuUsage();
      expect(read(`unit,force\n${'L001-07,19.60\n'.repeat(rows)}`).rows).toBe(rows);
      const { user, system } = process.cpuUsage(start);
      return (user + system) / 1e6;
    };
    secondsFor(3_500);
    expect(secondsFor(350_000) / secondsFor(35_000)).toBeLessThan(40);
  });
});

describe('a number', () => {
  test.each([
    ['12.5', '.', 12.5],
    [' -3 ', '.', -3],
    ['+.5', '.', 0.5],
    ['5.', '.', 5],
    ['1e3', '.', 1000],
    ['1.5E-3', '.', 0.0015],
    ['007', '.', 7],
    ['12,5', ',', 12.5],
    ['1250', ',', 1250],
    ['-0,25', ',', -0.25],
  ] as const)('is read: %s with decimal %s', (text, decimal, value) => {
    expect(readNumber(text, decimal)).toEqual({ kind: 'number', value });
  });

  test.each([
    ['<1.0', 'below', 1],
    ['< 0.42', 'below', 0.42],
    ['>50', 'above', 50],
  ] as const)('may be a bound: %s', (text, kind, value) => {
    expect(readNumber(text)).toEqual({ kind, value });
  });

  test.each(['', ' ', '\u00a0'])('may be missing: %j', (text) => {
    expect(readNumber(text)).toEqual({ kind: 'blank' });
  });

  test.each([
    ['1,234', '.', 'holds a comma, but the decimal sign is a point'],
    ['12345,6', '.', 'holds a comma, but the decimal sign is a point'],
    ['1,234,567', '.', 'holds a comma'],
    ['1.234,5', '.', 'holds a comma'],
    ['1.234', ',', 'holds a point, but the decimal sign is a comma'],
    ['1234.5', ',', 'holds a point, but the decimal sign is a comma'],
    ['1.234,5', ',', 'holds a point'],
    ['1 234', '.', 'holds a sign between thousands'],
    ['1\u202f234', '.', 'holds a sign between thousands'],
    ["1'234", '.', 'holds a sign between thousands'],
    ['1.2.3', '.', 'is not a number'],
    ['NaN', '.', 'is not a number'],
    ['Infinity', '.', 'is not a number'],
    ['1e999', '.', 'is not a finite number'],
    ['4.2e-300', '.', 'is too small to compute with'],
    ['-1e-400', '.', 'is too small to compute with'],
    ['-4.2e61', '.', 'is too large to compute with'],
    ['0x1F', '.', 'is not a number'],
    ['=1+1', '.', 'is not a number'],
    ['12 N', '.', 'is not a number'],
    ['<', '.', 'is not a number'],
    ['<=5', '.', 'is not a number'],
    ['n.d.', '.', 'is not a number'],
    ['\u22125', '.', 'is not a number'],
    ['٣', '.', 'is not a number'],
    ['#VALUE!', '.', 'is not a number'],
    ['-', '.', 'is not a number'],
    ['1_000', '.', 'is not a number'],
  ] as const)('is never guessed: %s with decimal %s', (text, decimal, reason) => {
    const reading = readNumber(text, decimal);
    expect(reading.kind).toBe('wrong');
    expect('reason' in reading && reading.reason).toContain(reason);
    expect('hint' in reading && reading.hint).toBeTruthy();
  });

  test('comes back as it was written', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (written) => {
        const size = Math.abs(written);
        const value = written === 0 ? 0 : written;
        if (value !== 0 && (size > 1e60 || size < 1e-60)) {
          expect(readNumber(String(value)).kind).toBe('wrong');
          return;
        }
        expect(readNumber(String(value))).toEqual({ kind: 'number', value });
        expect(readNumber(String(value).replace('.', ','), ',')).toEqual({ kind: 'number', value });
      }),
      { seed: 20260727, numRuns: 500 },
    );
  });
});

import { describe, expect, test } from 'vitest';
import type { Table } from '../../src/document/model.ts';
import { tablesOf } from '../../src/document/tables.ts';
import { demonstration, said, withDocument } from './with-document.ts';

const wordsOf = (table: Table | undefined): readonly (readonly string[])[] =>
  (table?.rows ?? []).map((row) =>
    row.cells.map((cell) =>
      cell.children
        .map((piece) =>
          piece.kind === 'text' ? piece.value : piece.kind === 'record-reference' ? piece.id : ' ',
        )
        .join(''),
    ),
  );

const compiled = withDocument(
  [
    '```plinth conditioning-tree\npart: steps\n```',
    '```plinth conditioning-tree\npart: draws\n```',
    '```plinth conditioning-tree\npart: calendar\n```',
    '```plinth claims\n```',
    '```plinth label-content\npart: identifier\n```',
    '```plinth label-content\npart: languages\n```',
    '```plinth label-content\npart: particulars\nclauses: ["23.2"]\n```',
  ].join('\n\n'),
);
const [steps, draws, calendar, claims, identifier, languages, particulars] = tablesOf(
  compiled.document.blocks,
).map(wordsOf);

describe('the conditioning tree', () => {
  test('adds up the units by hand', () => {
    expect(said(compiled)).toEqual([]);
    const sterilised = steps?.find(([node]) => node?.startsWith('sterilised'));
    // Drawn for the first time: 30 (VR-01, 02, 03, 04, 07, 08, 09) x 7, 59 x 3, 29, 3, 30, 60, 10, 20 = 539 units;
    // on to other nodes: 120 shipped, 29 extremes, 170 aged, 510 real time, 135 study lot = 964; together 1503.
    expect(sterilised?.slice(4, 7)).toEqual(['1600', '1503', '97']);
    // 90 drawn and 80 on to transport.
    expect(steps?.find(([node]) => node === 'aged')?.slice(4, 7)).toEqual(['170', '170', '0']);
  });

  test('says what the days in the chamber stand for, and the state of the units', () => {
    const aged = steps?.find(([node]) => node === 'aged');
    expect(aged?.[7]).toContain('137 d at 55 °C against 25 °C, factor 8.00, stand for 1096 d');
    const last = steps?.find(([node]) => node?.startsWith('aged and shipped'));
    expect(last?.[8]).toBe('sterilised, aged and shipped');
  });

  test('counts readings: three strips of a pack, one pool of ten, units used once more in parentheses', () => {
    const of = (record: string) => draws?.find((row) => row[6]?.startsWith(`${record}:`))?.slice(2, 5);
    expect(of('VR-19')).toEqual(['20', '60', '60']);
    expect(of('VR-16')).toEqual(['30', '3', '3']);
    expect(of('VR-05')).toEqual(['(30)', '30', '30']);
  });

  test('lists the days in order, with the pulls to come', () => {
    const days = (calendar ?? []).map(([day]) => day ?? '');
    expect(days).toEqual([...days].sort());
    expect(calendar).toContainEqual([
      '2027-01-12',
      'pull after 12 months from "real time", in store since 2026-01-12',
      '170',
      'to come',
    ]);
  });

  test('no test of units ends before their last step does', () => {
    const ends = new Map(
      (calendar ?? []).flatMap(([day, what]) => {
        const node = /^"(.*)" ends: /.exec(what ?? '')?.[1];
        return node === undefined ? [] : [[node, day ?? ''] as const];
      }),
    );
    const tests = (calendar ?? []).flatMap(([day, what]) => {
      const node = /^test .* of units from "(.*?)"/.exec(what ?? '')?.[1];
      return node === undefined ? [] : [{ day: day ?? '', node, what: what ?? '' }];
    });
    expect(tests.length).toBeGreaterThan(20);
    for (const { day, node, what } of tests)
      expect(day >= (ends.get(node) ?? ''), `${day} ${what}`).toBe(true);
    expect(calendar).toContainEqual([
      '2026-06-02',
      'test VR-21 of units from "aged", begun 2025-12-08',
      '(30)',
      'past',
    ]);
  });
});

describe('claims', () => {
  test('stand with their numbers and the verdict of their evidence', () => {
    expect(claims?.map(([id]) => id)).toEqual(['CM-01', 'CM-02', 'CM-03', 'CM-04']);
    expect(claims?.[0]?.[3]).toContain('squeeze force: at most 25 N (fresh, aged)');
    expect(claims?.[0]?.[4]).toContain('VR-01A Squeeze force, aged units: pass');
  });

  test('that do not stand where they are said to stand are marked', () => {
    const files = new Map<string, string | Uint8Array>(demonstration);
    const brochure = new TextDecoder().decode(files.get('documents/DOC-28.md') as Uint8Array);
    files.set('documents/DOC-28.md', brochure.replace(':claim[CM-03].', ''));
    const [table] = tablesOf(withDocument('```plinth claims\n```', files).document.blocks).map(wordsOf);
    expect(table?.[2]?.[2]).toBe('DOC-28: not found');
    expect(table?.[3]?.[2]).toBe('DOC-28');
  });
});

describe('the content of the label', () => {
  test('reads the identifier element by element', () => {
    expect(identifier?.map((row) => row.slice(2))).toEqual([
      ['09520123456788', 'unit; check digit 8 is right'],
      ['290531', '2029-05-31'],
      ['L004', 'as printed'],
    ]);
  });

  test('names the languages of each market', () => {
    expect(languages?.map((row) => row.join(' | '))).toEqual([
      expect.stringContaining('Ireland | en'),
      expect.stringContaining('Malta | en'),
    ]);
  });
});

test('the CE marking stands below the particulars of the label, not among those of the instructions', () => {
  expect(particulars?.at(-2)?.[0]).toBe('23.2(s)');
  const last = particulars?.at(-1);
  expect(last?.[0]).toBe('Article 20');
  expect(last?.[3]).toBe('DO-08, revision A');
  expect(last?.[4]).toContain('no marking may stand on it');
});

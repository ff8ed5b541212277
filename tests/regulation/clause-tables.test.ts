import { describe, expect, test } from 'vitest';
import { clauseTableFaults } from '../../src/regulation/clause-table-faults.ts';
import {
  type ClauseTable,
  gatherClauseTables,
  isFromMemory,
  mayLackClauses,
  rowsBelow,
  shippedClauseTables,
} from '../../src/regulation/clause-tables.ts';
import { ownClauseTable } from '../../src/regulation/own-clause-table.ts';

const tables = gatherClauseTables();
const tableOf = (key: string): ClauseTable => {
  const found = tables.inUse(key);
  if (!found) throw new Error(`there is no table ${key}`);
  return found;
};
const clausesBelow = (table: ClauseTable, parent: string): string[] =>
  table.rows.filter((row) => row.parent === parent).map((row) => row.clause);
const alphabet = [...'abcdefghijklmnopqrstuvwxyz'];

describe.each(shippedClauseTables.map((each) => [each.key, each] as const))('%s', (_, each) => {
  test('holds together: clauses, parents, provenance and counts', () => {
    expect(clauseTableFaults(each)).toEqual([]);
  });

  test('names source and edition, and its provenance is more than a word', () => {
    expect(each.source.length).toBeGreaterThan(20);
    expect(each.edition).toMatch(/^\d{4}-\d{2}(-\d{2})?$/);
    for (const [key, text] of Object.entries(each.provenance)) expect(text.length, key).toBeGreaterThan(40);
    const used = new Set(each.rows.map((row) => row.provenance));
    expect([...used].sort()).toEqual(Object.keys(each.provenance).sort());
  });

  test('what is from memory says so in words that are printed', () => {
    for (const row of each.rows.filter(isFromMemory))
      expect(each.provenance[row.provenance]).toMatch(/^From memory/);
  });
});

test('a table that calls itself an extract is marked as one, and no error rests on what it lacks', () => {
  for (const table of shippedClauseTables)
    expect(table.extract ?? false, table.key).toBe(/extract/.test(table.source));
  expect(shippedClauseTables.filter((table) => !mayLackClauses(table)).map(({ key }) => key)).toEqual([
    'eu-mdr-annex-1',
    'eu-mdr-annex-2',
    'eu-mdr-annex-3',
    'eu-mdr-annex-4',
  ]);
});

describe('Annex I of Regulation (EU) 2017/745', () => {
  const annex1 = tableOf('eu-mdr-annex-1');

  // Counted in the text of the Official Journal, L 117, 5.5.2017: 23 numbered requirements, 64 second-level and 5
  // third-level numbers (10.4.1 to 10.4.5), 118 lettered points.
  test.each([
    ['requirement', 23],
    ['sub', 64],
    ['subsub', 5],
    ['point', 118],
  ] as const)('has its %s rows: %i', (level, count) => {
    expect(annex1.rows.filter((row) => row.level === level)).toHaveLength(count);
    expect(annex1.counts[level]).toBe(count);
  });

  test('has 210 rows in all', () => {
    expect(annex1.rows).toHaveLength(210);
    expect(annex1.edition).toBe('2017-05-05');
  });

  test('the number of a row fits its level and starts with its parent', () => {
    const shape: Readonly<Record<string, RegExp>> = {
      requirement: /^\d+$/,
      sub: /^\d+\.\d+$/,
      subsub: /^\d+\.\d+\.\d+$/,
      point: /^[\d.]+\([a-z]{1,2}\)$/,
    };
    for (const row of annex1.rows) {
      expect(row.clause).toMatch(shape[row.level] ?? /^$/);
      if (row.level !== 'requirement')
        expect(row.clause.startsWith(row.parent ?? '?'), row.clause).toBe(true);
    }
  });

  test('letters run without a gap: 23.2 to (s), 23.3 to (j), 23.4 to (ab)', () => {
    const letters = (parent: string): string[] =>
      clausesBelow(annex1, parent).map((clause) => clause.slice(parent.length + 1, -1));
    expect(letters('23.2')).toEqual(alphabet.slice(0, 19));
    expect(letters('23.3')).toEqual(alphabet.slice(0, 10));
    expect(letters('23.4')).toEqual([...alphabet, 'aa', 'ab']);
  });
});

describe('Annexes II, III and IV of Regulation (EU) 2017/745', () => {
  // Counted in the text of the Official Journal, L 117, 5.5.2017.
  test.each([
    ['1.1', 12],
    ['1.2', 2],
    ['3', 3],
    ['4', 4],
    ['5', 2],
    ['6.1', 4],
    ['6.2', 7],
  ])('Annex II %s has its lettered points: %i', (parent, count) => {
    const annex2 = tableOf('eu-mdr-annex-2');
    expect(clausesBelow(annex2, parent)).toEqual(
      alphabet.slice(0, count).map((letter) => `${parent}(${letter})`),
    );
  });

  test('Annex III asks for six sources of information and ten contents of the plan', () => {
    const annex3 = tableOf('eu-mdr-annex-3');
    expect(clausesBelow(annex3, '1.1(a)')).toHaveLength(6);
    expect(clausesBelow(annex3, '1.1(b)')).toHaveLength(10);
  });

  test('Annex IV has ten items', () => {
    expect(tableOf('eu-mdr-annex-4').rows.map((row) => row.clause)).toEqual(
      Array.from({ length: 10 }, (_, index) => String(index + 1)),
    );
  });

  test('entries that the law leaves without a number are marked', () => {
    for (const key of ['eu-mdr-annex-2', 'eu-mdr-annex-3'])
      for (const row of tableOf(key).rows)
        expect(row.provenance === 'oj-entry', row.clause).toBe(/^0$|\)\.\d+$/.test(row.clause));
  });
});

describe('the other tables', () => {
  test('21 CFR 820: seven items of a complaint, six of servicing, five of a label examination', () => {
    // 21 CFR 820.35(a)(1) to (7), 820.35(b)(1) to (6), 820.45(a)(1) to (5), as amended by 89 FR 7496.
    const part = tableOf('us-cfr-820');
    expect(clausesBelow(part, '820.35(a)')).toHaveLength(7);
    expect(clausesBelow(part, '820.35(b)')).toHaveLength(6);
    expect(clausesBelow(part, '820.45(a)')).toHaveLength(5);
    // Live sections of the amended part: the citation table knows the same ones.
    expect(part.rows.filter((row) => row.level === 'requirement').map((row) => row.clause)).toEqual([
      '820.1',
      '820.3',
      '820.7',
      '820.10',
      '820.35',
      '820.45',
    ]);
  });

  test('ISO 13485:2016: 7.3 has ten sub-clauses, 7.3.2 six points and 7.3.3 five', () => {
    // Public extracts of the standard.
    const iso = tableOf('iso-13485');
    expect(clausesBelow(iso, '7.3')).toHaveLength(10);
    expect(clausesBelow(iso, '7.3.2')).toHaveLength(6);
    expect(clausesBelow(iso, '7.3.3')).toHaveLength(5);
  });

  test('ISO 14971:2019: the plan has seven contents, risk control six clauses', () => {
    // 4.4(a) to (g): public extracts. 7.1 to 7.6: partly from memory.
    const iso = tableOf('iso-14971');
    expect(clausesBelow(iso, '4.4')).toHaveLength(7);
    expect(clausesBelow(iso, '7')).toHaveLength(6);
  });

  test('the table of contents has seven chapters and 120 headings', () => {
    // IMDRF/RPS WG/N9, Edition 3: chapters 1 to 5, 6A and 6B; headings as far as they were seen in public lists.
    const toc = tableOf('imdrf-nivd-toc');
    expect(toc.rows.filter((row) => row.level === 'requirement')).toHaveLength(7);
    expect(toc.rows).toHaveLength(120);
    expect(toc.rows.filter(isFromMemory).map((row) => row.clause)).toEqual(['CH3.05.09.04', 'CH3.05.09.05']);
  });

  test('attachments of a premarket notification: what 21 CFR 807.87 asks for by itself, and the rest from memory', () => {
    // 21 CFR 807.87, revised as of 1 April 2002 (US Government Printing Office): (a) names, (b) registration number,
    // (c) class and panel, (e) labels, labelling and directions for use, (f) comparison with other devices.
    const rows = tableOf('us-premarket-contents').rows.filter((row) => !isFromMemory(row));
    expect(rows.map((row) => row.clause)).toEqual(['1.1', '1.2', '2.3', '4', '4.1', '4.2']);
  });
});

describe('the tables at hand', () => {
  const newer = ownClauseTable(
    {
      key: 'eu-mdr-annex-1',
      edition: '2031-01-01',
      title: 'Invented edition',
      source: 'invented for this test',
      provenance: 'invented for this test',
      rows: [
        { clause: '1', title: 'Safety' },
        { clause: '1(a)', title: 'A point' },
        { clause: '1(a).1', title: 'Counted below a letter', parent: '1(a)' },
        { clause: '2.1', title: 'Without a head' },
      ],
    },
    'clause-tables/newer.yaml',
  );

  test('levels and parents of a written table follow from its numbers', () => {
    expect(newer.rows.map(({ level, parent }) => [level, parent])).toEqual([
      ['requirement', undefined],
      ['point', '1'],
      ['subpoint', '1(a)'],
      ['requirement', undefined],
    ]);
    expect(clauseTableFaults(newer)).toEqual([]);
  });

  test('the edition in use is the one that the file names, else the one of the tool', () => {
    const unnamed = gatherClauseTables([newer]);
    expect(unnamed.editionsOf('eu-mdr-annex-1').map((each) => each.edition)).toEqual([
      '2017-05-05',
      '2031-01-01',
    ]);
    expect(unnamed.inUse('eu-mdr-annex-1')?.edition).toBe('2017-05-05');
    const named = gatherClauseTables([newer], [{ table: 'eu-mdr-annex-1', edition: '2031-01-01' }]);
    expect(named.inUse('eu-mdr-annex-1')).toBe(newer);
    const wrong = gatherClauseTables([newer], [{ table: 'eu-mdr-annex-1', edition: '2030-01-01' }]);
    expect(wrong.inUse('eu-mdr-annex-1')?.edition).toBe('2017-05-05');
  });

  test('a table of the tool is not replaced', () => {
    const twin = { ...newer, edition: '2017-05-05' };
    expect(gatherClauseTables([twin]).inUse('eu-mdr-annex-1')?.rows).toHaveLength(210);
  });

  test('an unknown key gives nothing', () => {
    expect(tables.inUse('eu-mdr-annex-99')).toBeUndefined();
  });

  test('rows below a clause are found at any depth', () => {
    expect(rowsBelow(tableOf('eu-mdr-annex-1'), '10.4').map((row) => row.clause)).toEqual([
      '10.4.1',
      '10.4.1(a)',
      '10.4.1(b)',
      '10.4.2',
      '10.4.2(a)',
      '10.4.2(b)',
      '10.4.2(c)',
      '10.4.2(d)',
      '10.4.3',
      '10.4.4',
      '10.4.5',
    ]);
  });

  test.each([
    [
      [
        { clause: '1', title: 'x' },
        { clause: '1', title: 'y' },
      ],
      'the clause "1" stands twice',
    ],
    [[{ clause: '1', title: 'x', parent: '9' }], 'the parent "9" of the clause "1" is not in the table'],
    [
      [
        { clause: '2(a)', title: 'x', parent: '2' },
        { clause: '2', title: 'y' },
      ],
      'the clause "2(a)" stands before its parent "2"',
    ],
    [
      [
        { clause: '1', title: 'x' },
        { clause: '1(a)', title: 'x' },
        { clause: '1(a).1', title: 'x', parent: '1(a)' },
        { clause: '1(a).1.1', title: 'x', parent: '1(a).1' },
      ],
      'the clause "1(a).1.1" (subpoint) cannot stand below "1(a).1" (subpoint)',
    ],
  ])('a table with a fault is told: %j', (rows, message) => {
    const table = ownClauseTable(
      { key: 'k', edition: '2030', title: 't', source: 's', provenance: 'p', rows },
      'clause-tables/k.yaml',
    );
    expect(clauseTableFaults(table)[0]?.message).toBe(message);
  });
});

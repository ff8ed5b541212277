import { describe, expect, test } from 'vitest';
import { clauseTable, clauseTables } from '../../src/regulation/clause-tables.ts';

const table = clauseTable('eu-mdr-annex-1');

describe('Annex I of Regulation (EU) 2017/745', () => {
  // Counted in the text of the Official Journal, L 117, 5.5.2017: 23 numbered requirements, 64 second-level and 5
  // third-level numbers (10.4.1 to 10.4.5), 118 lettered points.
  test.each([
    ['requirement', 23],
    ['sub', 64],
    ['subsub', 5],
    ['point', 118],
  ] as const)('has its %s rows: %i', (level, count) => {
    expect(table?.rows.filter((row) => row.level === level)).toHaveLength(count);
    expect(table?.counts[level]).toBe(count);
  });

  test('has 210 rows in all, each clause once', () => {
    expect(table?.rows).toHaveLength(210);
    expect(table?.counts.total).toBe(210);
    expect(table?.byClause.size).toBe(210);
  });

  test('names its source and edition', () => {
    expect(table?.source).toContain('2017/745');
    expect(table?.edition).toBe('2017-05-05');
  });

  test('every row says how it is known', () => {
    for (const row of table?.rows ?? []) expect(table?.provenance, row.clause).toHaveProperty(row.provenance);
  });

  test('the number of a row fits its level and starts with its parent', () => {
    const shape = {
      requirement: /^\d+$/,
      sub: /^\d+\.\d+$/,
      subsub: /^\d+\.\d+\.\d+$/,
      point: /^[\d.]+\([a-z]{1,2}\)$/,
    };
    for (const row of table?.rows ?? []) {
      expect(row.clause).toMatch(shape[row.level]);
      if (row.level === 'requirement') expect(row.parent).toBeUndefined();
      else {
        expect(table?.byClause.has(row.parent ?? ''), row.clause).toBe(true);
        expect(row.clause.startsWith(row.parent ?? '?'), row.clause).toBe(true);
      }
    }
  });

  test('letters run without a gap: 23.2 to (s), 23.3 to (j), 23.4 to (ab)', () => {
    const letters = (parent: string): string[] =>
      (table?.rows ?? [])
        .filter((row) => row.parent === parent)
        .map((row) => row.clause.slice(parent.length + 1, -1));
    const alphabet = [...'abcdefghijklmnopqrstuvwxyz'];
    expect(letters('23.2')).toEqual(alphabet.slice(0, 19));
    expect(letters('23.3')).toEqual(alphabet.slice(0, 10));
    expect(letters('23.4')).toEqual([...alphabet, 'aa', 'ab']);
  });
});

describe('the list of tables', () => {
  test('has each key once, and an ISO date as edition', () => {
    expect(new Set(clauseTables.map((each) => each.key)).size).toBe(clauseTables.length);
    for (const each of clauseTables) expect(each.edition).toMatch(/^\d{4}-\d{2}-\d{2}$/);
  });

  test('an unknown key gives nothing', () => {
    expect(clauseTable('eu-mdr-annex-99')).toBeUndefined();
  });
});

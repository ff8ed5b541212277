import fc from 'fast-check';
import { expect, test } from 'vitest';
import { columnKeys } from '../../src/document/column-keys.ts';
import { type GridState, stateFromHash, stateToHash } from '../../src/site/grid-state.ts';

const none: GridState = { words: '', chosen: new Map() };
const clauses = { grid: 'clauses-1', columns: ['clause', 'applies', 'evidence-stands'] };
const standards = { grid: 'standards', columns: ['designation', 'approval'] };

test('keys of columns come from titles, each once', () => {
  expect(
    columnKeys([
      { title: 'What it asks for' },
      { title: 'Limit [N]' },
      { title: 'Limit (N)' },
      { title: 'Zugehörig', key: 'derives_from' },
      { title: '–' },
    ]),
  ).toEqual(['what-it-asks-for', 'limit-n', 'limit-n-2', 'derives-from', 'column']);
});

test('an address keeps the views of two tables, and a place on the page is none', () => {
  const first = stateToHash('#standards', clauses, {
    ...none,
    chosen: new Map([[2, new Set(['passed', 'in doubt'])]]),
  });
  expect(first).toBe('#?clauses-1.evidence-stands=passed&clauses-1.evidence-stands=in+doubt');
  const both = stateToHash(first, standards, {
    words: 'iso 14971',
    chosen: new Map(),
    sort: { column: 0, isDescending: true },
    columns: new Set([0, 1]),
  });
  expect(both).toBe(
    `${first}&standards._words=iso+14971&standards._sort=-designation&standards._columns=designation.approval`,
  );
  expect(stateFromHash(both, clauses)?.chosen).toEqual(new Map([[2, new Set(['passed', 'in doubt'])]]));
  expect(stateFromHash(both, standards)).toEqual({
    words: 'iso 14971',
    chosen: new Map(),
    sort: { column: 0, isDescending: true },
    columns: new Set([0, 1]),
  });
  expect(stateToHash(both, clauses, none)).toBe(both.replace(first.slice(2), '').replace('?&', '?'));
  expect(stateToHash(first, clauses, none)).toBe('');
  expect(stateFromHash('#standards', standards)).toBeUndefined();
  expect(stateFromHash(first, standards)).toBeUndefined();
});

test('a column that is gone, or that was never there, is passed over', () => {
  const state = stateFromHash(
    '#?standards.gone=x&standards._sort=-gone&standards.__proto__=y&standards._columns=a.b',
    standards,
  );
  expect(state).toEqual({ words: '', chosen: new Map() });
});

test('whatever the values are, and whatever the table is called, an address brings them back', () => {
  const value = fc.string({ unit: 'binary' });
  fc.assert(
    fc.property(fc.string(), value, fc.uniqueArray(value, { minLength: 1 }), (grid, words, values) => {
      const keys = { grid, columns: ['a', 'b'] };
      const state: GridState = {
        words,
        chosen: new Map([[1, new Set(values)]]),
        sort: { column: 1, isDescending: false },
      };
      const hash = stateToHash('', keys, state);
      expect(stateFromHash(hash, keys)).toEqual(state);
    }),
  );
});

import { describe, expect, test } from 'vitest';
import { documentText } from '../../src/document/document-text.ts';
import type { Table } from '../../src/document/model.ts';
import { tablesOf } from '../../src/document/tables.ts';
import { problemDiscovery } from '../../src/evidence/problem-discovery.ts';
import { said, withDocument } from './with-document.ts';

const wordsOf = (table: Table): readonly (readonly string[])[] =>
  table.rows.map((row) =>
    row.cells.map((cell) =>
      cell.children
        .map((piece) =>
          piece.kind === 'text' ? piece.value : piece.kind === 'record-reference' ? piece.id : ' ',
        )
        .join(''),
    ),
  );

describe('the usability summary', () => {
  const compiled = withDocument('```plinth usability-summary\n```');
  const tables = tablesOf(compiled.document.blocks);
  const captioned = (caption: string): Table => {
    const found = tables.find((table) => table.caption === caption);
    if (!found)
      throw new Error(`no table "${caption}" among ${tables.map((table) => table.caption).join('; ')}`);
    return found;
  };

  test('says why each task is critical', () => {
    expect(said(compiled)).toEqual([]);
    const rows = wordsOf(captioned('Hazard-related use scenarios'));
    expect(rows).toHaveLength(7);
    expect(rows.map((row) => row[4])).toContain('critical RK-10 has the severity S5');
  });

  test('counts the outcomes of each task from the raw data', () => {
    // LR-01.csv, counted by hand: 30 participants, two difficulties, one close call.
    expect(wordsOf(captioned('Outcomes of LP-01 by task'))).toEqual([
      ['LR-01', 'check pack', 'yes', '29', '1', '0', '0'],
      ['LR-01', 'load', 'yes', '29', '1', '0', '0'],
      ['LR-01', 'prime to tip', 'yes', '30', '0', '0', '0'],
      ['LR-01', 'stop at planned stroke', 'yes', '29', '0', '1', '0'],
      ['LR-01', 'discard', 'yes', '30', '0', '0', '0'],
    ]);
  });

  test('shows the chance of meeting a problem for what it is', () => {
    const [surgeons] = wordsOf(
      captioned('Participants of LP-01, and the chance of meeting a problem at least once'),
    );
    // 1 - 0.95^15, 1 - 0.9^15 and 1 - 0.8^15.
    expect(surgeons).toEqual(['UG1 dental surgeons', '15', '15', '0.537', '0.794', '0.965']);
    expect(documentText(compiled.document)).toContain('no criterion of passing');
  });

  test('shows each observation with cause, judgement and risk', () => {
    const rows = wordsOf(captioned('Observations in LP-01'));
    expect(rows.map((row) => [row[0], row[2], row[5]])).toEqual([
      ['LR-01 P07', 'difficulty', 'not named'],
      ['LR-01 P22', 'difficulty', 'not named'],
      ['LR-01 P11', 'close call', 'RK-04'],
    ]);
  });
});

test('the table of failure modes has one row for each mode, and the risks or the reason', () => {
  const compiled = withDocument('```plinth failure-modes\ncaption: Modes\n```');
  expect(said(compiled)).toEqual([]);
  const [table] = tablesOf(compiled.document.blocks);
  const rows = table ? wordsOf(table) : [];
  expect(rows).toHaveLength(17);
  expect(rows.find((row) => row[2] === 'snap lets go')).toEqual([
    'DO-04 Tip',
    'stay on the barrel',
    'snap lets go',
    'undercut too shallow, ageing',
    'loose tip in the mouth',
    'RK-03 Loose tip swallowed or breathed in, severity S4',
  ]);
  expect(rows.find((row) => row[2] === 'spring is too stiff')?.[5]).toMatch(/^no harm: /);
});

// Computed value of the binomial model: 1 - 0.9^15 = 0.794. With five users and a share of 0.31, 1 - 0.69^5 = 0.844.
test.each([
  [15, 0.1, '0.794'],
  [5, 0.31, '0.844'],
  [0, 0.1, '0.000'],
])('%i participants, share %f: %s', (participants, share, expected) => {
  expect(problemDiscovery(participants, [share])[0]?.probability.toFixed(3)).toBe(expected);
});

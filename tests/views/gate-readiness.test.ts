import { expect, test } from 'vitest';
import { documentText } from '../../src/document/document-text.ts';
import type { Block } from '../../src/document/model.ts';
import { demonstration, said, withDocument } from './with-document.ts';

const textOf = (path: string): string => new TextDecoder().decode(demonstration.get(path));

const rowsOf = (block: Block | undefined): readonly string[] =>
  block?.kind === 'table'
    ? block.rows.map((row) =>
        documentText({ blocks: [{ ...block, rows: [row] }], footnotes: [] })
          .replace(/\s+/g, ' ')
          .trim(),
      )
    : [];

test('a gate that was passed counts as its review found it, one that lies ahead as the records are today', () => {
  const document = withDocument('```plinth gate-readiness\n```');
  expect(said(document)).toEqual([]);
  const [, gates, figure, conditions] = document.document.blocks;
  expect(rowsOf(gates)[2]).toContain('passed');
  expect(rowsOf(gates)[2]).toContain('2026-06-15, 4 d earlier');
  expect(rowsOf(gates)[3]).toContain('first 2026-07-31');
  expect(rowsOf(gates)[4]).toContain('planned 2026-12-18');
  // G3 was passed without the retention of aged tips; today all 28 inputs are shown.
  const shown = rowsOf(conditions).filter((row) => row.includes('All design inputs are shown'));
  expect(shown[0]).toMatch(/not met: DI-09 is not shown for aged units.*28 of 28 shown/);
  expect(shown[1]).toMatch(/met 28 of 28 shown/);
  expect(figure?.kind === 'figure' && figure.alternative).toContain(
    'G3 design verification (passed 2026-06-15): 2 met, 1 not met',
  );
});

test('what lies ahead follows the records: a lapsed approval, a finding, an open action', () => {
  const files = new Map<string, string | Uint8Array>(demonstration).set(
    'standards/ST-02.md',
    textOf('standards/ST-02.md').replace('status: approved', 'status: draft'),
  );
  const document = withDocument('```plinth gate-readiness\nparts: [conditions]\n```', files);
  const rows = rowsOf(document.document.blocks[0]);
  expect(rows.find((row) => row.includes('legal requirements and standards'))).toMatch(
    /not met \d+ of \d+ approved: ST-02/,
  );
  expect(rows.find((row) => row.includes('actions of the design reviews'))).toMatch(
    /not met 9 of 12 closed: RV-03, RV-04/,
  );
  expect(rows.find((row) => row.includes('regulatory compliance'))).toContain('for people to judge');
});

test('a gate past its day is overdue, and one that a review did not pass says so', () => {
  const files = new Map<string, string | Uint8Array>(demonstration)
    .set('plans/DP-01.md', textOf('plans/DP-01.md').replace('planned: 2026-12-18\n', 'planned: 2026-10-30\n'))
    .set('reviews/RV-04.md', textOf('reviews/RV-04.md').replace('outcome: passed', 'outcome: not passed'));
  const rows = rowsOf(
    withDocument('```plinth gate-readiness\nparts: [gates]\n```', files).document.blocks[0],
  );
  expect(rows[4]).toContain('overdue since 2026-10-30');
  expect(rows[3]).toContain('not passed, overdue since 2026-11-13');
});

import { expect, test } from 'vitest';
import { documentText } from '../../src/document/document-text.ts';
import { tablesOf } from '../../src/document/tables.ts';
import { analyse } from '../../src/pipeline.ts';
import { factsOf } from '../../src/vouch/step-facts.ts';
import { inputsFrom } from '../support/technical-file.ts';
import { demonstration, said, withDocument } from './with-document.ts';

const textOf = (path: string): string => new TextDecoder().decode(demonstration.get(path));

/** The demonstration file in which RK-08 has no probability after control, and a slighter harm. */
const withoutNumber = new Map<string, string | Uint8Array>(demonstration).set(
  'risks/RK-08.md',
  textOf('risks/RK-08.md').replace(
    /after:\n {2}p1: .*\n {2}p2: .*\n/,
    'after:\n  not_estimable: No published rate fits.\n  severity: S2\n  severity_reason: Redness that passes.\n',
  ),
);

test('the matrix has a row for each severity and a column for each band, as the plan has them', () => {
  const document = withDocument('```plinth risk-criteria\ncaption: Criteria\n```');
  expect(said(document)).toEqual([]);
  const [table] = tablesOf(document.document.blocks);
  expect(table?.columns.slice(1).map((column) => column.title)).toEqual([
    'O1 improbable, below 10⁻⁶',
    'O2 remote, 10⁻⁶ to below 10⁻⁵',
    'O3 occasional, 10⁻⁵ to below 10⁻⁴',
    'O4 probable, 10⁻⁴ to below 10⁻³',
    'O5 frequent, from 10⁻³',
  ]);
  // The table of the scenario: S1 any band, S2 to O4, S3 to O2, S4 and S5 O1 only.
  const accepted = table?.rows.map(
    ({ cells }) =>
      cells.filter(({ children }) =>
        children.some((child) => child.kind === 'text' && child.value === 'acceptable'),
      ).length,
  );
  expect(accepted).toEqual([5, 4, 2, 1, 1]);
  expect(documentText(document.document)).toContain(
    'Where the probability of harm cannot be estimated: acceptable up to S2.',
  );
});

test('the sampling policy is drawn from the plan', () => {
  const document = withDocument('```plinth risk-criteria\npart: sampling\n```');
  expect(said(document)).toEqual([]);
  const [table] = tablesOf(document.document.blocks);
  expect(table?.rows).toHaveLength(5);
  expect(documentText(document.document)).toMatch(/S4\W+95 %\W+99 %/);
});

test('the risk table says that a probability cannot be estimated, and why', () => {
  const document = withDocument('```plinth risk-table\n```', withoutNumber);
  expect(said(document)).toEqual([]);
  const [table] = tablesOf(document.document.blocks);
  const row = table?.rows.find(({ recordId }) => recordId === 'RK-08');
  const text = documentText({
    blocks: [{ kind: 'table', columns: table?.columns ?? [], rows: row ? [row] : [] }],
    footnotes: [],
  });
  expect(text).toContain('not estimable');
  expect(text).toContain('No published rate fits.');
  expect(text).toContain('severity S2');
  expect(text).toContain('within the criteria');
});

test('the walk says so too, and where a control was seen in place', () => {
  const analysis = analyse(inputsFrom(withoutNumber), []);
  const facts = (id: string) => {
    const record = analysis.graph.record(id);
    if (!record) throw new Error(`there is no ${id}`);
    return factsOf(record, { ...analysis, rawData: new Map() });
  };
  expect(facts('RK-08')).toContainEqual({
    name: 'After control',
    value: 'not estimable: No published rate fits, severity S2, within what the plan accepts',
  });
  expect(facts('RC-06').find(({ name }) => name === 'Seen in place')?.value).toContain('DGA1-P-103');
  expect(facts('RR-01')).toContainEqual({ name: 'Overall risk', value: 'acceptable' });
});

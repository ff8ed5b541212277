import { describe, expect, test } from 'vitest';
import { exampleTable } from '../../src/cli/explain-topics.ts';
import { analyse } from '../../src/pipeline.ts';
import { inputsFrom } from '../support/technical-file.ts';

const project = (more = ''): string =>
  `device: { name: Dental granule applicator, maker: Harrow Lane Instruments }\n${more}`;

const table = (rows: string, more = ''): string =>
  `key: eu-mdr-annex-1\nedition: 2031-01-01\ntitle: Invented edition\nsource: invented for this test\nprovenance: invented for this test\n${more}rows:\n${rows}`;

const analysisOf = (text: string, yaml = project()) =>
  analyse(
    inputsFrom(
      new Map([
        ['plinth.yaml', yaml],
        ['clause-tables/newer.yaml', text],
      ]),
    ),
    [],
  );

const told = (text: string): readonly string[] =>
  analysisOf(text).findings.map(
    ({ code, place, message }) => `${place.file}:${place.line} ${code}: ${message}`,
  );

describe('clause tables that came with a technical file', () => {
  test('stand beside those of the tool, and are used where plinth.yaml names their edition', () => {
    const text = table('  - { clause: "1", title: Safety }\n  - { clause: "1(a)", title: A point }\n');
    const { clauseTables, findings } = analysisOf(
      text,
      project('clause_tables:\n  - { table: eu-mdr-annex-1, edition: 2031-01-01 }\n'),
    );
    expect(findings).toEqual([]);
    expect(clauseTables.inUse('eu-mdr-annex-1')?.rows.map((row) => [row.clause, row.parent])).toEqual([
      ['1', undefined],
      ['1(a)', '1'],
    ]);
    expect(clauseTables.editionsOf('eu-mdr-annex-1')).toHaveLength(2);
  });

  test('the example of "plinth explain clause-tables" loads as it stands', () => {
    const { clauseTables, findings } = analysisOf(exampleTable);
    expect(findings).toEqual([]);
    expect(
      clauseTables.edition('eu-mdr-annex-1', '2027-01-01')?.rows.map((row) => [row.clause, row.parent]),
    ).toEqual([
      ['1', undefined],
      ['23', undefined],
      ['23.3(h)', '23'],
    ]);
  });

  test('an edition of another form is told the forms that there are', () => {
    const { findings } = analysisOf(
      table('  - { clause: "1", title: Safety }\n').replace('edition: 2031-01-01', 'edition: "1"'),
    );
    expect(findings.map(({ hint }) => hint)).toEqual([
      'Write the day of the publication as 2026-06-01, its month as 2026-06 or its year as 2026.',
    ]);
  });

  test.each([
    [
      'a misspelt field',
      table('  - { clause: "1", titel: Safety }\n'),
      'clause-tables/newer.yaml:7 clause-table-unusable: the clause table cannot be used: the field "title" is missing in rows[1]',
    ],
    [
      'no rows',
      'key: mine\nedition: 2031-01-01\ntitle: T\nsource: S\nprovenance: P\n',
      'clause-tables/newer.yaml:1 clause-table-unusable: the clause table cannot be used: the field "rows" is missing',
    ],
    [
      'a clause that stands twice',
      table('  - { clause: "1", title: Safety }\n  - { clause: "1", title: Again }\n'),
      'clause-tables/newer.yaml:8 clause-table-unusable: the clause table cannot be used: the clause "1" stands twice',
    ],
    [
      'the edition of the tool',
      table('  - { clause: "1", title: Safety }\n').replace('2031-01-01', '2017-05-05'),
      'clause-tables/newer.yaml:2 clause-table-unusable: the clause table cannot be used: eu-mdr-annex-1 of 2017-05-05 is already a table of the tool',
    ],
    [
      'a key that reaches for a prototype',
      table('  - { clause: "1", title: Safety, __proto__: { x: 1 } }\n'),
      'clause-tables/newer.yaml:7 clause-table-unusable: the clause table cannot be used: the key __proto__ is not allowed',
    ],
  ])('%s is a finding at its line, and the table is left out', (_, text, expected) => {
    expect(told(text)[0]).toBe(expected);
    expect(analysisOf(text).clauseTables.editionsOf('eu-mdr-annex-1')).toHaveLength(1);
  });

  test('bytes that are not UTF-8 are a finding, and nothing is thrown', () => {
    const { findings } = analyse(
      inputsFrom(
        new Map<string, string | Uint8Array>([
          ['plinth.yaml', project()],
          ['clause-tables/newer.yaml', new Uint8Array([0x6b, 0xff])],
        ]),
      ),
      [],
    );
    expect(findings.map(({ code, place }) => [code, place.column])).toEqual([['clause-table-unusable', 2]]);
  });
});

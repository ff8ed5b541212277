import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { checks } from '../../src/checks/index.ts';
import { deficiencyQuestions } from '../../src/cli/explain-topics.ts';
import { findingRules } from '../../src/cli/finding-rules.ts';
import { clauseProposals, proposalText } from '../../src/records/clause-proposal.ts';
import { shippedClauseTables } from '../../src/regulation/clause-tables.ts';
import { openClauses } from '../../src/regulation/open-clauses.ts';
import { projectRoot } from '../support/technical-file.ts';
import { closedSchema } from './closed-schema.ts';
import { emptyFolder, runPlinth } from './run-plinth.ts';

const device = 'device: { name: Granule applicator, maker: Harrow Lane Instruments }\n';

const answer = (more: string): string =>
  `---\nid: GR-23\ntype: legal-requirement\ntitle: Label\nstatus: draft\ntable: eu-mdr-annex-1\nclause: "23"\napplicable: true\nsolution: See the sub-clauses.\nclauses:\n${more}---\n`;

describe('new legal-requirement --table', () => {
  const folder = emptyFolder();
  writeFileSync(join(folder, 'plinth.yaml'), device);
  const started = runPlinth(folder, ['new', 'legal-requirement', '--table', 'eu-mdr-annex-1']);

  test('writes one record for each requirement, every clause in it once, and decides nothing', () => {
    expect(started).toMatchObject({ code: 0, error: '' });
    expect(started.out).toContain('Wrote 23 files with 210 clauses of eu-mdr-annex-1 of 2017-05-05');
    expect(started.out).toContain('- { table: eu-mdr-annex-1, edition: 2017-05-05 }');
    const files = readdirSync(join(folder, 'legal-requirements'));
    expect(files).toHaveLength(23);
    const all = files.map((name) => readFileSync(join(folder, 'legal-requirements', name), 'utf8')).join('');
    expect(all.match(/^ *(?:- )?clause: /gm)).toHaveLength(210);
    expect(all.match(/^ *applicable: to decide$/gm)).toHaveLength(210);
    expect(all).toContain('  # Month and year of manufacture');
  });

  test('check asks for every decision, and finds no other fault in what was written', () => {
    writeFileSync(
      join(folder, 'plinth.yaml'),
      `${device}clause_tables: [{ table: eu-mdr-annex-1, edition: 2017-05-05 }]\n`,
    );
    const { out, code } = runPlinth(folder, ['check', '--format', 'json']);
    expect(code).toBe(0);
    const { findings } = JSON.parse(out) as { findings: readonly { readonly code: string }[] };
    const count = (wanted: string): number => findings.filter((each) => each.code === wanted).length;
    expect(count('applicability-not-confirmed')).toBe(210);
    expect(findings).toHaveLength(210);
  });

  test('a second time there is nothing left to write', () => {
    const again = runPlinth(folder, ['new', 'legal-requirement', '--table', 'eu-mdr-annex-1']);
    expect(again).toMatchObject({ code: 0, error: '' });
    expect(again.out).toContain('Every clause of eu-mdr-annex-1 of 2017-05-05 is answered');
  });

  test('other types, ids and unknown tables are refused', () => {
    const refused = (...words: readonly string[]): string => runPlinth(folder, ['new', ...words]).error;
    expect(refused('user-need', '--table', 'iso-13485')).toContain('writes legal requirements');
    expect(refused('legal-requirement', '--table', 'iso-13485', '--id', 'GR-1')).toContain('Use it alone');
    expect(refused('legal-requirement', '--table', 'iso-1345')).toContain('Did you mean "iso-13485"?');
  });
});

describe('the proposal for a table', () => {
  test('fits every table that the tool ships: ids that differ, each clause once', () => {
    for (const table of shippedClauseTables) {
      const open = table.rows
        .filter((row) => row.parent === undefined)
        .flatMap((head) => openClauses(table, head, new Map()));
      const proposals = clauseProposals(table, open);
      const ids = proposals.map((each) => each.id);
      expect(new Set(ids).size).toBe(ids.length);
      for (const id of ids) expect(id).toMatch(/^GR-[A-Za-z0-9][A-Za-z0-9.-]{0,31}$/);
      const text = proposals.map((each) => proposalText(each, table)).join('');
      expect(text.match(/^ *(?:- )?clause: /gm)).toHaveLength(table.rows.length);
    }
  });

  test('leaves out what is answered and what falls away with a clause that does not apply', () => {
    const table = shippedClauseTables.find((each) => each.key === 'eu-mdr-annex-1');
    const head = table?.byClause.get('10');
    if (!table || !head) throw new Error('there is no clause 10');
    const answered = new Map([
      ['10', true],
      ['10.1', true],
      ['10.4', true],
      ['10.4.1', true],
      ['10.4.2', false],
    ]);
    const proposals = clauseProposals(table, openClauses(table, head, answered));
    expect(proposals.map((each) => each.id).slice(0, 3)).toEqual(['GR-10.1-a', 'GR-10.1-b', 'GR-10.1-c']);
    expect(proposals.map((each) => each.head.clause)).not.toContain('10.4.2(a)');
    expect(proposals.find((each) => each.id === 'GR-10.4.1-a')?.below).toEqual([]);
    expect(proposals.at(-1)?.head.clause).toBe('10.6');
  });
});

describe('clauses', () => {
  const folder = emptyFolder();
  mkdirSync(join(folder, 'clause-tables'));
  mkdirSync(join(folder, 'requirements'));
  writeFileSync(join(folder, 'plinth.yaml'), device);
  // Invented for this test: no such edition exists.
  writeFileSync(
    join(folder, 'clause-tables/later.yaml'),
    'key: eu-mdr-annex-1\nedition: 2031-01-01\ntitle: Invented\nsource: invented for a test\nprovenance: invented\nrows:\n' +
      '  - { clause: "23", title: Label and instructions }\n  - { clause: "23.5", title: A new clause, parent: "23" }\n',
  );
  writeFileSync(
    join(folder, 'requirements/GR-23.md'),
    answer('  - { clause: "23.1", applicable: true, solution: Printed., evidence: [UN-01] }\n'),
  );
  writeFileSync(
    join(folder, 'UN-01.md'),
    '---\nid: UN-01\ntype: user-need\ntitle: Label\nstatus: draft\nneeded_by: [surgeon]\n---\nA label.\n\n## Rationale\nIt is read.\n',
  );
  const schema = JSON.parse(
    readFileSync(join(projectRoot, 'schemas/outputs/clauses.schema.json'), 'utf8'),
  ) as object;
  const isValid = new Ajv2020({ strict: false }).compile(closedSchema(schema) as object);
  const json = (...words: readonly string[]): Record<string, unknown> => {
    const { out, error } = runPlinth(folder, ['clauses', ...words, '--format', 'json']);
    expect(error).toBe('');
    const value = JSON.parse(out) as Record<string, unknown>;
    expect(isValid(value), JSON.stringify(isValid.errors)).toBe(true);
    return value;
  };

  test('lists every table with its editions', () => {
    const tables = json()['tables'] as readonly Record<string, unknown>[];
    expect(tables.map((each) => `${each['table']} ${each['edition']}`)).toEqual([
      'eu-mdr-annex-1 2017-05-05',
      'eu-mdr-annex-1 2031-01-01',
      'eu-mdr-annex-2 2017-05-05',
      'eu-mdr-annex-3 2017-05-05',
      'eu-mdr-annex-4 2017-05-05',
      'imdrf-nivd-toc 2019-03-21',
      'iso-13485 2016-03-01',
      'iso-14971 2019-12',
      'us-cfr-820 2026-02-02',
      'us-premarket-contents 2026-01-01',
    ]);
    expect(tables[0]).toMatchObject({ inUse: true, answered: 2, rows: 210 });
    expect(tables[1]).toMatchObject({ inUse: false, file: 'clause-tables/later.yaml' });
  });

  test('compares two editions and names the records that hang on what differs', () => {
    const { editions } = json('eu-mdr-annex-1') as { editions: Record<string, unknown> };
    expect(editions).toMatchObject({
      from: '2017-05-05',
      to: '2031-01-01',
      same: 0,
      requirements: ['GR-23'],
    });
    const clauses = editions['clauses'] as readonly Record<string, unknown>[];
    expect(clauses.slice(0, 2)).toMatchObject([
      { clause: '23', change: 'changed', after: 'Label and instructions', requirement: 'GR-23' },
      { clause: '23.5', change: 'added', after: 'A new clause', records: [] },
    ]);
    // 209 of the 210 rows are not in the invented edition.
    expect(clauses.filter((each) => each['change'] === 'gone')).toHaveLength(209);
    expect(clauses.find((each) => each['clause'] === '23.1')).toMatchObject({
      requirement: 'GR-23',
      applicable: true,
      records: ['UN-01'],
    });
    const { out } = runPlinth(folder, ['clauses', 'eu-mdr-annex-1']);
    expect(out.replace(/\s+/g, ' ')).toContain('0 the same, 1 new, 209 gone, 1 with another title');
  });

  test('unknown tables and editions are refused with what there is', () => {
    const refused = (...words: readonly string[]): string => runPlinth(folder, ['clauses', ...words]).error;
    expect(refused('iso-13485')).toContain('in one edition only, 2016-03-01');
    expect(refused('eu-mdr-annex-1', '--to', '2024-01-01')).toContain(
      'has the editions 2017-05-05, 2031-01-01',
    );
    expect(refused('eu-mdr-anex-1')).toContain('Did you mean "eu-mdr-annex-1"?');
    expect(refused('--to', '2024-01-01')).toContain('Name the table');
    writeFileSync(
      join(folder, 'clause-tables/refused.yaml'),
      'key: iso-13485\nedition: 2027-01-01\ntitle: T\nsource: S\nprovenance: P\nrows:\n  - { clause: "4", title: T, parent: "9" }\n',
    );
    for (const words of [[], ['--to', '2027-01-01']])
      expect(refused('iso-13485', ...words).replace(/\s+/g, ' ')).toContain(
        'clause-tables/refused.yaml:7 was refused: the clause table cannot be used: the parent "9" of the clause "4" is not in the table',
      );
  });
});

describe('questions of deficiency letters', () => {
  test('all fifteen lead to codes that exist, and each to a check at least', () => {
    const known = findingRules();
    const codes = new Set(checks.map((check) => check.code));
    expect(deficiencyQuestions).toHaveLength(15);
    for (const { question, codes: named } of deficiencyQuestions) {
      expect(named.filter((code) => !known.has(code))).toEqual([]);
      expect(
        named.some((code) => codes.has(code)),
        question,
      ).toBe(true);
    }
    const { out, code } = runPlinth(projectRoot, ['explain', 'deficiency-questions']);
    expect(code).toBe(0);
    expect(out.replace(/\s+/g, ' ')).toContain('- 13. Variants are not covered');
  });
});

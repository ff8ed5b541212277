import { describe, expect, test } from 'vitest';
import { documentText } from '../../src/document/document-text.ts';
import type { Cell, Table } from '../../src/document/model.ts';
import { tablesOf } from '../../src/document/tables.ts';
import { demonstration, said, withDocument } from './with-document.ts';

const words = (cell: Cell | undefined): string =>
  documentText({ blocks: [{ kind: 'paragraph', children: cell?.children ?? [] }], footnotes: [] })
    .replace(/\s+/g, ' ')
    .trim();

const tables = (view: string, files = demonstration): readonly Table[] =>
  tablesOf(withDocument(`# Trial\n\n\`\`\`plinth ${view}\n\`\`\``, files).document.blocks);

/** Rows as texts; a cell that spans rows stands in its first one only. */
const rows = (table: Table | undefined): readonly string[] =>
  (table?.rows ?? []).map((row) => row.cells.map(words).join(' | '));

/** The demonstration file with a text of one file replaced. */
const edited = (path: string, from: string | RegExp, to: string): typeof demonstration => {
  const before = new TextDecoder().decode(demonstration.get(path));
  const after = before.replace(from, to);
  if (after === before) throw new Error(`${path} does not hold ${from}`);
  return new Map([...demonstration, [path, new TextEncoder().encode(after)]]);
};

describe('limits', () => {
  test('shows each limit with its test and what the data of today say', () => {
    const all = rows(tables('limits')[0]);
    expect(all.find((row) => row.includes('DI-09'))).toBe(
      'DI-09 Tip retention | tip retention force | ≥ 30 N | fresh, aged | VP-09 VP-09A | VR-09: pass VR-09B: pass',
    );
    // With the digits of the record.
    expect(all.find((row) => row.includes('DI-08'))).toContain('≤ 5.10 mm');
    const odd = edited('verification/data/VR-09B.csv', /,5\d\.\d+/g, ',20.0');
    expect(rows(tables('limits', odd)[0]).find((row) => row.includes('DI-09'))).toContain(
      'VR-09B: undecided',
    );
  });

  test('says what nobody tests', () => {
    const untested = edited('verification/VP-18.md', 'verifies: [DI-18]', 'verifies: [DI-17]');
    expect(rows(tables('limits', untested)[0]).find((row) => row.startsWith('DI-18'))).toContain(
      'not tested | no result',
    );
  });
});

describe('validation-matrix', () => {
  test('leads from each need to its study', () => {
    const all = rows(tables('validation-matrix')[0]);
    expect(all.filter((row) => row.startsWith('UN-'))).toHaveLength(14);
    expect(all.find((row) => row.startsWith('UN-09'))).toMatch(/LP-01.*LR-01.*pass.*passed$/);
  });

  test('says which need nobody validates', () => {
    const open = edited('validation/LP-01.md', 'validates: [UN-01, ', 'validates: [');
    expect(rows(tables('validation-matrix', open)[0]).find((row) => row.startsWith('UN-01'))).toContain(
      'no validation | not carried out | not yet',
    );
  });
});

describe('what was approved more than once', () => {
  test('approvals: the earlier ones stand as such, in the order of the file', () => {
    const own = rows(tables('approvals\ntypes: [design-change]')[0]);
    expect(own.filter((row) => / 2026-06-16 \| earlier$/.test(row))).not.toEqual([]);
    expect(own.findIndex((row) => row.endsWith('2026-06-16 | earlier'))).toBeLessThan(
      own.findIndex((row) => row.endsWith('2026-10-21 | in force')),
    );
    // Who asks for those in force is not shown others.
    expect(
      rows(tables('approvals\nonly: in force\ntypes: [design-change]')[0]).filter((row) =>
        row.endsWith('earlier'),
      ),
    ).toEqual([]);
  });

  test('file-index: the first day beside the last, and nothing where there was one approval', () => {
    const all = tables('file-index').flatMap(rows);
    const of = (id: string): string => all.find((row) => row.startsWith(`${id} |`)) ?? '';
    expect(of('VR-09')).toContain('| in force, 2026-06-16 first 2025-12-19 |');
    // Two roles that sign on two days have not approved twice.
    expect(of('DI-01')).toContain('| in force, 2025-11-03 |');
  });

  test('signature-page: the day of the record is no day of a signature', () => {
    const [table] = tables('signature-page\nof: [DC-01]');
    const recorded = table?.columns.findIndex(({ title }) => title === 'Approval recorded') ?? -1;
    expect(table?.rows.map(({ cells }) => words(cells[recorded]))).toContain(
      '2026-10-21 in force earlier: 2026-06-16',
    );
    expect(table?.rows.flatMap(({ cells }) => cells.slice(recorded + 1).map(words))).toEqual(
      (table?.rows ?? []).flatMap(() => ['', '']),
    );
  });
});

test('file-index: documents with the number and the revision that their covers carry', () => {
  const index = tables('file-index').find(({ columns }) => columns.some(({ title }) => title === 'Number'));
  expect(rows(index).find((row) => row.startsWith('DOC-05 |'))).toMatch(
    /^DOC-05 \| DGA1-DF-001 \| 2 \| Design and development file index \|/,
  );
});

describe('approvals', () => {
  test('shows each role with its state; lapsed and missing ones can be asked for alone', () => {
    const [table] = tables('approvals\ntypes: [design-input]');
    expect(rows(table).filter((row) => row.startsWith('DI-09'))).toHaveLength(1);
    expect(rows(table).find((row) => row.startsWith('DI-01'))).toMatch(/design engineer.*in force$/);
    expect(tables('approvals\nonly: lapsed')).toEqual([]);
    const changed = edited('design-inputs/DI-09.md', 'lower: 30', 'lower: 29');
    const lapsed = rows(tables('approvals\nonly: lapsed\ntypes: [design-input]', changed)[0]);
    expect(lapsed).toHaveLength(2);
    expect(lapsed[0]).toMatch(/^DI-09.*lapsed changed since: DI-09$/);
    const unsigned = edited('design-inputs/DI-09.md', /approvals:[\s\S]*?---/, '---');
    expect(rows(tables('approvals\nonly: missing\ntypes: [design-input]', unsigned)[0])).toEqual([
      'DI-09 Tip retention | design engineer | nobody yet | – | – | missing',
      'quality lead | nobody yet | – | – | missing',
    ]);
  });

  test('of a change: the change, what it changes and what it names as affected', () => {
    const ids = (view: string, files = demonstration) =>
      rows(tables(view, files)[0]).flatMap((row) => /^[A-Z]+-\d+[A-Z]?(?= )/.exec(row) ?? []);
    const affected = 'RK-03 RC-05 RC-04 RC-10 DI-09 DO-13 MT-04 VP-08 VP-09 VP-09A VP-10 VP-11'.split(' ');
    expect(ids('approvals\nchange: DC-01')).toEqual(['DC-01', 'DO-04', ...affected]);
    expect(ids('approvals\nchange: DC-01\ntypes: [risk-control]')).toEqual(['RC-05', 'RC-04', 'RC-10']);
    const alone = edited('changes/DC-01.md', /\naffected: .*/, '');
    expect(ids('approvals\nchange: DC-01', alone)).toEqual(['DC-01', 'DO-04']);
    expect(said(withDocument('```plinth approvals\nchange: RK-03\n```'))).toEqual([
      '9:9 view-body-wrong: approvals: there is no design change RK-03 | Name a record of type design-change.',
    ]);
  });

  test('an unknown type is told at its place', () => {
    expect(said(withDocument('```plinth approvals\ntypes: [design-imput]\n```'))).toEqual([
      '9:9 view-body-wrong: approvals: there is no record type "design-imput" | Did you mean "design-input"?',
    ]);
  });
});

describe('records', () => {
  test('a field that may be empty is a dash; what every record needs is not stated', () => {
    const [table] = tables('records\ntype: user-need\nfields: [needed_by, use_environment]');
    const all = rows(table);
    expect(all.filter((row) => row.endsWith(' | –')).length).toBeGreaterThan(3);
    expect(all.join('\n')).not.toContain('not stated');
    const open = edited('design-inputs/DI-09.md', /approvals:[\s\S]*?---/, '---');
    const [unsigned] = tables('records\ntype: design-input\nfields: [approvals]', open);
    expect(rows(unsigned).find((row) => row.startsWith('DI-09'))).toMatch(/not stated$/);
  });

  test('shows who approved what and when, without the digests', () => {
    const [table] = tables('records\ntype: design-input\nfields: [approvals]');
    expect(rows(table).find((row) => row.startsWith('DI-09'))).toMatch(
      /design engineer: Tamsin Oakrill, 20\d\d-\d\d-\d\d, approved/,
    );
    expect(rows(table).join()).not.toMatch(/[0-9a-f]{16}/);
  });

  test('a list in place of its fields is told as what it is', () => {
    expect(said(withDocument('```plinth records\n- type\n```'))[0]).toMatch(
      /view-body-wrong: records: what stands in the block is \["type"\], expected a group of fields/,
    );
  });
});

describe('change-impact', () => {
  test('sets each decision beside what came of it', () => {
    const [results, affected] = tables('change-impact\nchange: DC-01');
    expect(rows(results).map((row) => row.slice(0, 5))).toEqual([
      'VR-08',
      'VR-09',
      'VR-09',
      'VR-10',
      'VR-11',
    ]);
    expect(rows(results).find((row) => row.startsWith('VR-09A'))).toMatch(
      /fail \| repeat \|.*\| VR-09B: pass$/,
    );
    expect(rows(affected).find((row) => row.startsWith('RK-03'))).toContain('Risk | passed');
  });

  test('shows a result without a decision, and a repetition that is missing', () => {
    const undecided = edited('changes/DC-01.md', / {2}- record: VR-11\n.*\n.*\n/, '');
    expect(rows(tables('change-impact', undecided)[0]).find((row) => row.startsWith('VR-11'))).toContain(
      'no decision',
    );
    const files = new Map(demonstration);
    files.delete('verification/VR-09B.md');
    expect(rows(tables('change-impact', files)[0]).find((row) => row.startsWith('VR-09A'))).toContain(
      'not repeated yet',
    );
  });

  test('an unknown change is told', () => {
    expect(said(withDocument('```plinth change-impact\nchange: DC-10\n```'))[0]).toContain(
      'there is no design change DC-10',
    );
  });
});

describe('terms', () => {
  const files = new Map<string, string | Uint8Array>([
    [
      'plinth.yaml',
      'device: { name: Test device, maker: Harrow Lane Instruments }\nterms:\n  - { term: squeeze, meaning: One stroke. }\n  - { term: aged, meaning: Held warm., source: "ASTM F1980" }\n  - { term: C++ (part), meaning: None. }\n',
    ],
  ]);
  const shown = (body: string) =>
    rows(tablesOf(withDocument(`${body}\n\n\`\`\`plinth terms\n\`\`\``, files).document.blocks)[0]);

  test('shows those that the document uses, in the order of the alphabet', () => {
    expect(shown('Ten Squeezes of an aged unit.')).toEqual([
      'aged | Held warm. | ASTM F1980',
      'squeeze | One stroke. | this file',
    ]);
    expect(shown('A managed unit, C++ (part).')).toEqual(['C++ (part) | None. | this file']);
    expect(shown('Nothing.')).toEqual([]);
  });
});

import { describe, expect, test } from 'vitest';
import { documentText } from '../../src/document/document-text.ts';
import type { Cell, Table } from '../../src/document/model.ts';
import { tablesOf } from '../../src/document/tables.ts';
import { demonstration, said, withDocument } from './with-document.ts';

type Files = ReadonlyMap<string, string | Uint8Array>;

const words = (cell: Cell | undefined): string =>
  documentText({ blocks: [{ kind: 'paragraph', children: cell?.children ?? [] }], footnotes: [] })
    .replace(/\s+/g, ' ')
    .trim();

const drawn = (view: string, files: Files = demonstration) =>
  withDocument(`# Trial\n\n\`\`\`plinth ${view}\n\`\`\``, files);

const tables = (view: string, files?: Files): readonly Table[] =>
  tablesOf(drawn(view, files).document.blocks);

/** Rows as texts; a cell that spans rows stands in its first one only. */
const rows = (table: Table | undefined): readonly string[] =>
  (table?.rows ?? []).map((row) => row.cells.map(words).join(' | '));

const whole = (view: string, files?: Files): string => documentText(drawn(view, files).document);

const edited = (path: string, from: string | RegExp, to: string, base: Files = demonstration): Files => {
  const content = base.get(path);
  const before = typeof content === 'string' ? content : new TextDecoder().decode(content);
  const after = before.replace(from, to);
  if (after === before) throw new Error(`${path} does not hold ${from}`);
  return new Map([...base, [path, after]]);
};

describe('submission-index', () => {
  test('leads from a row to the documents, with number and revision', () => {
    const [table] = tables('submission-index\nof: SB-01\ntable: eu-mdr-annex-2\nclause: "5"');
    expect(rows(table)).toEqual([
      expect.stringMatching(/^5 \| .* \| see below$/),
      expect.stringMatching(/^5\(a\) \| .* \| DOC-23 .*, DGA1-RM-005 revision 1, approved .*DOC-09/),
      expect.stringMatching(/^5\(b\) \| .* \| DOC-06 .*DOC-04 .*DOC-09/),
    ]);
  });

  test('says of what nothing is said, and points to the row above where its entry holds', () => {
    const without = edited('submissions/SB-01.md', / {6}- clause: 6\.2\(a\)\n.*\n/, '');
    const all = rows(tables('submission-index\nof: SB-01\ntable: eu-mdr-annex-2\nclause: "6.2"', without)[0]);
    expect(all.find((row) => row.startsWith('6.2(a) '))).toMatch(/\| missing$/);
    const merged = edited('submissions/SB-01.md', / {6}- clause: 1\.1\(b\)\.10\n.*\n/, '');
    const annex3 = rows(tables('submission-index\nof: SB-01\ntable: eu-mdr-annex-3', merged)[0]);
    expect(annex3.find((row) => row.startsWith('1.1(b).10 '))).toMatch(
      /\| missing; content is given for 1\.1 only$/,
    );
    const fourth = rows(tables('submission-index\nof: SB-01\ntable: eu-mdr-annex-2\nclause: "4"')[0]);
    expect(fourth.find((row) => row.startsWith('4(a) '))).toMatch(/\| as for 4$/);
  });

  test('lists what is left empty with its reason, once for what holds for several rows', () => {
    const [first] = tables('submission-index\nof: SB-01\ntable: eu-mdr-annex-2\npart: empty');
    const all = rows(first);
    expect(all.find((row) => row.startsWith('6.2(a) '))).toContain(
      'left empty: The device contains no medicinal substance.',
    );
    expect(all.filter((row) => row.startsWith('1.2'))).toHaveLength(1);
  });

  // Annex III 1.1(b) of Regulation (EU) 2017/745, last indent: a PMCF plan, or why none is applicable.
  test('says which rows have content for the row above only, beside what is left empty', () => {
    const view = 'submission-index\nof: SB-01\ntable: eu-mdr-annex-3\npart: empty';
    expect(rows(tables(view)[0]).find((row) => row.startsWith('1.1(b).10 '))).toContain(
      'no plan for clinical follow-up after market (PMCF)',
    );
    expect(whole(view)).not.toContain('1.1(b).10 (1.1)');
    const merged = edited('submissions/SB-01.md', / {6}- clause: 1\.1\(b\)\.10\n.*\n/, '');
    expect(rows(tables(view, merged)[0]).find((row) => row.startsWith('1.1(b).10 '))).toMatch(
      /\| missing; content is given for 1\.1 only$/,
    );
    expect(whole('submission-index\nof: SB-01\ntable: eu-mdr-annex-2\npart: empty')).toMatch(
      /Rows 4\(a\), 4\(b\), 4\(c\) and 4\(d\) have no entry of their own; row 4 above them has content\. Whether/,
    );
  });

  test('lists each document once, with all rows that it answers', () => {
    const [table] = tables('submission-index\nof: SB-01\npart: documents');
    const all = rows(table).filter((row) => row.startsWith('DOC-09'));
    expect(all).toEqual([expect.stringMatching(/A2 5\(a\), A2 5\(b\), A3 1\.1, A3 1\.1\(b\)\.3$/)]);
  });

  test('marks a draft among what is handed in', () => {
    const draft = edited('documents/DOC-09.md', 'status: approved', 'status: draft');
    expect(rows(tables('submission-index\nof: SB-01\npart: documents', draft)[0])).toContainEqual(
      expect.stringMatching(/^DOC-09 .* \| draft \| /),
    );
  });

  test('marks a document whose approval has lapsed', () => {
    const changed = edited('documents/DOC-09.md', 'title: Risk management report', 'title: Risk report');
    expect(rows(tables('submission-index\nof: SB-01\npart: documents', changed)[0])).toContainEqual(
      expect.stringMatching(/^DOC-09 Risk report .* \| approval lapsed \| /),
    );
  });

  test.each([
    ['of: SB-10', 'there is no submission "SB-10" | Did you mean "SB-01"?'],
    ['of: SB-01\ntable: eu-mdr-annex-4', 'SB-01 does not follow the table "eu-mdr-annex-4"'],
    ['of: SB-01\nclause: "9.9"', 'eu-mdr-annex-2 has no row "9.9"'],
  ])('says what is wrong with %s', (body, expected) => {
    expect(said(drawn(`submission-index\n${body}`)).join('\n')).toContain(expected);
  });
});

describe('authority-questions', () => {
  test('shows the state of each question and what was changed for it', () => {
    const all = rows(tables('authority-questions')[0]);
    expect(all.map((row) => row.split(' ')[0])).toEqual(['AQ-01', 'AQ-02', 'AQ-03']);
    expect(all[0]).toContain('accepted 2026-11-19 | none: The reason stood in the protocol');
    expect(all[1]).toContain('answered 2026-11-18 | DOC-02 revision 1 to 2: The intended purpose');
    expect(all[2]).toContain('2026-12-11 | open | not answered yet');
  });

  test('shows only the open ones, and those past their day as overdue', () => {
    expect(rows(tables('authority-questions\nshow: open')[0]).map((row) => row.split(' ')[0])).toEqual([
      'AQ-03',
    ]);
    const late = edited('questions/AQ-03.md', 'due: 2026-12-11', 'due: 2026-11-19');
    expect(rows(tables('authority-questions\nshow: open', late)[0])[0]).toContain('| overdue |');
    const today = edited('questions/AQ-03.md', 'due: 2026-12-11', 'due: 2026-11-20');
    expect(rows(tables('authority-questions\nshow: open', today)[0])[0]).toContain('| open |');
    const none = edited('questions/AQ-03.md', 'status: in review', 'status: retired');
    expect(whole('authority-questions\nshow: open', none)).toContain('No question of an authority is open.');
  });

  test('prints question and answer in full', () => {
    const text = whole('authority-questions\nform: full');
    expect(text).toContain('which takes 299 units without a failure');
    expect(text).toContain('The smaller plan is a written exception');
  });
});

describe('declaration', () => {
  // The ten items of Annex IV of Regulation (EU) 2017/745.
  test('has the ten items, each drawn from where it stands', () => {
    const all = rows(tables('declaration')[0]);
    const items = (tables('declaration')[0]?.rows ?? []).flatMap(({ cells }) =>
      cells.length === 5 ? words(cells[0]) : [],
    );
    expect(items).toEqual(['1', '2', '3', '4', '5', '6', '7', '8', '9', '10']);
    expect(all.find((row) => row.startsWith('3 |'))).toMatch(
      /9520123DGA1VF \| plinth\.yaml, device\.basic_udi_di$/,
    );
    expect(all.find((row) => row.startsWith('5 |'))).toMatch(/class IIa, rule 6 of Annex VIII \| CL-01$/);
    expect(all.find((row) => row.includes('Intended purpose'))).toContain('To hold and deliver particulate');
  });

  test('is not signed, whatever the technical file says', () => {
    const text = whole('declaration');
    expect(text).toContain('Draft, not signed.');
    expect(text).toContain('no declaration of conformity');
    for (const part of ['Place and date', 'Name and function', 'Signature'])
      expect(rows(tables('declaration')[0]).find((row) => row.includes(part))).toMatch(
        /\| _+ \| by the person who signs$/,
      );
  });

  test('says what is missing and what is left out', () => {
    const without = edited('plinth.yaml', / {2}address: 12 Harrow Lane.*\n/, '');
    expect(whole('declaration', without)).toContain('1 part is missing.');
    expect(rows(tables('declaration', without)[0])).toContainEqual(
      expect.stringMatching(/Address \| missing \| none$/),
    );
    expect(rows(tables('declaration')[0])).toContainEqual(
      expect.stringContaining('left out: The maker has its place of business within the Union.'),
    );
  });
});

describe('materials', () => {
  test('lists parts, grade, contact, duration and evidence', () => {
    const [table] = tables('materials');
    expect(table?.columns.map(({ title }) => title)).toEqual([
      'Material',
      'Part',
      'Grade',
      'Contact',
      'Duration',
      'Evidence',
    ]);
    const all = rows(table);
    const materials = [...demonstration.keys()].filter((path) => path.startsWith('materials/'));
    expect(materials.length).toBeGreaterThan(3);
    for (const path of materials)
      expect(
        all.some((row) => row.startsWith(path.slice('materials/'.length, -'.md'.length))),
        path,
      ).toBe(true);
  });

  test('says where there is no evidence', () => {
    const path = [...demonstration.keys()].find((each) => each.startsWith('materials/')) ?? '';
    const bare = edited(path, /^evidence:.*\n/m, '');
    expect(rows(tables('materials', bare)[0]).join('\n')).toContain('no evidence');
  });
});

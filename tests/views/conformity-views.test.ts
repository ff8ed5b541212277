import { describe, expect, test } from 'vitest';
import { documentText } from '../../src/document/document-text.ts';
import type { Block, Cell, Heading, Table } from '../../src/document/model.ts';
import { namedTablesOf, tablesOf } from '../../src/document/tables.ts';
import { writeCsv } from '../../src/writers/csv/write-csv.ts';
import { demonstration, said, withDocument } from './with-document.ts';

const words = (cell: Cell | undefined): string =>
  documentText({ blocks: [{ kind: 'paragraph', children: cell?.children ?? [] }], footnotes: [] })
    .replace(/\s+/g, ' ')
    .trim();

type Files = ReadonlyMap<string, string | Uint8Array>;

const rows = (table: Table | undefined): readonly string[] =>
  (table?.rows ?? []).map((row) => row.cells.map(words).join(' | '));

const edited = (files: Files, path: string, from: string | RegExp, to: string): Files => {
  const before = files.get(path);
  const text = typeof before === 'string' ? before : new TextDecoder().decode(before);
  const after = text.replace(from, to);
  if (after === text) throw new Error(`${path} does not hold ${from}`);
  return new Map<string, string | Uint8Array>([...files, [path, after]]);
};

const annex1 = 'legal-requirements\ntable: eu-mdr-annex-1';

const views = [
  annex1,
  `${annex1}\nanchor: clauses`,
  `${annex1}\napplicable: open`,
  `${annex1}\npart: summary`,
  `${annex1}\npart: documents`,
  `${annex1}\npart: edition`,
  'legal-requirements\ntable: imdrf-nivd-toc',
  'standards',
  'standards\npart: editions',
];

/** The views in one document, each with its blocks: compiling a technical file takes longer than drawing from it. */
const draw = (files: Files): ReadonlyMap<string, readonly Block[]> => {
  const body = views.map((view, index) => `# View ${index}\n\n\`\`\`plinth ${view}\n\`\`\`\n`).join('\n');
  const { blocks } = withDocument(body, files).document;
  const starts = views.map((_, index) =>
    blocks.findIndex(
      (block) =>
        block.kind === 'heading' && documentText({ blocks: [block], footnotes: [] }) === `View ${index}`,
    ),
  );
  return new Map(
    views.map((view, index) => [view, blocks.slice((starts[index] ?? 0) + 1, starts[index + 1])]),
  );
};

const clean = draw(demonstration);
const faulty = draw(
  (
    [
      [
        'requirements/GR-10.md',
        '  - clause: "10.1(c)"\n    applicable: false',
        '  - clause: "10.1(c)"\n    applicable: proposed no',
      ],
      ['requirements/GR-10.md', / {2}- clause: "10\.5"\n(?: {4}.*\n)+/, ''],
      ['requirements/GR-10.md', / {2}- clause: "10\.4\.2\(a\)"\n(?: {4}.*\n)+/, ''],
      ['documents/DOC-06.md', 'status: approved', 'status: draft'],
      [
        'standards/ST-03.md',
        'recognition: not checked',
        'recognition: recognised in part\nrecognition_checked: 2026-11-02',
      ],
      ['standards/ST-10.md', /gap_analysis:\n(?: .*\n)+/, ''],
      [
        'standards/ST-10.md',
        '  published: 2023-12-01\n',
        '  published: 2023-12-01\n  transition_until: 2025-06-30\n',
      ],
    ] as const
  ).reduce<Files>((files, [path, from, to]) => edited(files, path, from, to), demonstration),
);

const rowsOf = (view: string, drawn = clean): readonly string[] =>
  tablesOf(drawn.get(view) ?? []).flatMap(rows);

const rowOf = (view: string, start: string, drawn = clean): string | undefined =>
  rowsOf(view, drawn).find((row) => row.startsWith(`${start} |`));

describe('legal-requirements', () => {
  test('gives every requirement of Annex I a heading with its record, and every clause a row', () => {
    const blocks = clean.get(annex1) ?? [];
    const headings = blocks.filter(
      (block): block is Heading => block.kind === 'heading' && block.recordId !== undefined,
    );
    expect(headings.map((heading) => heading.recordId)).toEqual(
      Array.from({ length: 23 }, (_, index) => `GR-${index + 1}`),
    );
    // 23 requirements, 64 clauses of the second level, 5 of the third and 118 lettered points (Regulation (EU) 2017/745).
    expect(rowsOf(annex1)).toHaveLength(23 + 64 + 5 + 118);
  });

  test('with an anchor all clauses are one table for a spreadsheet, though each requirement has its own on paper', () => {
    const drawnTables = (clean.get(`${annex1}\nanchor: clauses`) ?? []).filter(
      ({ kind }) => kind === 'table',
    );
    expect(drawnTables).toHaveLength(23);
    const [all, ...others] = namedTablesOf(drawnTables);
    expect(others).toEqual([]);
    expect(all?.name).toBe('clauses');
    const lines = writeCsv(all?.table ?? { kind: 'table', columns: [], rows: [] }).split('\r\n');
    // A heading, 210 clauses (Regulation (EU) 2017/745, Annex I), and nothing behind the last line break.
    expect(lines.filter((line) => /^\d+/.test(line))).toHaveLength(210);
    expect(lines).toHaveLength(1 + 210 + 1);
    expect(namedTablesOf(clean.get(annex1) ?? [])).toEqual([]);
  });

  test('a row says whether it applies, how it is met, by which edition, and in which document the evidence is', () => {
    const yes = rowOf(annex1, '10.2');
    expect(yes).toContain('| yes | Residues, endotoxin, bioburden');
    expect(yes).toContain('Shown by test.');
    expect(yes).toContain('ST-04 ISO 10993-7:2008, in part: limits for limited contact');
    expect(yes).toContain('VR-15 in DGA1-REP-VR-15');
    expect(rowOf(annex1, '10.4.3')).toMatch(
      /^10\.4\.3 \| .* \| no \| Addressed to the Commission;.* \| – \| –$/,
    );
    expect(rowOf(annex1, '23.1(g)')).toContain('DO-09 in DGA1-DO-001, section 8');
  });

  test('leads to the section that it names, where the document has it', () => {
    const links = tablesOf(clean.get(annex1) ?? [])
      .flatMap((table) => table.rows.flatMap((row) => row.cells.flatMap(({ children }) => children)))
      .flatMap((inline) => (inline.kind === 'file-link' && inline.anchor !== undefined ? [inline] : []));
    const leads = links.map(({ path, anchor, children }) => [
      path.slice(0, 6),
      anchor,
      documentText({ blocks: [{ kind: 'paragraph', children }], footnotes: [] }).trim(),
    ]);
    expect(leads).toContainEqual([
      'DOC-06',
      'criteria-for-acceptability',
      'section Criteria for acceptability',
    ]);
    // By its number: the words of the instructions (DO-09) stand in DOC-10.
    expect(leads).toContainEqual(['DOC-10', 'risks-that-remain', 'section 8']);
  });

  test('shows what nobody has decided, what is not answered, and what falls away with the clause above it', () => {
    const open = `${annex1}\napplicable: open`;
    expect(rowsOf(open)).toEqual([]);
    expect(rowsOf(open, faulty)).toEqual([
      expect.stringMatching(/^10\.1\(c\) \| .* \| not decided \(proposed no\)/),
      expect.stringMatching(/^10\.5 \|/),
    ]);
    expect(rowOf(annex1, '10.5', faulty)).toContain('| not answered | nothing yet |');
    expect(rowOf(annex1, '10.4.2(a)', faulty)).toContain('| no | with the clause above |');
  });

  test('the summary counts the rows of the table, not those of the file', () => {
    const summary = `${annex1}\npart: summary`;
    expect(rowsOf(summary)).toHaveLength(24);
    expect(rowOf(summary, '10')).toMatch(/\| 26 \| 16 \| 10 \| 0 \| GR-10$/);
    expect(rowOf(summary, 'All')).toBe('All | 23 requirements | 210 | 113 | 97 | 0 | –');
    expect(rowOf(summary, 'All', faulty)).toBe('All | 23 requirements | 210 | 112 | 96 | 2 | –');
  });

  test('lists the documents that hold the evidence, with revision and status', () => {
    const documents = `${annex1}\npart: documents`;
    expect(rowOf(documents, 'DGA1-RM-003')).toMatch(
      /^DGA1-RM-003 \| DOC-06 Risk management plan \| 1 \| approved \|.*DOC-06/,
    );
    expect(rowOf(documents, 'DGA1-RM-003', faulty)).toContain('| draft |');
  });

  test('says which edition was worked to and how its rows are known', () => {
    const text = documentText({ blocks: clean.get(`${annex1}\npart: edition`) ?? [], footnotes: [] });
    expect(text).toContain('2017-05-05');
    expect(text).toContain('210 rows: ');
  });

  test('marks rows that nobody compared with a text', () => {
    const all = rowsOf('legal-requirements\ntable: imdrf-nivd-toc');
    expect(all.some((row) => row.includes('(from memory)'))).toBe(true);
    expect(all.every((row) => row.includes('not answered'))).toBe(true);
  });

  test('unknown tables and clauses are told at their place', () => {
    const wrong = '```plinth legal-requirements\ntable: eu-mdr-annex1\n```';
    expect(said(withDocument(`${wrong}\n\n\`\`\`plinth ${annex1}\nclauses: ["10", "24"]\n\`\`\``))).toEqual([
      '9:8 view-body-wrong: legal-requirements: there is no clause table "eu-mdr-annex1" | Did you mean "eu-mdr-annex-1"?',
      '14:17 view-body-wrong: legal-requirements: eu-mdr-annex-1 of 2017-05-05 has no clause 24 | Name clauses of the table; each is shown with what stands below it.',
    ]);
  });
});

describe('standards', () => {
  test('lists each standard with edition, extent and the clauses that it is applied for', () => {
    const count = [...demonstration.keys()].filter((path) => path.startsWith('standards/')).length;
    expect(count).toBeGreaterThan(10);
    expect(rowsOf('standards')).toHaveLength(count);
    expect(rowOf('standards', 'ST-03')).toMatch(
      /^ST-03 \| ISO 10993-1 .* \| 2025 \| in full \| not checked \| General safety and performance requirements: 10\.1, 10\.1\(a\), 10\.1\(b\)/,
    );
    expect(rowOf('standards', 'ST-03', faulty)).toContain('| recognised in part looked up on 2026-11-02 |');
  });

  test('shows later editions with their gap analysis, and where none was made', () => {
    expect(rowsOf('standards\npart: editions')).toEqual([
      expect.stringMatching(
        /^ST-10 \| ASTM D4169:2022 \| 2023, published or learnt of on 2023-12-01 Source: .*\| Invented .* \| VP-22, VR-22 \| no effect test engineer, 2026-10-26$/,
      ),
    ]);
    const [row] = rowsOf('standards\npart: editions', faulty);
    expect(row).toContain('the older one may be used until 2025-06-30');
    expect(row).toContain('not analysed | none | gap analysis missing');
  });
});

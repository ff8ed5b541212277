import { describe, expect, test } from 'vitest';
import { documentText } from '../../src/document/document-text.ts';
import type { Table } from '../../src/document/model.ts';
import { tablesOf } from '../../src/document/tables.ts';
import { analyse } from '../../src/pipeline.ts';
import { type CompiledDocument, compileDocuments } from '../../src/views/compile-document.ts';
import { views } from '../../src/views/index.ts';
import { inputsFrom } from '../support/technical-file.ts';
import { compile, demonstration, said, withDocument } from './with-document.ts';

const firstTable = (document: CompiledDocument): Table => {
  const [table] = tablesOf(document.document.blocks);
  if (!table) throw new Error('there is no table');
  return table;
};

/** Body of each view block on the demonstration file, where it is not the usual one. */
const bodies: Readonly<Record<string, string>> = {
  findings: '',
  waivers: '',
  standing: '',
  'revision-history': '',
  'risk-criteria': '',
  'label-content': '',
  declaration: '',
  'conditioning-tree': '',
  claims: '',
  'biological-matrix': '',
  'change-impact': 'change: DC-01',
  terms: 'all: true',
  records: 'type: design-input\nform: table',
  'signature-page': 'of: [DC-01, DI-09]',
  evidence: 'of: [VR-09A, TM-01]',
  figure: 'of: VR-09A\nfigure: histogram',
  'gauge-study': 'working: true',
  'legal-requirements': 'table: eu-mdr-annex-1',
};
/** Body on a file that holds nothing but the document. */
const bodiesOfNothing: Readonly<Record<string, string>> = {
  records: 'type: risk',
  'signature-page': 'of: [DOC-01]',
  evidence: 'of: [VR-01]',
  figure: 'of: VR-01\nfigure: histogram',
  'legal-requirements': 'table: eu-mdr-annex-1\napplicable: yes',
};

describe('views', () => {
  test.each(views.map((view) => view.name))('%s draws the demonstration file without a finding', (name) => {
    const body = bodies[name] ?? 'where: { status: [approved, draft] }';
    const document = withDocument(`# Trial\n\n\`\`\`plinth ${name}\n${body}\n\`\`\``);
    expect(said(document)).toEqual([]);
    expect(document.document.blocks.length).toBeGreaterThan(1);
  });

  test('every view has a schema whose fields say what they mean, and every schema has a view', () => {
    const { schemas } = analyse(inputsFrom(new Map()), []);
    expect([...schemas.views.keys()].sort()).toEqual(views.map((view) => view.name).sort());
    for (const { schema } of schemas.views.values())
      for (const field of Object.values(schema.properties ?? {})) {
        expect(field.title).toBeTruthy();
        expect(field.description).toBeTruthy();
        expect(field.examples?.length).toBeGreaterThan(0);
      }
  });

  test.each(views.map((view) => view.name))('%s says so where there is nothing to show', (name) => {
    const files = new Map([
      ['plinth.yaml', 'device: { name: Granule applicator, maker: Harrow Lane Instruments }\n'],
      [
        'DOC-01.md',
        `---\nid: DOC-01\ntype: document\ntitle: Trial\nstatus: draft\nrevision: "1"\n---\n\`\`\`plinth ${name}\n${bodiesOfNothing[name] ?? ''}\n\`\`\`\n`,
      ],
      // Nothing has been measured yet.
      ['VR-01.md', '---\nid: VR-01\ntype: verification-record\ntitle: Trial\nstatus: draft\n---\n'],
    ]);
    const analysis = analyse(inputsFrom(files), []);
    const [document] = compileDocuments({ ...analysis, waived: [] }, compile);
    expect(document?.findings).toEqual([]);
    expect(documentText(document?.document ?? { blocks: [], footnotes: [] }).length).toBeGreaterThan(10);
  });
});

describe('the trace matrix', () => {
  const table = firstTable(withDocument('```plinth trace-matrix\ncaption: Matrix\n```'));
  const analysis = analyse(inputsFrom(demonstration), []);

  test('starts a group for every need, in order of id', () => {
    const needs = analysis.graph.recordsOf('user-need').map((need) => need.id);
    expect(table.rows.flatMap((row) => row.recordId ?? [])).toEqual(needs);
  });

  test('shows every design input, and each of its protocols with its verdict', () => {
    const text = documentText({ blocks: [table], footnotes: [] });
    for (const input of analysis.graph.recordsOf('design-input'))
      expect(text).toContain(`${input.id} ${input.title}`);
    for (const protocol of analysis.graph.recordsOf('verification-protocol'))
      expect(text).toContain(protocol.id);
    expect(text).toContain('29.12 N, required at least 30 N (repeated by VR-09B)');
  });

  test('spans add up: every row has a cell or a span above it in each column', () => {
    const open = table.columns.map(() => 0);
    for (const row of table.rows) {
      let at = 0;
      for (const cell of row.cells) {
        while ((open[at] ?? 0) > 0) at += 1;
        open[at] = cell.rowSpan ?? 1;
        at += 1;
      }
      expect(open.every((left) => left > 0)).toBe(true);
      for (const index of open.keys()) open[index] = (open[index] ?? 0) - 1;
    }
    expect(open.every((left) => left === 0)).toBe(true);
  });
});

describe('what cannot be drawn is a finding at its line', () => {
  test('an unknown view', () => {
    expect(said(withDocument('# A\n\n```plinth trace-matrx\n```'))).toEqual([
      '10:1 unknown-view: unknown view "trace-matrx" | Did you mean "trace-matrix"?',
    ]);
  });

  test('an unknown field, an unknown value, broken YAML', () => {
    expect(said(withDocument('```plinth trace-matrix\ncolums: [verdict]\n```'))[0]).toBe(
      '9:1 view-body-wrong: trace-matrix: unknown field "colums" | Did you mean "columns"?',
    );
    expect(
      said(withDocument('```plinth trace-matrix\ncaption: A\ncolumns: [verdict, inputs]\n```'))[0],
    ).toMatch(/^10:20 view-body-wrong: trace-matrix: columns\[2\] is "inputs", expected one of: /);
    expect(said(withDocument('```plinth trace-matrix\ncaption: "A\n```'))[0]).toMatch(/view-body-wrong/);
  });

  test('a condition that leaves nothing of what there is, and evidence of a record that has none', () => {
    expect(said(withDocument('```plinth trace-matrix\nwhere: { status: [retired] }\n```'))).toEqual([
      '9:8 view-empty: trace-matrix: "where" leaves nothing to show | Correct the condition, or put the block between :::when and ::: where nothing is a possible answer.',
    ]);
    const [found] = said(withDocument('```plinth evidence\nof: [UN-08]\n```'));
    expect(found).toContain('view-body-wrong: evidence: UN-08 is of a type that carries no evidence');
    expect(said(withDocument('The bound is :value[VR-09/lower_bound]{digit=2}.'))[0]).toContain(
      'unknown-value: :value has no setting "digit" | Use digits, or take it away.',
    );
    expect(said(withDocument('The bound is :vaule[VR-09/lower_bound].'))[0]).toContain(
      'unknown-directive: there is no inline value :vaule | Did you mean ":value"?',
    );
  });

  test('an unknown record type and an unknown field of a type', () => {
    expect(said(withDocument('```plinth records\ntype: design-inputs\n```'))).toEqual([
      '9:7 view-body-wrong: records: unknown record type "design-inputs" | Did you mean "design-input"?',
    ]);
    expect(said(withDocument('```plinth records\ntype: risk\nfields: [hazard, severety]\n```'))[0]).toContain(
      'a risk has no field "severety"',
    );
  });

  test('inline values: unknown record, unknown value, unknown wording', () => {
    expect(said(withDocument('The bound is :value[VR-09Z/lower_bound].'))[0]).toMatch(
      /^8:14 unknown-value: there is no record VR-09Z \| Did you mean "VR-09[AB]?"\?$/,
    );
    expect(said(withDocument('The bound is :value[VR-09A/lower_bond].'))[0]).toContain(
      'VR-09A has no value "lower_bond" | Did you mean "lower_bound"?',
    );
    expect(said(withDocument(':phrase[shelf_live]'))[0]).toContain('Did you mean "shelf_life"?');
    expect(said(withDocument(':claim[CM-99]'))[0]).toContain('there is no claim CM-99');
  });
});

describe('inline values', () => {
  test('print numbers with unit and the digits asked for', () => {
    const text = documentText(
      withDocument(
        'Bound :value[VR-09A/lower_bound], :value[VR-09A/lower_bound]{digits=1}, :value[VR-09A/verdict], :phrase[shelf_life], :claim[CM-02], :count[risk] risks, :device[maker]. At 10:30 it was 5:1.',
      ).document,
    );
    expect(text).toContain(
      'Bound 29.12 N, 29.1 N, fail, 3 years, Graft is placed with one hand and in counted amounts, 12 risks, Harrow Lane Instruments. At 10:30 it was 5:1.',
    );
  });

  test('a number keeps its written form', () => {
    const table = firstTable(
      withDocument('```plinth records\ntype: design-output\nfields: [characteristics]\n```'),
    );
    expect(documentText({ blocks: [table], footnotes: [] })).toContain('4.00 ± 0.05 mm');
  });
});

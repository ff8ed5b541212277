import { describe, expect, test } from 'vitest';
import { isNearbyFile } from '../../src/document/link-target.ts';
import { analyse } from '../../src/pipeline.ts';
import { type FolderPlan, planFolder } from '../../src/submission/folder-plan.ts';
import {
  contentOf,
  missingBranches,
  rowsPassedOver,
  submissionTables,
} from '../../src/submission/submission-rows.ts';
import { copiesOfDocument } from '../../src/views/submission-index.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';

type Analysed = ReturnType<typeof analyse>;

const demonstration = analyse(inputsFrom(readTree('content')));

const planOf = (id: string, { graph, files, clauseTables }: Analysed): FolderPlan => {
  const submission = graph.recordOf('submission', id);
  if (!submission) throw new Error(`there is no ${id}`);
  return planFolder(submission, submissionTables(submission, clauseTables), {
    graph,
    files,
    copiesOf: (document) => copiesOfDocument(document, graph),
  });
};

/** A technical file with a submission of the given entries in Annex III, besides some documents and data. */
const fileWith = (rows: string, more: Readonly<Record<string, string>> = {}): Analysed =>
  analyse(
    inputsFrom(
      new Map(
        Object.entries({
          'plinth.yaml': 'device: { name: Dental granule applicator, maker: Harrow Lane Instruments }\n',
          'documents/DOC-01.md':
            '---\nid: DOC-01\ntype: document\ntitle: "Plan: surveillance / Österreich"\nstatus: draft\nrevision: "1"\n---\n# Plan\n',
          'submissions/SB-01.md': `---\nid: SB-01\ntype: submission\ntitle: Annex III\nstatus: draft\nbody: Notified body (invented)\ntables:\n  - table: eu-mdr-annex-3\n    rows:\n${rows}\n---\nWords.\n`,
          ...more,
        }),
      ),
    ),
  );

describe('the folder of a submission of the demonstration file', () => {
  test.each(['SB-01', 'SB-02', 'SB-03'])('%s holds all that its entries name, each once', (id) => {
    const plan = planOf(id, demonstration);
    const paths = plan.files.map((file) => file.path);
    expect(new Set(paths.map((path) => path.toLowerCase())).size).toBe(paths.length);
    const submission = demonstration.graph.recordOf('submission', id);
    for (const { content, clause } of submission ? contentOf(submission) : [])
      if (content.record === undefined) expect(plan.filesOf(content).length, clause).toBeGreaterThan(0);
  });

  test.each(['SB-01', 'SB-02', 'SB-03'])(
    '%s has paths that a link may lead to, short enough for every system',
    (id) => {
      const plan = planOf(id, demonstration);
      for (const { path } of plan.files) {
        expect(isNearbyFile(path), path).toBe(true);
        // Windows opens paths of up to 260 signs; 80 are left for the place in which the folder is laid.
        expect(`${plan.name}/${path}.docx`.length, path).toBeLessThan(180);
      }
    },
  );

  test('folders are numbered by the place of their part in Annexes II and III', () => {
    const folders = [
      ...new Set(planOf('SB-01', demonstration).files.map(({ path }) => path.split('/')[0] ?? '')),
    ];
    // Annex II of Regulation (EU) 2017/745 has sections 1 to 6 below its first sentence, which is row 0.
    expect(folders).toEqual([
      '01-a2-0-presentation',
      '02-a2-1-device-description-and-specification',
      '03-a2-2-information-supplied-by-the-manufacturer',
      '04-a2-3-design-and-manufacturing-information',
      '05-a2-4-general-safety-and-performance-requirements',
      '06-a2-5-benefit-risk-analysis-and-risk-management',
      '07-a2-6-product-verification-and-validation',
      'data',
    ]);
  });

  test('every row of Annexes II and III has content or a reason', () => {
    const { graph, clauseTables } = demonstration;
    const tables = graph
      .recordsOf('submission')
      .flatMap((submission) => submissionTables(submission, clauseTables));
    expect(tables.map(({ table }) => table.key)).toEqual([
      'eu-mdr-annex-2',
      'eu-mdr-annex-3',
      'imdrf-nivd-toc',
      'us-premarket-contents',
    ]);
    expect(tables.flatMap(missingBranches)).toEqual([]);
  });
});

describe('rows and folders', () => {
  test('content holds for the rows directly below it, and a row without any is missing', () => {
    const { graph, clauseTables } = fileWith('      - { clause: "1.1", content: [{ document: DOC-01 }] }');
    const submission = graph.recordOf('submission', 'SB-01');
    const [table] = submission ? submissionTables(submission, clauseTables) : [];
    const state = new Map(table?.rows.map((row) => [row.row.clause, row.state]));
    expect(state.get('1.1(a)')).toBe('answered');
    expect(state.get('1.1(b).10')).toBe('missing');
    expect(table && rowsPassedOver(table).map(({ above }) => above.clause)).toEqual(['1.1']);
    expect(state.get('1.2')).toBe('missing');
    expect(table && missingBranches(table).map((row) => row.clause)).toEqual(['0', '1.2']);
  });

  test('names of documents and files are safe wherever the folder is laid', () => {
    const rows =
      '      - clause: "1.1"\n        content: [{ document: DOC-01 }, { file: "data/Prüf bericht (1).csv" }, { file: "data/Prüf bericht [1].csv" }, { file: "data/con.csv" }]';
    const plan = planOf(
      'SB-01',
      fileWith(rows, {
        'data/Prüf bericht (1).csv': 'a\n1\n',
        'data/Prüf bericht [1].csv': 'a\n2\n',
        'data/con.csv': 'a\n1\n',
      }),
    );
    const paths = plan.files.map(({ path }) => path);
    expect(paths[0]).toBe(
      '02-a3-1-1-post-market-surveillance-plan-art-84/DOC-01-plan-surveillance-osterreich',
    );
    expect(new Set(paths).size).toBe(4);
    for (const path of paths) {
      expect(path).toMatch(/^[A-Za-z0-9._/-]+$/);
      expect(path, 'a name that Windows keeps for itself').not.toMatch(/(^|\/)con(\.|$)/);
      expect(isNearbyFile(path)).toBe(true);
    }
  });

  test('a document that several rows name lies where the first one puts it', () => {
    const rows =
      '      - { clause: "0", content: [{ document: DOC-01 }] }\n      - { clause: "1.1", content: [{ document: DOC-01 }] }';
    expect(planOf('SB-01', fileWith(rows)).files.map(({ path }) => path.split('/')[0]?.slice(0, 5))).toEqual([
      '01-a3',
    ]);
  });

  test('what does not exist is in no folder', () => {
    const rows = '      - { clause: "1.1", content: [{ document: DOC-09 }, { file: ../secret.csv }] }';
    expect(planOf('SB-01', fileWith(rows)).files).toEqual([]);
  });
});

test('a row that only has rows below it in use is a heading', () => {
  const { graph, clauseTables } = fileWith('      - { clause: "1.1(a)", content: [{ document: DOC-01 }] }');
  const submission = graph.recordOf('submission', 'SB-01');
  const [table] = submission ? submissionTables(submission, clauseTables) : [];
  const state = new Map(table?.rows.map((row) => [row.row.clause, row.state]));
  expect(state.get('1.1')).toBe('heading');
  expect(state.get('1.1(a)')).toBe('answered');
  expect(state.get('1.1(b)')).toBe('missing');
});

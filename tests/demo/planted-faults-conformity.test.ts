import { describe, expect, test } from 'vitest';
import type { Finding } from '../../src/findings/finding.ts';
import { analyse } from '../../src/pipeline.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';
import { edit, replace, type SingleFault } from './planted-faults.ts';
import { seal, type Tree } from './seal.ts';

const materials = 'requirements/GR-10.md';
const classification = 'classification/CL-01.md';
const seal88 = 'standards/ST-07.md';

/** Invented: a later edition, and an analysis of what it means. */
const later = 'superseded_by: { edition: "2025", published: 2025-06-01, source: invented for this test }\n';
const analysed = (date: string, conclusion: string): string =>
  `gap_analysis: { date: ${date}, role: test engineer, differences: None., conclusion: ${conclusion} }\n`;

/** The row of a clause with all its lines. */
const rowOf = (clause: string): RegExp =>
  new RegExp(`^ {2}- clause: "${clause.replace(/[.()]/g, '\\$&')}"\\n(?: {4}.*\\n)+`, 'm');

/** A row without one of its fields. */
const withoutInRow = (tree: Tree, path: string, clause: string, field: string): void =>
  edit(tree, path, (text) =>
    text.replace(rowOf(clause), (row) =>
      row.replace(new RegExp(`^ {4}${field}:.*\\n(?: {6}.*\\n)*`, 'm'), ''),
    ),
  );

const faults: readonly SingleFault[] = [
  {
    planted: 'an older edition of a listed standard is listed beside it',
    code: 'standard-listed-in-two-editions',
    record: 'ST-99',
    says: 'ST-99 and ST-03 list ISO 10993-1 in the editions 2018 and 2025',
    plant: (tree) => {
      const text = new TextDecoder().decode(tree.get('standards/ST-03.md') as Uint8Array);
      tree.set(
        'standards/ST-99.md',
        text.replace('id: ST-03', 'id: ST-99').replace('edition: "2025"', 'edition: "2018"'),
      );
    },
  },
  {
    planted: 'clause 10.5 is shown by another legal requirement',
    code: 'requirement-shown-by-table',
    record: 'GR-10',
    says: 'clause 10.5 names only answers to clauses as evidence: GR-14',
    plant: (tree) =>
      edit(tree, materials, (text) =>
        text.replace(rowOf('10.5'), (row) => row.replace(/evidence: .*/, 'evidence: [GR-14]')),
      ),
  },
  {
    planted: 'a row still reads as the proposal had it',
    code: 'applicability-not-confirmed',
    record: 'GR-10',
    says: 'clause 10.1(c)',
    plant: (tree) =>
      replace(
        tree,
        materials,
        '  - clause: "10.1(c)"\n    applicable: false',
        '  - clause: "10.1(c)"\n    applicable: proposed no',
      ),
  },
  {
    planted: 'clause 10.1(e) does not apply, and nobody says why',
    code: 'applicability-without-reason',
    record: 'GR-10',
    says: '10.1(e)',
    plant: (tree) => withoutInRow(tree, materials, '10.1(e)', 'reason'),
  },
  {
    planted: 'clause 10.5 applies and names no evidence',
    code: 'requirement-without-evidence',
    record: 'GR-10',
    says: '10.5',
    plant: (tree) => withoutInRow(tree, materials, '10.5', 'evidence'),
  },
  {
    planted: 'clause 10.5 does not say by which method it is shown',
    code: 'requirement-without-method',
    record: 'GR-10',
    says: '10.5',
    plant: (tree) => withoutInRow(tree, materials, '10.5', 'method'),
  },
  {
    planted: 'clause 10.5 does not say how it is met',
    code: 'requirement-without-solution',
    record: 'GR-10',
    says: '10.5',
    plant: (tree) => withoutInRow(tree, materials, '10.5', 'solution'),
  },
  {
    planted: 'clause 10.5 names the failed test of revision A as evidence',
    code: 'requirement-evidence-failed',
    record: 'GR-10',
    says: 'VR-09A, whose verdict is fail',
    plant: (tree) =>
      edit(tree, materials, (text) =>
        text.replace(rowOf('10.5'), (row) => row.replace(/evidence: .*/, 'evidence: [VR-09A]')),
      ),
  },
  {
    planted: 'clause 10.5 names nothing but a protocol',
    code: 'requirement-shown-by-plans',
    record: 'GR-10',
    says: 'VP-05',
    plant: (tree) =>
      edit(tree, materials, (text) =>
        text.replace(rowOf('10.5'), (row) => row.replace(/evidence: .*/, 'evidence: [VP-05]')),
      ),
  },
  {
    planted: 'clause 10.4 is set aside, and what stands below it applies',
    code: 'applicable-below-not-applicable',
    record: 'GR-10',
    says: 'apply, and 10.4 above them',
    plant: (tree) =>
      edit(tree, materials, (text) =>
        text.replace(
          rowOf('10.4'),
          '  - clause: "10.4"\n    applicable: false\n    reason: Nothing is released.\n',
        ),
      ),
  },
  {
    planted: 'a clause is set aside because it is not applicable',
    code: 'applicability-without-reason',
    record: 'GR-10',
    says: '10.1(c)',
    plant: (tree) =>
      replace(tree, materials, 'reason: The device has no implantable part.', 'reason: Not applicable.'),
  },
  {
    planted: 'a standard is called harmonised, and nobody says when that was looked up',
    code: 'recognition-not-dated',
    record: 'ST-07',
    says: 'harmonised',
    plant: (tree) => replace(tree, seal88, 'recognition: not checked', 'recognition: harmonised'),
  },
  {
    planted: 'the older edition could be used until last year',
    code: 'standard-transition-over',
    record: 'ST-07',
    says: 'until 2025-09-30',
    plant: (tree) =>
      replace(
        tree,
        seal88,
        'approvals:\n',
        `${later.replace(' }', ', transition_until: 2025-09-30 }')}${analysed('2025-07-01', 'no effect')}approvals:\n`,
      ),
  },
  {
    planted: 'the row of clause 10.6 was lost',
    code: 'clause-not-answered',
    record: 'GR-10',
    says: '10.6',
    plant: (tree) => replace(tree, materials, rowOf('10.6'), ''),
  },
  {
    planted: 'clause 10.3 is answered a second time',
    code: 'clause-answered-twice',
    record: 'GR-10',
    says: '10.3',
    plant: (tree) => edit(tree, materials, (text) => text.replace(rowOf('10.3'), (row) => row + row)),
  },
  {
    planted: 'the row of clause 11.5 stands under requirement 10',
    code: 'clause-outside-record',
    record: 'GR-10',
    says: '11.5',
    plant: (tree) => {
      let row = '';
      edit(tree, 'requirements/GR-11.md', (text) =>
        text.replace(rowOf('11.5'), (found) => {
          row = found;
          return '';
        }),
      );
      edit(tree, materials, (text) => text.replace(rowOf('10.6'), (last) => last + row));
    },
  },
  {
    planted: 'a row has a number that Annex I does not have',
    code: 'clause-unknown',
    record: 'GR-10',
    says: '10.7',
    plant: (tree) =>
      edit(tree, materials, (text) =>
        text.replace(rowOf('10.6'), (row) => row + row.replace('"10.6"', '"10.7"')),
      ),
  },
  {
    planted: 'a standard that is applied in part is called applied in full',
    code: 'standard-extent-differs',
    record: 'GR-10',
    says: 'ST-04',
    plant: (tree) =>
      replace(tree, materials, 'standard: ST-04, extent: part', 'standard: ST-04, extent: full'),
  },
  {
    planted: 'a later edition was learnt of, and nobody compared',
    code: 'superseded-standard-unanalysed',
    record: 'ST-07',
    says: 'ASTM F88',
    plant: (tree) => replace(tree, seal88, 'approvals:\n', `${later}approvals:\n`),
  },
  {
    planted: 'the gap analysis finds work and names none',
    code: 'gap-analysis-incomplete',
    record: 'ST-07',
    says: 'names no action',
    plant: (tree) =>
      replace(tree, seal88, 'approvals:\n', `${later}${analysed('2025-07-01', 'work needed')}approvals:\n`),
  },
  {
    planted: 'the gap analysis is older than the edition that it compares with',
    code: 'gap-analysis-incomplete',
    record: 'ST-07',
    says: 'before the new edition was published',
    plant: (tree) =>
      replace(tree, seal88, 'approvals:\n', `${later}${analysed('2025-05-01', 'no effect')}approvals:\n`),
  },
  {
    planted: 'a method cites an older edition than the list has',
    code: 'standard-edition-differs',
    record: 'VP-22',
    says: 'ASTM D4169',
    plant: (tree) =>
      edit(
        tree,
        'verification/VP-22.md',
        (text) => `${text.trimEnd()}\n\nThe schedule is that of ASTM D4169-16.\n`,
      ),
  },
  {
    planted: 'a standard is listed that nothing applies',
    code: 'standard-applied-nowhere',
    record: 'ST-99',
    says: 'ISO 14630',
    plant: (tree) => {
      const text = new TextDecoder().decode(tree.get(seal88) as Uint8Array);
      tree.set(
        'standards/ST-99.md',
        text
          .replace('id: ST-07', 'id: ST-99')
          .replace('designation: ASTM F88/F88M', 'designation: ISO 14630'),
      );
    },
  },
  {
    planted: 'rule 4 gives class IIb, and the record relies on rule 6 with class IIa',
    code: 'classification-not-strictest',
    record: 'CL-01',
    says: 'rule 4',
    plant: (tree) =>
      replace(tree, classification, '    class: IIa\n  - rule: 5', '    class: IIb\n  - rule: 5'),
  },
  {
    planted: 'whether rule 7 applies was left open',
    code: 'classification-rule-unanswered',
    record: 'CL-01',
    says: 'rule 7 is not decided',
    plant: (tree) =>
      replace(
        tree,
        classification,
        /(reading: Surgically invasive, short term\.\n {4}applies: )false/,
        '$1to decide',
      ),
  },
  {
    planted: 'the record names a rule that Annex VIII does not have',
    code: 'classification-rule-unknown',
    record: 'CL-01',
    says: 'rule 24',
    plant: (tree) => replace(tree, classification, 'rule: 14', 'rule: 24'),
  },
  {
    planted: 'the route is that of class IIb',
    code: 'conformity-route-differs',
    record: 'CL-01',
    says: '52(4)',
    plant: (tree) => replace(tree, classification, 'article: "52(6)"', 'article: "52(4)"'),
  },
  {
    planted: 'the design input specification puts the device in another class',
    code: 'class-differs',
    record: 'DOC-02',
    says: 'class IIb by rule 8, and CL-01 has class IIa by rule 6',
    plant: (tree) =>
      replace(
        tree,
        'documents/DOC-02.md',
        'states what the',
        'of a device of class IIb under rule 8 states what the',
      ),
  },
  {
    planted: 'the draft of the declaration speaks of class I',
    code: 'class-differs',
    record: 'DOC-21',
    says: 'class I, and CL-01 has class IIa',
    plant: (tree) => replace(tree, 'documents/DOC-21.md', 'filled in from', 'in class I, filled in from'),
  },
  {
    planted: 'the longest use is 75 minutes, and the term is still transient',
    code: 'use-duration-differs',
    record: 'CL-01',
    says: '75 min',
    plant: (tree) => replace(tree, classification, 'value: 45', 'value: 75'),
  },
  {
    planted: 'the classification states the intended purpose in other words',
    code: 'phrase-differs',
    record: 'CL-01',
    says: 'intended_purpose',
    plant: (tree) => replace(tree, classification, 'To hold and deliver', 'To deliver'),
  },
  {
    planted: 'there is a signed answer to Annex I and no classification',
    code: 'classification-missing',
    record: 'GR-1',
    says: 'classification',
    // The declaration names the class.
    also: ['declaration-item-missing'],
    plant: (tree) => {
      tree.delete(classification);
      for (const path of [...tree.keys()])
        if (path.endsWith('.md')) {
          const text = new TextDecoder().decode(tree.get(path) as Uint8Array);
          if (text.includes('CL-01')) tree.set(path, text.replace(/\bCL-01\b/g, 'UP-01'));
        }
    },
  },
  {
    planted: 'the final review speaks of the design history file',
    code: 'outdated-term',
    record: 'RV-04',
    says: 'design history file',
    plant: (tree) =>
      edit(tree, 'reviews/RV-04.md', (text) => `${text.trimEnd()}\n\nThe design history file is complete.\n`),
  },
  {
    planted: 'the final review cites a section that part 820 no longer has',
    code: 'outdated-citation',
    record: 'RV-04',
    says: '820.30',
    plant: (tree) =>
      edit(tree, 'reviews/RV-04.md', (text) => `${text.trimEnd()}\n\nThe review meets 21 CFR 820.30(e).\n`),
  },
  {
    planted: 'a later edition of Annex I was put beside the one in use',
    code: 'clause-table-outdated',
    record: '',
    says: '2031-01-01',
    plant: (tree) =>
      tree.set(
        'clause-tables/later.yaml',
        'key: eu-mdr-annex-1\nedition: 2031-01-01\ntitle: Invented\nsource: invented for this test\nprovenance: invented for this test\nrows:\n  - { clause: "1", title: Safety }\n',
      ),
  },
  {
    planted: 'a second variant was added, and no protocol says which one it tests',
    code: 'variant-not-covered',
    record: 'VP-09',
    says: 'does not say which of the variants DGA-1S, DGA-1L it tests',
    plant: (tree) =>
      replace(
        tree,
        'plinth.yaml',
        '  code: DGA-1\n',
        '  code: DGA-1\n  variants:\n    - { code: DGA-1S, name: short tip }\n    - { code: DGA-1L, name: long tip }\n',
      ),
  },
];

const clean: Tree = new Map(readTree('content'));
const keyOf = ({ code, message }: Finding): string => `${code}: ${message}`;

test('the demonstration file has no finding', () => {
  expect(analyse(inputsFrom(clean)).findings.map(keyOf)).toEqual([]);
});

describe('a fault in clauses, standards or the class gives its finding and no other', () => {
  test.each(faults.map((fault) => [fault.planted, fault] as const))('%s', (_, fault) => {
    const planted: Tree = new Map(clean);
    fault.plant(planted);
    const found = analyse(inputsFrom(seal(planted))).findings;
    expect([...new Set(found.map(({ code }) => code))].sort(), found.map(keyOf).join('\n')).toEqual(
      [fault.code, ...(fault.also ?? [])].sort(),
    );
    const meant = found.filter(
      ({ code, records }) => code === fault.code && (records[0] ?? '') === fault.record,
    );
    expect(meant.map(keyOf).join('\n')).toContain(fault.says);
  });
});

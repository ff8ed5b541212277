import { describe, expect, test } from 'vitest';
import { documentText } from '../../src/document/document-text.ts';
import { createMarkdownCompiler } from '../../src/document/markdown.ts';
import { type PastFile, recordHistories } from '../../src/graph/record-history.ts';
import { analyse } from '../../src/pipeline.ts';
import { compileDocuments } from '../../src/views/compile-document.ts';
import { inputsFrom } from '../support/technical-file.ts';

const compile = await createMarkdownCompiler();

const plinth = `device: { name: Applicator, maker: Harrow Lane Instruments }
approval_roles: { "*": [quality lead] }
`;

const input = (lower: number, more = '', status = 'draft') => `---
id: DI-01
type: design-input
title: Tip retention
status: ${status}
derives_from: []
limits:
  - { characteristic: tip retention force, unit: N, lower: ${lower} }
method: [test]
${more}---
The tip stays on.

## Rationale

A loose tip can be swallowed.
`;

const approval = `approvals:
  - role: quality lead
    name: Brede Falkonet
    meaning: approved
    date: 2026-02-10
    digest: "${'0'.repeat(64)}"
`;

const commit = (id: string, date: string, subject: string, isMerge = false) => ({
  id: id.repeat(40),
  date,
  author: 'Tamsin Oakrill',
  subject,
  isMerge,
});

const texts: readonly PastFile[] = [
  { commit: commit('1', '2026-01-05', 'Write DI-01'), path: 'old/tip.md', bytes: encode(input(25)) },
  { commit: commit('2', '2026-01-06', 'Move DI-01'), path: 'DI-01.md', bytes: encode(input(25)) },
  { commit: commit('3', '2026-01-09', 'Raise the limit'), path: 'DI-01.md', bytes: encode(input(30)) },
  { commit: commit('4', '2026-01-10', 'Merge', true), path: 'DI-01.md', bytes: encode(input(30)) },
  {
    commit: commit('5', '2026-02-10', 'Approve'),
    path: 'DI-01.md',
    bytes: encode(input(30, approval, 'approved')),
  },
];

function encode(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

const document = (body: string) =>
  `---\nid: DOC-01\ntype: document\ntitle: Trial\nstatus: draft\nrevision: "1"\n---\n${body}\n`;

const compiled = (body: string, cutAt: readonly string[] = [], known = true) => {
  const inputs = inputsFrom(
    new Map([
      ['plinth.yaml', plinth],
      ['DI-01.md', input(30, approval, 'approved')],
      ['DOC-01.md', document(body)],
    ]),
  );
  const { schemas } = analyse(inputs, []);
  const histories = recordHistories({ files: texts, cutAt: new Set() }, schemas);
  const analysis = analyse(
    {
      ...inputs,
      histories: known
        ? { known: true, of: (id) => histories.get(id) ?? [], cutAt: new Set(cutAt) }
        : { known: false, reason: 'git is not installed' },
    },
    [],
  );
  const [result] = compileDocuments({ ...analysis, waived: [] }, compile);
  if (!result) throw new Error('no document');
  return { text: documentText(result.document), findings: result.findings, blocks: result.document.blocks };
};

describe('revision-history', () => {
  const block = '```plinth revision-history\nof: [DI-01]\n```';

  test('tells each change of content, status and approval, through moves and without empty commits', () => {
    const { blocks, findings } = compiled(block);
    expect(findings).toEqual([]);
    const table = blocks.find((each) => each.kind === 'table');
    const rows =
      table?.kind === 'table'
        ? table.rows.map((row) => documentText({ blocks: [{ ...table, rows: [row] }], footnotes: [] }))
        : [];
    expect(rows).toHaveLength(3);
    expect(rows[0]).toContain('first written');
    expect(rows[1]).toContain('limits[tip retention force].lower: 25 N → 30 N (tighter)');
    expect(rows[1]).toContain('2026-01-09');
    expect(rows[2]).toContain('status draft → approved');
    expect(rows[2]).toContain('approved: quality lead, Brede Falkonet, 2026-02-10');
  });

  test('says where the history at hand begins, and where there is none', () => {
    expect(compiled(block, ['1'.repeat(40)]).text).toContain('as it was where the history at hand begins');
    expect(compiled(block, ['1'.repeat(40)]).text).toContain('earlier changes are not listed');
    expect(compiled(block, [], false).text).toContain('The history is not at hand: git is not installed.');
  });

  test('an unknown record is a finding at its line', () => {
    const { findings } = compiled('```plinth revision-history\nof: [DI-02]\n```');
    expect(findings.map((each) => `${each.place.line} ${each.message}`)).toEqual([
      '9 revision-history: there is no record DI-02',
    ]);
  });
});

describe('signature-page', () => {
  test('carries the digest of what is signed, the roles, and room for the scan', () => {
    const { text, findings } = compiled('```plinth signature-page\nof: [DI-01]\n```');
    expect(findings).toEqual([]);
    const analysis = analyse(inputsFrom(new Map([['DI-01.md', input(30)]])), []);
    expect(text).toContain(analysis.approvals.digests.get('DI-01'));
    expect(text).toContain('quality lead');
    expect(text).toContain('lapsed');
    expect(text).toContain('known once the page is signed and scanned');
  });
});

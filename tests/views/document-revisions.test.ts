import { describe, expect, test } from 'vitest';
import { documentText } from '../../src/document/document-text.ts';
import { analyse } from '../../src/pipeline.ts';
import { compileDocuments } from '../../src/views/compile-document.ts';
import { writeHtml } from '../../src/writers/html/write-html.ts';
import { inputsFrom } from '../support/technical-file.ts';
import { compile } from './with-document.ts';

/** One document, in a file with as many user needs that have no design input as are asked for. */
const compiled = (revisions: string, body: string, errors = 0) => {
  const needs = Array.from({ length: errors }, (_, index): readonly [string, string] => [
    `UN-0${index + 1}.md`,
    `---\nid: UN-0${index + 1}\ntype: user-need\ntitle: ""\nstatus: draft\nneeded_by: [surgeon]\n---\nThe surgeon doses.\n\n## Rationale\n\nThe other hand is busy.\n`,
  ]);
  const analysis = analyse(
    inputsFrom(
      new Map([
        ['plinth.yaml', 'device: { name: Applicator, maker: Maker }\n'],
        [
          'DOC-01.md',
          `---\nid: DOC-01\ntype: document\ntitle: Plan\nstatus: draft\nrevision: B\n${revisions}---\n${body}\n`,
        ],
        ...needs,
      ]),
    ),
  );
  const [one] = compileDocuments({ ...analysis, waived: analysis.waivers.waived }, compile, 'DOC-01');
  if (!one) throw new Error('the document was not compiled');
  const errorCount = analysis.findings.filter(({ level }) => level === 'error').length;
  return { ...one, errorCount, text: documentText(one.document) };
};

/** Control of documents asks that changes and the revision status can be told (ISO 13485:2016, 4.2.4). */
describe('the revision history of a document', () => {
  const history =
    'revisions:\n  - { revision: A, date: 2026-06-10, change: "First <issue>." }\n  - { revision: B, date: 2026-11-16, change: A gate more. }\n';

  test('is its last section, oldest revision first, in every format', () => {
    const { document, text, findings } = compiled(history, ':::landscape\n\n# Purpose\n\nWords.\n\n:::');
    expect(findings).toEqual([]);
    expect(document.blocks.at(-2)).toMatchObject({ kind: 'heading', level: 1 });
    expect(document.blocks.at(-1)).toMatchObject({ kind: 'table' });
    expect(text.indexOf('Revision history')).toBeGreaterThan(text.indexOf('Words.'));
    expect(text.indexOf('A gate more.')).toBeGreaterThan(text.indexOf('First <issue>.'));
    const html = writeHtml(document);
    expect(html).toContain('First &lt;issue&gt;.');
    expect(html).toContain('2026-11-16');
  });

  test('is left out where the document states none', () => {
    expect(compiled('', 'Words.').text).not.toContain('Revision history');
  });
});

describe('the banner over a document in a file with errors', () => {
  const banner = 'Findings of level error stand in the technical file';

  test('stands for findings of records, and without their number, so that one more changes no document', () => {
    const [one, two] = [1, 2].map((count) => compiled('', 'Words.', count));
    expect([one?.errorCount, two?.errorCount]).toEqual([1, 2]);
    expect(one?.text).toContain(banner);
    expect(two?.text).toBe(one?.text);
    expect(compiled('', 'Words.').text).not.toContain(banner);
  });

  test('stands for what is wrong in the document itself', () => {
    expect(compiled('', 'The bound is :value[VR-9/bound].').text).toContain(banner);
  });

  test('the list of findings tells those of documents, too', () => {
    const body = 'The bound is :value[VR-9/bound].\n\n```plinth findings\n```';
    const { text } = compiled('', body);
    expect(text).toContain('unknown-value');
    expect(text).not.toContain('No finding stands');
    expect(compiled('', '```plinth findings\n```').text).toContain('No finding stands');
  });
});

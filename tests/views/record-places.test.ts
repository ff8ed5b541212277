import { describe, expect, test } from 'vitest';
import { analyse } from '../../src/pipeline.ts';
import { compileDocuments } from '../../src/views/compile-document.ts';
import { linkDocuments, recordPlaces } from '../../src/views/record-places.ts';
import { writeHtml } from '../../src/writers/html/write-html.ts';
import { inputsFrom } from '../support/technical-file.ts';
import { compile, demonstration } from './with-document.ts';

const document = (id: string, more: string, body: string): readonly [string, string] => [
  `documents/${id}.md`,
  `---\nid: ${id}\ntype: document\ntitle: Trial ${id}\nstatus: draft\nrevision: "1"\n${more}---\n${body}\n`,
];

const compiled = (...documents: readonly (readonly [string, string])[]) => {
  const files = new Map(
    [...demonstration].filter(([path]) => !path.startsWith('documents/')) as [string, string | Uint8Array][],
  );
  for (const [path, text] of documents) files.set(path, text);
  const analysis = analyse(inputsFrom(files), []);
  return compileDocuments({ ...analysis, waived: [] }, compile);
};

const inTable = '# A\n\n```plinth records\ntype: user-need\nfields: [needed_by]\n```';
const inFull = '# B\n\n```plinth records\ntype: user-need\nform: full\nof: [UN-01]\n```';
const both = compiled(
  document('DOC-91', '', inTable),
  document('DOC-92', 'formats: [docx, html]\n', inFull),
  document('DOC-93', 'formats: [html]\n', 'See UN-01, UN-02, DOC-91 and DOC-93.'),
  document('DOC-94', 'formats: [csv]\n', inFull),
);

describe('where a record is shown', () => {
  test('in full before in a row, and only in documents that can be opened', () => {
    const places = recordPlaces(both);
    expect(places.get('UN-01')?.file).toEqual({
      path: 'DOC-92-trial-doc-92.docx',
      inHtml: 'DOC-92-trial-doc-92.html',
    });
    expect(places.get('UN-02')).toMatchObject({
      number: 'DOC-91',
      file: { path: 'DOC-91-trial-doc-91.docx' },
    });
    expect(places.get('DOC-94')).toBeUndefined();
    expect(places.get('DI-01')).toBeUndefined();
  });

  test('a document that was written for the record comes first, an index comes last', () => {
    const places = recordPlaces(
      compiled(
        document('DOC-91', '', inFull),
        document(
          'DOC-92',
          'for_each: { type: user-need }\n',
          '# A\n\n```plinth records\ntype: user-need\nof: [each]\nfields: [needed_by]\n```',
        ),
        document('DOC-93', '', '# A\n\n```plinth file-index\n```'),
        document('DOC-94', '', '# A\n\n```plinth records\ntype: test-method\nfields: [states]\n```'),
      ),
    );
    expect(places.get('UN-01')?.file.path).toMatch(/^DOC-92-UN-01-/);
    expect(places.get('TM-01')?.number).toBe('DOC-94');
    expect(places.get('DI-01')?.number).toBe('DOC-93');
  });

  test('a page leads to pages where there are any, else to the Word file without a place in it', () => {
    const page = writeHtml(
      linkDocuments(both).find(({ record }) => record.id === 'DOC-93')?.document ?? expect.fail(),
    );
    expect(page).toContain('href="DOC-92-trial-doc-92.html#rec_UN_01"');
    expect(page).toContain('href="DOC-91-trial-doc-91.docx" title="');
    expect(page).toMatch(/href="DOC-91-trial-doc-91\.docx"[^>]*>DOC-91</);
    // A document does not lead to itself.
    expect(page).toMatch(/<span class="record"[^>]*>DOC-93<\/span>/);
  });
});

import { expect, test } from 'vitest';
import { asLink, isNearbyFile } from '../../src/document/link-target.ts';
import type { Block, Document, FileLink } from '../../src/document/model.ts';
import { writeDocx } from '../../src/writers/docx/write-docx.ts';
import { writeHtml } from '../../src/writers/html/write-html.ts';
import { listedBookmarks, withLinksToPdf, withListedPages } from '../../src/writers/pdf/pdf-links.ts';
import { pagesOfPlaces } from '../../src/writers/pdf/pdf-places.ts';
import { xmlParts } from './docx-parts.ts';

const link = (more: Omit<FileLink, 'kind' | 'children'>): Document => ({
  id: 'DOC-17',
  title: 'Technical documentation',
  number: 'TD-1',
  revision: '1',
  status: 'draft',
  date: '2026-11-20',
  organisation: 'Harrow Lane Instruments',
  product: 'Granule applicator',
  language: 'en-GB',
  signatures: [],
  blocks: [
    {
      kind: 'paragraph',
      children: [{ kind: 'file-link', children: [{ kind: 'text', value: 'the matrix' }], ...more }],
    },
  ],
  footnotes: [],
  caution: '',
  provenance: [],
  recordTitles: new Map(),
});

test('a link to a deliverable leads to the file, in Word and HTML, and to the record in it', async () => {
  const document = link({
    path: '2 Labels/DOC-01 matrix.docx',
    inHtml: '2 Labels/DOC-01 matrix.html',
    recordId: 'VR-09A',
  });
  const parts = xmlParts((await writeDocx(document, {})).bytes);
  expect(parts.get('word/_rels/document.xml.rels')).toContain(
    'Target="2%20Labels/DOC-01%20matrix.docx" TargetMode="External"',
  );
  expect(parts.get('word/document.xml')).toMatch(/<w:hyperlink r:id="rLink\d+" w:anchor="rec_VR_09A"/);
  expect(writeHtml(document)).toContain(
    '<a href="2%20Labels/DOC-01%20matrix.html#rec_VR_09A">the matrix</a>',
  );
});

test.each([
  '../plinth.yaml',
  '../../a/b.docx',
  'a/../../b.docx',
  '/etc/passwd',
  'C:\\secret.docx',
  'file:///etc/passwd',
  'https://example.org/a.docx',
  'javascript:alert(1)',
  'a//b.docx',
  '.hidden/a.docx',
  'a.docx#there',
  'a?b.docx',
  '',
])('a path that leads elsewhere is no link: %s', async (path) => {
  expect(isNearbyFile(path)).toBe(false);
  const document = link({ path });
  const parts = xmlParts((await writeDocx(document, {})).bytes);
  expect(parts.get('word/document.xml')).not.toContain('<w:hyperlink');
  expect(parts.get('word/document.xml')).toContain('the matrix');
  expect(writeHtml(document)).not.toContain('>the matrix</a>');
});

test('signs that mean something in a link are written by their numbers', () => {
  // RFC 3986, section 2: percent-encoding; UTF-8 as of section 2.5.
  expect(asLink('3 Größe/a, b (1).docx')).toBe('3%20Gr%C3%B6%C3%9Fe/a%2C%20b%20(1).docx');
});

test('in the file that becomes a PDF, links to Word files of the folder lead to their PDFs, and others stay', async () => {
  const document = link({ path: 'DOC-01-matrix.docx', recordId: 'VR-09A' });
  const { bytes } = await writeDocx(
    {
      ...document,
      blocks: [
        ...document.blocks,
        {
          kind: 'paragraph',
          children: [
            {
              kind: 'external-link',
              target: 'https://example.org/form.docx',
              children: [{ kind: 'text', value: 'a form' }],
            },
          ],
        },
      ],
    },
    {},
  );
  const links = xmlParts(withLinksToPdf(bytes)).get('word/_rels/document.xml.rels') ?? '';
  expect(links).toContain('Target="DOC-01-matrix.pdf" TargetMode="External"');
  expect(links).toContain('Target="https://example.org/form.docx" TargetMode="External"');
  // LibreOffice writes a sign that is no letter or digit by its number into the name of a place, and not into the
  // link to it: names of letters and digits are the same in both.
  expect(xmlParts(bytes).get('word/document.xml')).toContain('w:anchor="rec_VR_09A"');
  expect(xmlParts(withLinksToPdf(bytes)).get('word/document.xml')).toContain('w:anchor="rec5FVR5F09A"');
  const plain = (await writeDocx({ ...document, blocks: [] }, {})).bytes;
  expect(withLinksToPdf(plain)).toBe(plain);
});

test('the pages of a contents list can be named anew, and those that are right leave the file as it is', async () => {
  const heading = (text: string): Block => ({
    kind: 'heading',
    level: 1,
    children: [{ kind: 'text', value: text }],
  });
  const { bytes } = await writeDocx(
    { ...link({ path: 'a.docx' }), blocks: ['A', 'B', 'C'].map(heading) },
    {},
  );
  const bookmarks = listedBookmarks(bytes);
  expect(bookmarks).toHaveLength(3);
  const pages = new Map([[bookmarks[1] ?? '', '17']]);
  const corrected = withListedPages(bytes, pages);
  const numbersOf = (file: Uint8Array): readonly string[] =>
    [...(xmlParts(file).get('word/document.xml') ?? '').matchAll(/PAGEREF.*?<w:t[^>]*>(\d+)<\/w:t>/g)].map(
      ([, page = '']) => page,
    );
  expect(numbersOf(bytes)).toEqual(['3', '3', '3']);
  expect(numbersOf(corrected)).toEqual(['3', '17', '3']);
  expect(withListedPages(corrected, pages)).toBe(corrected);
});

test('the page of a place is read from a PDF as LibreOffice writes it, and from no other', () => {
  const pdf = (text: string): Uint8Array => Buffer.from(text, 'latin1');
  const pages = '<</Type/Pages\n/Kids[ 1 0 R 67 0 R\n242 0 R ]\n/Count 3>>';
  const places = '<</5FToc000001[242 0 R/XYZ 90.7 742.4 0]\n/recX[67 0 R/XYZ 1 2 0]>>';
  const wanted = ['_Toc000001', 'recX', '_Toc000002'];
  expect([...pagesOfPlaces(pdf(pages + places), wanted)]).toEqual([
    ['_Toc000001', '3'],
    ['recX', '2'],
  ]);
  expect(pagesOfPlaces(pdf(pages + pages + places), wanted).size).toBe(0);
  expect(pagesOfPlaces(pdf('%PDF-1.7'), wanted).size).toBe(0);
});

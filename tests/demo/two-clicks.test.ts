import { describe, expect, test } from 'vitest';
import { recordBookmark } from '../../src/document/anchors.ts';
import { createMarkdownCompiler } from '../../src/document/markdown.ts';
import { legalRows } from '../../src/graph/legal-rows.ts';
import { analyse } from '../../src/pipeline.ts';
import { deliverableName } from '../../src/submission/deliverable-name.ts';
import { compileDocuments } from '../../src/views/compile-document.ts';
import { linkDocuments } from '../../src/views/record-places.ts';
import { writeDocx } from '../../src/writers/docx/write-docx.ts';
import { writeHtml } from '../../src/writers/html/write-html.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';
import { xmlParts } from '../writers/docx-parts.ts';
import { plainPng } from '../writers/plain-png.ts';

const analysis = analyse(inputsFrom(readTree('content')), []);
const documents = linkDocuments(
  compileDocuments({ ...analysis, waived: [] }, await createMarkdownCompiler()),
);
const requirements = documents.find(({ record }) => record.id === 'DOC-13');
if (!requirements) throw new Error('the demonstration file has no DOC-13');

const pages = new Map(
  documents
    .filter(({ record }) => record.fields.formats?.includes('html'))
    .map((compiled) => [
      `${deliverableName(compiled.record, compiled.each)}.html`,
      writeHtml(compiled.document),
    ]),
);
const own = `${deliverableName(requirements.record)}.html`;

/** Whole deliverables that are evidence themselves have no place of their own in them. */
const isDocument = (id: string): boolean => analysis.graph.recordOf('document', id) !== undefined;

const rows = legalRows(analysis.graph).filter((row) => row.applicable === true);
const evidence = [...new Set(rows.flatMap((row) => row.evidence.map(({ record }) => record)))];

/** Where the first link with these words leads. */
const linkIn = (html: string, words: string): string | undefined =>
  new RegExp(`<a[^>]* href="([^"]*)"[^>]*>${words.replace(/[.]/g, '\\.')}</a>`).exec(html)?.[1];

describe('from a clause to its evidence', () => {
  test('in HTML one click opens the page at the record', () => {
    const page = pages.get(own) ?? '';
    expect(evidence.length).toBeGreaterThan(60);
    const broken = evidence.filter((id) => {
      const [file = '', place] = (linkIn(page, id) ?? '').split('#');
      const target = file === '' ? page : pages.get(decodeURIComponent(file));
      return !target || (isDocument(id) ? place !== undefined : !target.includes(`id="${place}"`));
    });
    expect(broken).toEqual([]);
  });

  test('every clause has its row with the evidence beside it', () => {
    const page = pages.get(own) ?? '';
    const lacking = rows.filter((row) => {
      // The clause that heads a table is in bold there; numbers stand in other tables as well.
      const [before, after] = /^\d+$/.test(row.clause)
        ? ['<td><strong>', '</strong></td>']
        : ['<td>', '</td>'];
      const start = page.indexOf(before + row.clause + after);
      const line = page.slice(start, page.indexOf('</tr>', start));
      return start < 0 || row.evidence.some(({ record }) => linkIn(line, record) === undefined);
    });
    expect(lacking.map((row) => row.clause)).toEqual([]);
  });

  test('from the record a second click leads to the protocol or the raw data', () => {
    const report = [...pages].find(([name]) => name.startsWith('DOC-20-VR-28-'))?.[1] ?? '';
    expect(linkIn(report, 'VP-28')).toBe('#rec_VP_28');
  });

  test('a link to a standard opens the list of standards', () => {
    expect(linkIn(pages.get(own) ?? '', 'ST-04')).toBe('DOC-14-standards-applied.html#rec_ST_04');
  });

  test('no link of any page leads nowhere', () => {
    const files = new Set(
      documents.flatMap((compiled) => {
        const name = deliverableName(compiled.record, compiled.each);
        return (compiled.record.fields.formats ?? ['docx']).map((format) => `${name}.${format}`);
      }),
    );
    const broken = [...pages].flatMap(([name, page]) =>
      [...page.matchAll(/ href="([^"]*)"/g)].flatMap(([, link = '']) => {
        const [file = '', place] = link.split('#');
        if (/^[a-z]+:/.test(link)) return [];
        const path = file === '' ? name : decodeURIComponent(file);
        const target = pages.get(path);
        const isThere =
          files.has(path) && (!place || target === undefined || target.includes(`id="${place}"`));
        return isThere ? [] : [`${name}: ${link}`];
      }),
    );
    expect(broken).toEqual([]);
  });

  test('in Word one click opens the file at the bookmark', async () => {
    const written = await writeDocx(requirements.document, {
      rasterise: (_svg, width, height) => plainPng(width, height),
    });
    const parts = xmlParts(written.bytes);
    const body = parts.get('word/document.xml') ?? '';
    const targets = new Map(
      [
        ...(parts.get('word/_rels/document.xml.rels') ?? '').matchAll(/Id="([^"]+)"[^>]*Target="([^"]+)"/g),
      ].map(([, id, target]) => [id, decodeURIComponent(target ?? '')]),
    );
    const links = new Map(
      [...body.matchAll(/<w:hyperlink ([^>]*)>(?:(?!<\/w:hyperlink>).)*?<w:t[^>]*>([^<]*)<\/w:t>/g)].map(
        ([, attributes, words]) => [words, attributes ?? ''],
      ),
    );
    const files = new Map(
      documents.map((compiled) => [`${deliverableName(compiled.record, compiled.each)}.docx`, compiled]),
    );
    const broken = evidence.filter((id) => {
      const attributes = links.get(id) ?? '';
      const target = targets.get(/r:id="([^"]+)"/.exec(attributes)?.[1]);
      const anchor = /w:anchor="([^"]+)"/.exec(attributes)?.[1];
      const leadsTo = target === undefined ? undefined : files.get(target);
      return !leadsTo || anchor !== (isDocument(id) ? undefined : recordBookmark(id));
    });
    expect(broken).toEqual([]);
  });
});

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
/** Every document as a page, to look at what a link opens: the Word file has the same blocks. */
const looks = new Map(
  documents.map((compiled) => [
    deliverableName(compiled.record, compiled.each),
    writeHtml(compiled.document),
  ]),
);
const own = `${deliverableName(requirements.record)}.html`;

/** Whole deliverables that are evidence themselves have no place of their own in them. */
const isDocument = (id: string): boolean => analysis.graph.recordOf('document', id) !== undefined;

const rows = legalRows(analysis.graph).filter((row) => row.applicable === true);
const evidence = [...new Set(rows.flatMap((row) => row.evidence.map(({ record }) => record)))];

/** The row of a clause in its table. */
const lineOf = (page: string, clause: string): string => {
  // The clause that heads a table is in bold there; numbers stand in other tables as well.
  const cell = /^\d+$/.test(clause) ? `<td><strong>${clause}</strong></td>` : `<td>${clause}</td>`;
  const start = page.indexOf(cell);
  return start < 0 ? '' : page.slice(start, page.indexOf('</tr>', start));
};

const hrefsIn = (html: string): readonly string[] =>
  [...html.matchAll(/<a[^>]* href="([^"]*)"/g)].map(([, href = '']) => decodeURIComponent(href));

/** The compiled file and the record or whole file that a link opens. */
interface Landing {
  readonly file: string;
  readonly id?: string;
}

const idOfMark = new Map([...analysis.graph.records.keys()].map((id) => [recordBookmark(id), id]));

const landing = (file: string, mark: string | undefined): Landing => {
  const id = mark === undefined ? undefined : idOfMark.get(mark);
  return { file: file.replace(/\.(?:html|docx)$/, ''), ...(id === undefined ? {} : { id }) };
};

const leadsTo = (href: string): Landing => {
  const [file = '', mark] = href.split('#');
  return landing(file === '' ? own : file, mark);
};

/** The piece of a page that a link to a record opens: its row, or its section up to the next heading of a record. */
const shownAt = (page: string, id: string): string => {
  const mark = `id="${recordBookmark(id)}"`;
  const at = page.indexOf(mark);
  if (at < 0) return '';
  const isRow = page.lastIndexOf('<tr', at) > page.lastIndexOf('<h', at);
  if (isRow) return page.slice(at, page.indexOf('</tr>', at));
  const next = page.slice(at + mark.length).search(/<h\d[^>]*><span id="rec_/);
  return next < 0 ? page.slice(at) : page.slice(at, at + mark.length + next);
};

/** Whether the first click shows the record in full: a file of its own, a heading with what is below it. */
const isInFull = ({ file, id }: Landing): boolean => {
  if (id === undefined) return true;
  const page = looks.get(file) ?? '';
  return new RegExp(`<h\\d[^>]*>(?:<span[^>]*></span>)*<span id="${recordBookmark(id)}"`).test(page);
};

/** Words of a row that says what came out: a verdict, or an estimate judged against the criteria. */
const outcome = />(?:pass|passed|fail|failed|within the criteria|not within the criteria|accepted)</;

/** Records that hold results: a row that leads to one of them leads to evidence. */
const results: ReadonlySet<string> = new Set(['verification-record', 'validation-record', 'analysis']);

/** Whether evidence is read within two clicks, the first of which is one of these. */
const isReached = (id: string, firsts: readonly Landing[]): boolean => {
  const output = analysis.graph.recordOf('design-output', id);
  const first = firsts.find((each) =>
    isDocument(id) ? each.id === undefined && each.file.startsWith(id) : each.id === id,
  );
  if (!first) return false;
  const shown = isDocument(id) ? '' : shownAt(looks.get(first.file) ?? '', id);
  const near = [
    ...firsts,
    ...hrefsIn(shown).map((href) => leadsTo(href.startsWith('#') ? `${first.file}.html${href}` : href)),
  ];
  const opens = (document: string): boolean =>
    near.some((each) => each.id === undefined && each.file.startsWith(`${document}-`));
  if (output?.fields.wording !== undefined && !opens(output.fields.wording)) return false;
  if (output?.fields.particulars !== undefined && !opens('DOC-29')) return false;
  return (
    isInFull(first) ||
    outcome.test(shown) ||
    near.some((each) => results.has(analysis.graph.record(each.id ?? '')?.type ?? '') && isInFull(each))
  );
};

/** Where the first link with these words leads. */
const linkIn = (html: string, words: string): string | undefined =>
  new RegExp(`<a[^>]* href="([^"]*)"[^>]*>${words.replace(/[.]/g, '\\.')}</a>`).exec(html)?.[1];

const written = await writeDocx(requirements.document, {
  rasterise: (_svg, width, height) => plainPng(width, height),
});
const parts = xmlParts(written.bytes);
const body = parts.get('word/document.xml') ?? '';
const targets = new Map(
  [...(parts.get('word/_rels/document.xml.rels') ?? '').matchAll(/Id="([^"]+)"[^>]*Target="([^"]+)"/g)].map(
    ([, id, target]) => [id, decodeURIComponent(target ?? '')],
  ),
);

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
      const line = lineOf(page, row.clause);
      return line === '' || row.evidence.some(({ record }) => linkIn(line, record) === undefined);
    });
    expect(lacking.map((row) => row.clause)).toEqual([]);
  });

  test('in HTML no evidence of any clause is more than two clicks away', () => {
    const page = pages.get(own) ?? '';
    const far = rows.flatMap((row) => {
      const line = lineOf(page, row.clause);
      return row.evidence
        .filter(({ record }) => !isReached(record, hrefsIn(line).map(leadsTo)))
        .map(({ record }) => `${row.clause}: ${record}`);
    });
    expect(far).toEqual([]);
  });

  test('label and instructions lead to their words and to what they say of each particular', () => {
    const line = lineOf(pages.get(own) ?? '', '23.1(h)');
    expect(linkIn(line, 'DO-09')).toBe('DOC-11-design-output-index.html#rec_DO_09');
    expect(linkIn(line, 'DOC-10')).toBe('DOC-10-instructions-for-use.html');
    expect(linkIn(line, 'DOC-29')).toBe('DOC-29-label-and-instructions-content.html');
    // From the record itself, too: not only from this document.
    const outputs = pages.get('DOC-11-design-output-index.html') ?? '';
    expect(linkIn(shownAt(outputs, 'DO-09'), 'DOC-10')).toBe('DOC-10-instructions-for-use.html');
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

  test('in Word no evidence of any clause is more than two clicks away', () => {
    const lines = (body.match(/<w:tr>.*?<\/w:tr>/g) ?? []).map((line) => {
      const links = [...line.matchAll(/<w:hyperlink ([^>]*)>/g)].map(([, attributes = '']) =>
        landing(
          targets.get(/r:id="([^"]+)"/.exec(attributes)?.[1]) ?? own,
          /w:anchor="([^"]+)"/.exec(attributes)?.[1],
        ),
      );
      const words = [...line.matchAll(/<w:t[^>]*>([^<]*)<\/w:t>/g)].map(([, text]) => text);
      return { clause: words[0], cells: (line.match(/<w:tc>/g) ?? []).length, links };
    });
    const files = new Set(documents.map((compiled) => deliverableName(compiled.record, compiled.each)));
    const far = rows.flatMap((row) => {
      const line = lines.find(({ clause, cells }) => clause === row.clause && cells === 6);
      const links = (line?.links ?? []).filter(({ file }) => files.has(file));
      return row.evidence
        .filter(({ record }) => !isReached(record, links))
        .map(({ record }) => `${row.clause}: ${record}`);
    });
    expect(far).toEqual([]);
  });

  test('in Word one click opens the file at the bookmark', () => {
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

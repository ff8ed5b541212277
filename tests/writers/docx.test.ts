import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { documentText } from '../../src/document/document-text.ts';
import type { Document, Table } from '../../src/document/model.ts';
import { columnWidths } from '../../src/writers/docx/column-widths.ts';
import { landscape, portrait, textWidth } from '../../src/writers/docx/look.ts';
import { runningText } from '../../src/writers/docx/running-text.ts';
import { writeDocx } from '../../src/writers/docx/write-docx.ts';
import { writeHtml } from '../../src/writers/html/write-html.ts';
import { illFormed, linesOf, xmlParts } from './docx-parts.ts';
import { hostileDocument } from './hostile-document.ts';
import { plainPng } from './plain-png.ts';
import { sampleDocument } from './sample-document.ts';

const options = { rasterise: (_svg: string, width: number, height: number) => plainPng(width, height) };
const sample = await writeDocx(sampleDocument, options);
const parts = xmlParts(sample.bytes);
const body = parts.get('word/document.xml') ?? '';

function largeDocument(rows: number): Document {
  const table: Table = {
    kind: 'table',
    caption: 'Many rows',
    columns: ['Input', 'Requirement', 'Verdict'].map((title, index) => ({
      title,
      width: index === 1 ? 6 : 1,
    })),
    rows: [...Array(rows).keys()].map((n) => ({
      recordId: `DI-${n}`,
      cells: [
        { children: [{ kind: 'record-reference', id: `DI-${n}` }] },
        { children: [{ kind: 'text', value: `Requirement number ${n}` }] },
        { children: [{ kind: 'text', value: 'pass', tone: 'good' }] },
      ],
    })),
  };
  const headings = ['A', 'B', 'C'].map((value) => ({
    kind: 'heading' as const,
    level: 1 as const,
    children: [{ kind: 'text' as const, value }],
  }));
  return { ...sampleDocument, footnotes: [], blocks: [...headings, table] };
}

describe('the sample, which holds every kind of block', () => {
  test('has every part that its relationships and content types name, and each is well formed', () => {
    for (const [path, xml] of parts) expect(`${path}: ${illFormed(xml)}`).toBe(`${path}: undefined`);
    const overrides = [...(parts.get('[Content_Types].xml') ?? '').matchAll(/PartName="\/([^"]+)"/g)].map(
      ([, name]) => name,
    );
    expect(overrides.length).toBeGreaterThan(10);
    for (const name of overrides) expect(parts.has(name ?? '')).toBe(true);
  });

  test('a note that is named twice is one note, by a field in the second place', async () => {
    const named = { kind: 'footnote-reference' as const, index: 0 };
    const document: Document = {
      ...sampleDocument,
      blocks: [{ kind: 'paragraph', children: [named, { kind: 'text', value: ' and ' }, named] }],
    };
    const xml = xmlParts((await writeDocx(document, options)).bytes).get('word/document.xml') ?? '';
    expect(xml.match(/<w:footnoteReference /g)).toHaveLength(1);
    expect(xml).toContain('w:name="_Note1"');
    expect(xml).toMatch(/ NOTEREF _Note1 \\f \\h <.*?<w:t xml:space="preserve">1<\/w:t>/);
    const html = writeHtml(document);
    expect(html.match(/href="#note_1"/g)).toHaveLength(2);
    expect(html.match(/id="noteref_1"/g)).toHaveLength(1);
  });

  test('lists its tables and figures where there are three or more', async () => {
    const listOf = async (count: number): Promise<readonly string[]> => {
      const document = largeDocument(1);
      const [table] = document.blocks.slice(-1);
      const blocks = [...document.blocks.slice(0, -1), ...Array(count).fill(table)];
      const xml = xmlParts((await writeDocx({ ...document, blocks }, options)).bytes).get(
        'word/document.xml',
      );
      return linesOf(xml ?? '').filter((line) => /^Tables$|^Table \d: Many rows\s*\d+$/.test(line));
    };
    expect(await listOf(2)).toEqual([]);
    expect(await listOf(3)).toEqual([
      'Tables',
      ...[1, 2, 3].map((number) => expect.stringMatching(new RegExp(`^Table ${number}: Many rows\\s*3$`))),
    ]);
  });

  test('says in the body what the model says, in the same order', () => {
    const start = body.indexOf('<w:pStyle w:val="Heading1"/>');
    const end = body.indexOf('Origin of this document');
    const lines = [...linesOf(body.slice(start, end)), ...linesOf(parts.get('word/footnotes.xml') ?? '')];
    const expected = documentText(sampleDocument)
      .replaceAll('\u00a0', ' ')
      .split('\n')
      .map((line) => line.trim())
      .filter((line) => line !== '');
    // The start of the slice still holds the rest of the tag it was cut at.
    expect(lines.filter((line) => line !== '<w:p>')).toEqual(expected);
  });

  test('fills in the contents list with numbers and pages', () => {
    expect(sample.notices).toEqual([]);
    const entries = [...body.matchAll(/<w:pStyle w:val="TOC\d"\/>.*?<\/w:p>/g)].flatMap(([xml]) =>
      linesOf(xml),
    );
    expect(entries.map((entry) => entry.replace(/\t\d+$/, ''))).toEqual([
      '1\tPurpose and scope',
      '1.1\tRules of decision',
      '2\tResults',
      '2.1\tTip retention, aged',
      '2.2\tTip retention, revision B',
      '2.3\tSeal strength',
      '3\tDesign trace matrix',
      '4\tReferences',
    ]);
    const pages = entries.map((entry) => Number(/\t(\d+)$/.exec(entry)?.[1]));
    expect(pages[0]).toBe(3);
    expect(pages).toEqual([...pages].sort((a, b) => a - b));
    expect(body).not.toContain('w:dirty');
  });

  test('links records that it holds, and only these', () => {
    const bookmarks = new Set(
      [...body.matchAll(/<w:bookmarkStart [^>]*w:name="([^"]+)"/g)].map(([, name]) => name),
    );
    const anchors = [...body.matchAll(/<w:hyperlink w:anchor="([^"]+)"/g)].map(([, name]) => name);
    expect(anchors).toContain('rec_VP_09A');
    expect(anchors).not.toContain('rec_VP_99');
    for (const anchor of anchors) expect(bookmarks).toContain(anchor);
    expect(body).toContain('w:anchor="rec_VP_09A" w:tooltip="Tip retention after ageing"');
  });

  test('opens and closes each bookmark once; a record’s runs to the next record', () => {
    const starts = [...body.matchAll(/<w:bookmarkStart w:id="(\d+)"/g)].map(([, id]) => id);
    const ends = [...body.matchAll(/<w:bookmarkEnd w:id="(\d+)"/g)].map(([, id]) => id);
    expect(new Set(starts).size).toBe(starts.length);
    expect([...ends].sort()).toEqual([...starts].sort());
    const id = /<w:bookmarkStart w:id="(\d+)" w:name="rec_VP_09A"/.exec(body)?.[1];
    const stretch = body.slice(body.indexOf('rec_VP_09A'), body.indexOf(`<w:bookmarkEnd w:id="${id}"`));
    expect(stretch).toContain('No single reading is below 30\u00a0N');
    expect(stretch).not.toContain('Thirty tips of revision B');
  });

  test('gives every table fixed widths that sum to the text width, a repeated title row and whole rows', () => {
    const tables = [...body.matchAll(/<w:tbl>.*?<\/w:tbl>/g)].map(([xml]) => xml);
    expect(tables.length).toBe(7);
    for (const table of tables) {
      const grid = [...table.matchAll(/<w:gridCol w:w="(\d+)"/g)].map(([, width]) => Number(width));
      const sum = grid.reduce((total, width) => total + width, 0);
      expect([textWidth(portrait), textWidth(landscape)]).toContain(sum);
      expect(table).toContain('<w:tblLayout w:type="fixed"/>');
      expect(table.split('<w:tr>').length).toBe(table.split('<w:cantSplit/>').length);
      if (table.includes('"RecordTable"')) expect(table.split('<w:tblHeader/>').length).toBe(2);
    }
    expect(body).toContain('<w:vMerge w:val="restart"/>');
  });

  test('has landscape pages with a right tab at their own text width', () => {
    expect(body).toContain('<w:pgSz w:w="16838" w:h="11906" w:orient="landscape"/>');
    expect(parts.get('word/header2.xml')).toContain(`<w:tab w:val="right" w:pos="${textWidth(landscape)}"/>`);
    expect(parts.get('word/header1.xml')).toContain(`<w:tab w:val="right" w:pos="${textWidth(portrait)}"/>`);
  });

  test('keeps number, revision, origin and language in the file’s properties', () => {
    expect(parts.get('docProps/custom.xml')).toContain('name="Document Number"><vt:lpwstr>DOC-03<');
    expect(parts.get('docProps/custom.xml')).toContain('name="Source revision"><vt:lpwstr>1a2b3c4<');
    expect(parts.get('docProps/core.xml')).toContain('<cp:contentStatus>in review<');
    expect(parts.get('docProps/core.xml')).toContain('>2026-11-02T00:00:00Z<');
    expect(parts.get('word/styles.xml')).toContain('<w:lang w:val="en-GB"');
  });

  test('describes the figure for those who cannot see it', () => {
    expect(body).toContain('descr="A line that rises from lot L001 to lot L003 and stays above 30 N."');
    expect(body).toContain('asvg:svgBlip');
  });
});

test('a figure without a way to draw its picture is refused by name', async () => {
  await expect(writeDocx(sampleDocument)).rejects.toThrow('Tip retention by lot, in newtons');
});

describe('the same bytes', () => {
  const digest = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');

  test('on a second run in the same process', async () => {
    expect(digest((await writeDocx(sampleDocument, options)).bytes)).toBe(digest(sample.bytes));
  });

  test('in another time zone', async () => {
    const zone = process.env.TZ;
    const digests: string[] = [];
    const offsets: number[] = [];
    for (const each of ['UTC', 'Asia/Tokyo', 'America/Los_Angeles']) {
      process.env.TZ = each;
      offsets.push(new Date(0).getTimezoneOffset());
      digests.push(digest((await writeDocx(sampleDocument, options)).bytes));
    }
    if (zone === undefined) delete process.env.TZ;
    else process.env.TZ = zone;
    expect(offsets).toEqual([0, -540, 480]);
    expect(new Set(digests)).toEqual(new Set([digest(sample.bytes)]));
  });
});

describe('hostile content', () => {
  test('stays text in every part', async () => {
    const { bytes, notices } = await writeDocx(hostileDocument);
    const hostile = xmlParts(bytes);
    for (const [path, xml] of hostile) expect(`${path}: ${illFormed(xml)}`).toBe(`${path}: undefined`);
    const text = linesOf(hostile.get('word/document.xml') ?? '').join('\n');
    expect(text).toContain('<script>alert(1)</script>');
    expect(text).toContain('a\ufffdb\ufffdc\ufffdd\ufffde');
    expect(notices.join()).toContain('U+FFFD');
    expect([...hostile.values()].join()).not.toContain('javascript:');
  });

  test('no link leads nowhere', async () => {
    const xml = xmlParts((await writeDocx(hostileDocument)).bytes).get('word/document.xml') ?? '';
    const names = [...xml.matchAll(/bookmarkStart [^>]*w:name="([^"]*)"/g)].map(([, name]) => name);
    const targets = [...xml.matchAll(/w:anchor="([^"]*)"| (?:PAGE)?REF (\S+) /g)].map(
      ([, anchor, name]) => anchor ?? name,
    );
    expect(targets).toContain('rec_VP_3');
    expect(targets).toContain('rec_VP_4');
    expect(targets).not.toContain('rec_VP_5');
    for (const target of targets) expect(names).toContain(target);
  });

  test('bookmark names are short and given once, property names too', async () => {
    const hostile = xmlParts((await writeDocx(hostileDocument)).bytes);
    const names = [
      ...(hostile.get('word/document.xml') ?? '').matchAll(/bookmarkStart [^>]*w:name="([^"]*)"/g),
    ].map(([, name]) => name ?? '');
    expect(new Set(names).size).toBe(names.length);
    for (const name of names) expect(name).toMatch(/^[A-Za-z_]\w{0,39}$/);
    const properties = [...(hostile.get('docProps/custom.xml') ?? '').matchAll(/ name="([^"]*)"/g)].map(
      ([, name]) => name?.toLowerCase(),
    );
    expect(new Set(properties).size).toBe(properties.length);
  });
});

describe('where pages end', () => {
  /** Of each row of the last table: is it kept on one page with the next? */
  const keptRows = async (rows: number, words = ''): Promise<readonly boolean[]> => {
    const large = largeDocument(rows);
    const blocks = large.blocks.map((block) =>
      block.kind === 'table' && words !== ''
        ? {
            ...block,
            rows: block.rows.map(() => ({
              cells: [{ children: [{ kind: 'text' as const, value: words }] }],
            })),
          }
        : block,
    );
    const { bytes } = await writeDocx({ ...large, blocks, provenance: [] }, options);
    const xml = xmlParts(bytes).get('word/document.xml') ?? '';
    const table = xml.slice(xml.lastIndexOf('<w:tbl>'));
    return [...table.matchAll(/<w:tr>.*?<\/w:tr>/gs)].slice(1).map(([row]) => row.includes('<w:keepNext/>'));
  };

  test('a table of a few lines stays whole', async () => {
    expect(await keptRows(3)).toEqual([true, true, false]);
  });

  test('a longer one may break, but leaves neither its first nor its last row alone', async () => {
    const kept = await keptRows(20);
    expect(kept).toEqual([true, ...Array(17).fill(false), true, false]);
  });

  test('what is long is told by its lines: a few rows of much text may break', async () => {
    expect(await keptRows(4, 'word '.repeat(4))).toEqual([true, true, true, false]);
    expect(await keptRows(4, 'word '.repeat(100))).toEqual([true, false, true, false]);
  });

  test('a table at the end of a section is followed by the end of the section, not by an empty line', async () => {
    const [table] = largeDocument(3).blocks.filter((block) => block.kind === 'table');
    if (!table) throw new Error('there is no table');
    const { bytes } = await writeDocx(
      { ...largeDocument(1), blocks: [{ kind: 'landscape', blocks: [table] }, ...largeDocument(1).blocks] },
      options,
    );
    const xml = xmlParts(bytes).get('word/document.xml') ?? '';
    const turned = xml.lastIndexOf('w:orient="landscape"');
    const before = xml.slice(xml.lastIndexOf('</w:tbl>', turned), turned);
    expect(before.match(/<w:p>/g)).toHaveLength(1);
  });
});

describe('a table of 1,000 rows', () => {
  test('is laid out: the contents list has its pages', async () => {
    const { bytes, notices } = await writeDocx(largeDocument(1000));
    expect(notices).toEqual([]);
    const xml = xmlParts(bytes).get('word/document.xml') ?? '';
    expect(xml.split('<w:tr>').length - 1).toBeGreaterThan(1000);
    expect(xml).toContain('w:name="rec_DI_999"');
  });

  test('beyond the limit, Word is asked to work the pages out and the run says so', async () => {
    const { bytes, notices } = await writeDocx(largeDocument(50), { mostCellsToLayOut: 100 });
    expect(notices.join()).toContain('left to Word');
    expect(xmlParts(bytes).get('word/document.xml')).toContain('w:fldCharType="begin" w:dirty="true"');
  });
});

describe('column widths', () => {
  const table = (id: string, shares: readonly number[]): Table => ({
    kind: 'table',
    columns: shares.map((width, index) => ({ title: `C${index}`, width })),
    rows: [
      {
        cells: [
          { children: [{ kind: 'record-reference', id }] },
          { children: [{ kind: 'text', value: 'words '.repeat(40) }] },
        ],
      },
    ],
  });

  // Calibri's advance widths at 9 pt, in thousandths of an em, from the font's metric-compatible twin Carlito:
  // V 567, P 517, hyphen 306, digits 507, A 579.
  test('an id fits its column though its share is small', () => {
    const [first = 0] = columnWidths(table('VP-09A', [1, 99]), 9000);
    const idWidth = ((567 + 517 + 306 + 507 * 2 + 579) / 1000) * 9 * 20;
    expect(first).toBeGreaterThan(idWidth + 2 * 85);
    expect(first).toBeLessThan(1200);
  });

  test.each([
    ['shares', [1, 1]],
    ['no shares', [0, 0]],
    ['odd shares', [1, 3, 3, 7]],
    ['negative share', [-5, 1]],
  ])('sum to the text width exactly: %s', (_name, shares) => {
    for (const id of ['VP-1', `VP-${'9'.repeat(300)}`]) {
      const widths = columnWidths(table(id, shares), 9412);
      expect(widths.reduce((sum, width) => sum + width, 0)).toBe(9412);
      for (const width of widths) expect(width).toBeGreaterThan(100);
    }
  });
});

// How LibreOffice 7.4 and Word write a link to another file: as a field (ISO/IEC 29500-1, 17.16.5.25 HYPERLINK).
test('the words of a link written as a field are running text, those of other fields are not', () => {
  const field = (instruction: string, result: string): string =>
    `<w:r><w:fldChar w:fldCharType="begin"/></w:r><w:r><w:instrText> ${instruction} </w:instrText></w:r><w:r><w:fldChar w:fldCharType="separate"/></w:r><w:r><w:t>${result}</w:t></w:r><w:r><w:fldChar w:fldCharType="end"/></w:r>`;
  const link = field('HYPERLINK "DOC-04.docx" \\l "rec_RK_10"', 'RK-10');
  const runs = (text: string): string => `<w:r><w:t>${text}</w:t></w:r>`;
  expect(runningText(`<w:p>${runs('see ')}${link}${runs(', page ')}${field('PAGEREF x', '4')}</w:p>`)).toBe(
    'see RK-10, page',
  );
  // In a contents list links stand within a field that is worked out anew.
  const list = field('TOC \\o "1-3"', 'X').replace('<w:r><w:t>X</w:t></w:r>', link);
  expect(runningText(`<w:p>${list}</w:p>`)).toBe('');
});

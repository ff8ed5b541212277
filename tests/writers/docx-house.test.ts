import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import type { Document, Table } from '../../src/document/model.ts';
import { readHouseStyle } from '../../src/house/house-style.ts';
import { columnWidths, fontWidthOf } from '../../src/writers/docx/column-widths.ts';
import { contrast, houseColours } from '../../src/writers/docx/house-colours.ts';
import { colours } from '../../src/writers/docx/look.ts';
import { runningText } from '../../src/writers/docx/running-text.ts';
import { wantedStyles } from '../../src/writers/docx/styles.ts';
import { writeDocx } from '../../src/writers/docx/write-docx.ts';
import { bareHouse, complexField, germanHouse, houseFile, libreOfficeHouse } from '../house/house-files.ts';
import { illFormed, linesOf, xmlParts } from './docx-parts.ts';
import { hostileDocument } from './hostile-document.ts';
import { plainPng } from './plain-png.ts';
import { sampleDocument } from './sample-document.ts';

const rasterise = (_svg: string, width: number, height: number) => plainPng(width, height);
const houses = [
  ['German Word', germanHouse()],
  ['LibreOffice', libreOfficeHouse()],
  ['next to nothing', bareHouse()],
] as const;

const writeIn = async (bytes: Uint8Array, document: Document = sampleDocument) => {
  const read = readHouseStyle(bytes, wantedStyles());
  if (!read.ok) throw new Error(read.reason);
  const written = await writeDocx(document, { rasterise, house: read.style });
  return { written, parts: xmlParts(written.bytes) };
};
const own = xmlParts((await writeDocx(sampleDocument, { rasterise })).bytes);
const partOf = (parts: ReadonlyMap<string, string>, name: string): string => parts.get(`word/${name}`) ?? '';

describe.each(houses)('%s', (_name, bytes) => {
  test('says the same as without a house style', async () => {
    const { parts } = await writeIn(bytes);
    for (const part of ['document.xml', 'footnotes.xml'])
      expect(runningText(partOf(parts, part))).toBe(runningText(partOf(own, part)));
  });

  test('every part is well formed, every style and list that is used is there, once', async () => {
    const { parts } = await writeIn(bytes);
    for (const [path, xml] of parts) expect(`${path}: ${illFormed(xml)}`).toBe(`${path}: undefined`);
    const all = (xml: string, pattern: RegExp): string[] =>
      [...xml.matchAll(pattern)].map(([, id]) => id ?? '');
    const styles = partOf(parts, 'styles.xml');
    const ids = all(styles, /w:styleId="([^"]+)"/g);
    expect(new Set(ids).size).toBe(ids.length);
    const names = all(styles, /<w:name w:val="([^"]+)"/g).map((name) => name.toLowerCase());
    expect(new Set(names).size).toBe(names.length);
    const lists = all(partOf(parts, 'numbering.xml'), /<w:num w:numId="(\d+)"/g);
    expect(new Set(lists).size).toBe(lists.length);
    for (const [path, xml] of parts) {
      if (!path.startsWith('word/')) continue;
      for (const id of all(xml, /<w:(?:pStyle|rStyle|tblStyle|basedOn|next|link) w:val="([^"]+)"/g))
        expect(ids).toContain(id);
      for (const id of all(xml, /<w:numId w:val="(\d+)"/g))
        expect(id === '0' || lists.includes(id)).toBe(true);
    }
    expect(styles.match(/<w:style w:type="paragraph" w:default="1"/g)).toHaveLength(1);
    expect(styles).toContain('<w:lang w:val="en-GB"');
  });

  test('number, revision and page can be told from every page after the cover', async () => {
    const { parts } = await writeIn(bytes);
    for (const number of [1, 2]) {
      const lines = partOf(parts, `header${number}.xml`) + partOf(parts, `footer${number}.xml`);
      expect(lines).toContain('DOCPROPERTY &quot;Document Number&quot;');
      expect(lines).toContain('DOCPROPERTY &quot;Revision&quot;');
      expect(lines.match(/ PAGE /g)).toHaveLength(1);
    }
    const last = linesOf(partOf(parts, 'document.xml'));
    expect(last.slice(last.indexOf('Origin of this document')).join('\n')).toContain('1a2b3c4');
  });

  test('the same bytes on a second run', async () => {
    const digest = (each: Uint8Array): string => createHash('sha256').update(each).digest('hex');
    expect(digest((await writeIn(bytes)).written.bytes)).toBe(digest((await writeIn(bytes)).written.bytes));
  });

  test('hostile content stays text', async () => {
    const { parts } = await writeIn(bytes, hostileDocument);
    for (const [path, xml] of parts) expect(`${path}: ${illFormed(xml)}`).toBe(`${path}: undefined`);
  });
});

describe('what a German template gives', () => {
  test('its looks, its logo with a type, and this document’s title', async () => {
    const { parts } = await writeIn(germanHouse());
    expect(partOf(parts, 'theme/theme1.xml')).toContain('2E75B6');
    expect(partOf(parts, 'header1.xml')).toContain(`<w:t xml:space="preserve">${sampleDocument.title}</w:t>`);
    expect(partOf(parts, '_rels/header1.xml.rels')).toContain('Target="media/house1.png"');
    expect(partOf(parts, 'document.xml')).toContain('<w:pgMar w:top="2268" w:right="1417"');
    expect([...parts.values()].join('')).not.toMatch(
      /harrow-lane\.example\/|TargetMode="External" Target="file/,
    );
  });

  test('its numbers of headings are not joined by ours', async () => {
    const { parts } = await writeIn(germanHouse());
    const outlines = partOf(parts, 'numbering.xml').match(/<w:pStyle w:val="Heading1"\/>/g);
    expect(outlines).toHaveLength(1);
    expect(partOf(own, 'numbering.xml').match(/<w:pStyle w:val="Heading1"\/>/g)).toHaveLength(1);
  });
});

describe('numbers as the house style has them', () => {
  const level = (at: number, format: string, text: string, linked: string): string =>
    `<w:lvl w:ilvl="${at}"><w:start w:val="1"/><w:numFmt w:val="${format}"/><w:pStyle w:val="${linked}"/><w:lvlText w:val="${text}"/></w:lvl>`;
  const heading = (n: number, list: number): string =>
    `<w:style w:type="paragraph" w:styleId="H${n}"><w:name w:val="heading ${n}"/><w:pPr><w:numPr><w:numId w:val="${list}"/></w:numPr></w:pPr></w:style>`;
  const house = (second: number): Uint8Array =>
    houseFile({
      styles: heading(1, 1) + heading(2, second) + heading(3, 0),
      numbering: `<w:abstractNum w:abstractNumId="0">${level(0, 'upperRoman', 'Part %1.', 'H1')}${level(1, 'upperLetter', '%2)', 'H2')}</w:abstractNum><w:num w:numId="1"><w:abstractNumId w:val="0"/></w:num>`,
    });
  const entries = (xml: string): string[] =>
    [...xml.matchAll(/<w:pStyle w:val="TOC\d"\/>.*?<\/w:p>/g)].flatMap(([each]) =>
      linesOf(each).map((line) => line.replace(/\t\d*$/, '')),
    );

  test('stand in the contents list and in references', async () => {
    const body = partOf((await writeIn(house(1))).parts, 'document.xml');
    expect(entries(body).slice(0, 3)).toEqual([
      'Part I.\tPurpose and scope',
      'A)\tRules of decision',
      'Part II.\tResults',
    ]);
    expect(body).toContain('>Part II</w:t>');
    // "Part II." is wider than "2": eight letters need more than a centimetre.
    const [entry = ''] = /<w:pStyle w:val="TOC1"\/>.*?<\/w:pPr>/.exec(body) ?? [];
    expect(Number(/<w:tab w:val="left" w:pos="(\d+)"/.exec(entry)?.[1])).toBeGreaterThan(1000);
  });

  test('and headings without a number have none', async () => {
    const body = partOf((await writeIn(house(0))).parts, 'document.xml');
    expect(entries(body).slice(0, 3)).toEqual([
      'Part I.\tPurpose and scope',
      'Rules of decision',
      'Part II.\tResults',
    ]);
  });
});

test('a house style that shows number and page itself gets no line of ours', async () => {
  const { parts } = await writeIn(
    houseFile({
      styles: '',
      body: '<w:p/><w:sectPr><w:headerReference w:type="default" r:id="h"/><w:footerReference w:type="default" r:id="f"/></w:sectPr>',
      relationships: [
        { id: 'h', type: 'header', target: 'header1.xml' },
        { id: 'f', type: 'footer', target: 'footer1.xml' },
      ],
      running: {
        'header1.xml': `<w:p>${complexField('DOCPROPERTY "Document Number"', '')}${complexField('DOCPROPERTY Revision', '')}</w:p>`,
        'footer1.xml': `<w:p>${complexField('PAGE', '1')}</w:p>`,
      },
    }),
  );
  expect(partOf(parts, 'header1.xml')).toContain('>DOC-03</w:t>');
  expect(partOf(parts, 'footer1.xml').match(/<w:p>|<w:p /g)).toHaveLength(1);
});

test('even pages, where the house style has lines of their own for them', async () => {
  const { parts } = await writeIn(
    houseFile({
      styles: '',
      settings: '<w:evenAndOddHeaders/>',
      body: '<w:p/><w:sectPr><w:headerReference w:type="default" r:id="h"/><w:headerReference w:type="even" r:id="e"/></w:sectPr>',
      relationships: [
        { id: 'h', type: 'header', target: 'header1.xml' },
        { id: 'e', type: 'header', target: 'header2.xml' },
      ],
      running: {
        'header1.xml': '<w:p><w:r><w:t>odd</w:t></w:r></w:p>',
        'header2.xml': '<w:p><w:r><w:t>even</w:t></w:r></w:p>',
      },
    }),
  );
  expect(partOf(parts, 'settings.xml')).toContain('<w:evenAndOddHeaders/>');
  expect(partOf(parts, 'header4.xml')).toContain('even');
  expect(partOf(parts, 'footer4.xml')).toContain(' PAGE ');
  expect(partOf(parts, 'document.xml')).toContain('<w:headerReference w:type="even"');
});

describe('the colours of what a house style lacks', () => {
  const coloured = (heading: string): string => {
    const read = readHouseStyle(
      houseFile({
        styles: `<w:style w:type="paragraph" w:styleId="h"><w:name w:val="heading 1"/><w:rPr><w:color w:val="${heading}"/></w:rPr></w:style>`,
      }),
      wantedStyles(),
    );
    if (!read.ok) throw new Error(read.reason);
    return houseColours(read.style).heading;
  };

  // WCAG 2.2, 1.4.3: at least 4.5 to 1. #767676 on white has 4.54, but the fill of a title row is darker than white.
  test.each([
    ['7A1F3D', '7A1F3D', 'dark enough'],
    ['auto', 'auto', 'black'],
    ['FFC000', colours.heading, 'too light on paper'],
    ['767676', colours.heading, 'too light on the fill of a title row'],
  ])('headings in %s give %s: %s', (heading, expected) => {
    expect(coloured(heading)).toBe(expected);
  });

  test('the ratio agrees with the published examples', () => {
    expect(contrast('000000', 'FFFFFF')).toBeCloseTo(21, 10);
    expect(contrast('767676', 'FFFFFF')).toBeGreaterThanOrEqual(4.5);
    expect(contrast('777777', 'FFFFFF')).toBeLessThan(4.5);
  });
});

test('a column keeps a word whole in a font that is wider than Calibri', () => {
  const table: Table = {
    kind: 'table',
    columns: [
      { title: 'Verdict', width: 1 },
      { title: 'Requirement', width: 99 },
    ],
    rows: [
      {
        cells: [
          { children: [{ kind: 'text', value: 'undecided', tone: 'caution' }] },
          { children: [{ kind: 'text', value: 'words '.repeat(40) }] },
        ],
      },
    ],
  };
  // Advance widths of DejaVu Sans Bold, from its table hmtx, in 2048ths of an em: u 1458, n 1458, d 1466, e 1389, c 1214, i 702.
  const needed = ((1458 + 1458 + 3 * 1466 + 2 * 1389 + 1214 + 702) / 2048) * 9 * 20;
  const [narrow = 0] = columnWidths(table, 9000, fontWidthOf('Calibri'));
  const [wide = 0] = columnWidths(table, 9000, fontWidthOf('Verdana'));
  expect(wide).toBeGreaterThan(needed + 2 * 85);
  expect(narrow).toBeLessThan(wide);
  expect(fontWidthOf('Times New Roman')).toBe(1);
});

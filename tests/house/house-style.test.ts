import { strToU8, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { headingLabel } from '../../src/house/heading-label.ts';
import { type HouseStyle, readHouseStyle } from '../../src/house/house-style.ts';
import { wantedStyles } from '../../src/writers/docx/styles.ts';
import {
  bareHouse,
  complexField,
  germanHouse,
  type HouseParts,
  houseFile,
  inlinePicture,
  libreOfficeHouse,
} from './house-files.ts';

const read = (bytes: Uint8Array): HouseStyle => {
  const outcome = readHouseStyle(bytes, wantedStyles());
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.style;
};
const styleNamed = (style: HouseStyle, id: string): string =>
  style.styles.find((xml) => xml.includes(`w:styleId="${id}"`)) ?? '';
const textOf = (style: HouseStyle): string =>
  JSON.stringify([style.header, style.footer, style.styles, style.outlines, style.theme]);

describe('styles are matched by name', () => {
  test('of a German Word: the ids differ, the names do not (ISO/IEC 29500-1, 17.7.4.9, name)', () => {
    const style = read(germanHouse());
    expect(styleNamed(style, 'Heading1')).toContain('<w:name w:val="heading 1"/>');
    expect(styleNamed(style, 'Heading1')).toContain('<w:basedOn w:val="Normal"/>');
    expect(styleNamed(style, 'Footer')).toContain('<w:sz w:val="16"/>');
    expect(style.missing).toEqual([
      'List Paragraph',
      'Quote',
      'heading 4',
      'heading 5',
      'heading 6',
      'Subtitle',
      'toc 3',
      'table of figures',
      'footnote text',
      'footnote reference',
    ]);
  });

  test('of LibreOffice, which writes "Heading 1" and marks no style as the usual one', () => {
    const style = read(libreOfficeHouse());
    expect(styleNamed(style, 'Heading1')).toContain('<w:name w:val="heading 1"/>');
    expect(styleNamed(style, 'Caption')).toContain('<w:i/>');
    expect(styleNamed(style, 'Normal')).toContain('w:default="1"');
    expect(style.headingColour).toBe('7A1F3D');
  });

  test('of a program that writes names in its own language, or as further names', () => {
    const style = read(
      houseFile({
        styles:
          '<w:style w:type="paragraph" w:default="1" w:styleId="a"><w:name w:val="Grundtext"/></w:style>' +
          '<w:style w:type="paragraph" w:styleId="b"><w:name w:val="Titre 1"/><w:basedOn w:val="a"/></w:style>' +
          '<w:style w:type="paragraph" w:styleId="c"><w:name w:val="Chapter"/><w:aliases w:val="Kapitel,Heading 2"/></w:style>' +
          '<w:style w:type="character" w:styleId="d"><w:name w:val="caption"/></w:style>',
      }),
    );
    expect(styleNamed(style, 'Heading1')).toContain('<w:basedOn w:val="Normal"/>');
    expect(styleNamed(style, 'Heading2')).not.toBe('');
    // A character style is no caption; its name makes room for that of the paragraph style.
    expect(style.missing).toContain('caption');
    expect(styleNamed(style, 'd')).toContain('caption (house)');
  });

  test('an id of ours that another style has makes room', () => {
    const style = read(germanHouse());
    expect(style.styles.join('')).toContain('<w:name w:val="Merksatz"/>');
    expect(style.styleIds.has('TableText')).toBe(false);
    expect(style.styleIds.has('TableText_2')).toBe(true);
  });

  test('a style of ours is that of the maker where somebody made one, not what a program brings along', () => {
    const named = (custom: string): HouseStyle =>
      read(
        houseFile({
          styles: `<w:style w:type="paragraph"${custom} w:styleId="x"><w:name w:val="table heading"/></w:style>`,
        }),
      );
    expect(named(' w:customStyle="1"').styleIds.has('TableHeading')).toBe(true);
    expect(named('').styleIds.has('TableHeading')).toBe(false);
    expect(styleNamed(named(''), 'x')).toContain('"table heading (house)"');
  });

  test('styles based on each other in a circle, and on what is not there, end somewhere', () => {
    const style = read(
      houseFile({
        styles: ['a:b', 'b:a', 'c:gone']
          .map((pair) => pair.split(':'))
          .map(
            ([id, base]) =>
              `<w:style w:type="paragraph" w:styleId="${id}"><w:name w:val="${id}"/><w:basedOn w:val="${base}"/></w:style>`,
          )
          .join(''),
      }),
    );
    expect(style.styles.join('')).not.toContain('gone');
    expect(style.styles.join('').split('w:basedOn').length - 1).toBe(1);
  });

  test('what the schema asks for in order is put in order; extensions and languages are left out', () => {
    const style = read(germanHouse());
    expect(styleNamed(style, 'Heading1')).not.toContain('w14');
    expect(styleNamed(style, 'Heading2')).toMatch(
      /<w:pPr><w:keepNext\/><w:numPr>.*<w:spacing [^>]*\/><w:outlineLvl w:val="1"\/><\/w:pPr>/,
    );
    expect(JSON.stringify(style.defaults)).not.toContain('de-DE');
  });
});

describe('numbers of headings', () => {
  test('those of the house style stay in force, and headings that it has no style for go on', () => {
    const style = read(germanHouse());
    expect(style.numbersHeadings).toBe(true);
    expect([[1], [2, 3], [2, 3, 4], [2, 3, 4, 2]].map((each) => headingLabel(each, style.headings))).toEqual([
      '1',
      '2.3',
      '2.3.4',
      'b)',
    ]);
    expect(style.outlines).toContain('<w:pStyle w:val="Heading1"/>');
    expect(style.outlines).not.toContain('gibtEsNicht');
  });

  test('a list without numbers, as LibreOffice writes it, is none: documents give their own', () => {
    const style = read(libreOfficeHouse());
    expect(style.numbersHeadings).toBe(false);
    expect(styleNamed(style, 'Heading2')).toContain(
      `<w:numPr><w:ilvl w:val="1"/><w:numId w:val="${style.listCount + 1}"/></w:numPr>`,
    );
  });

  // ISO/IEC 29500-1, 17.18.59 (ST_NumberFormat): letters double after Z; 17.9.4 (isLgl): all levels in Arabic digits.
  test.each([
    ['upperRoman', 1, 4, 'IV'],
    ['lowerRoman', 1, 1999, 'mcmxcix'],
    ['upperLetter', 1, 26, 'Z'],
    ['upperLetter', 1, 28, 'BB'],
    ['lowerLetter', 3, 1, 'c'],
    ['decimalZero', 1, 7, '07'],
    ['none', 1, 7, ''],
    ['hebrew1', 1, 7, '7'],
  ])('%s from %i: the %ith is %s', (format, start, count, label) => {
    const level = { format, start, text: '%1', isLegal: false };
    expect(headingLabel([count], [{ levels: [level], level: 0, list: 1 }])).toBe(label);
  });

  test('words around the number, and Arabic digits on request', () => {
    const levels = [
      { format: 'upperRoman', start: 1, text: 'Part %1', isLegal: false },
      { format: 'decimal', start: 1, text: '%1.%2', isLegal: true },
    ];
    const headings = levels.map((_, level) => ({ levels, level, list: 1 }));
    expect(headingLabel([2], headings)).toBe('Part II');
    expect(headingLabel([2, 5], headings)).toBe('2.5');
  });

  test('a list style behind the list', () => {
    const style = read(
      houseFile({
        styles:
          '<w:style w:type="paragraph" w:default="1" w:styleId="Normal"><w:name w:val="Normal"/></w:style>' +
          '<w:style w:type="numbering" w:styleId="Liste"><w:name w:val="Headings"/><w:pPr><w:numPr><w:numId w:val="1"/></w:numPr></w:pPr></w:style>' +
          '<w:style w:type="paragraph" w:styleId="H1"><w:name w:val="heading 1"/><w:pPr><w:numPr><w:numId w:val="2"/></w:numPr></w:pPr></w:style>',
        numbering:
          '<w:abstractNum w:abstractNumId="0"><w:styleLink w:val="Liste"/><w:lvl w:ilvl="0"><w:start w:val="1"/><w:numFmt w:val="upperLetter"/><w:lvlText w:val="%1."/></w:lvl></w:abstractNum>' +
          '<w:abstractNum w:abstractNumId="1"><w:numStyleLink w:val="Liste"/></w:abstractNum>' +
          '<w:num w:numId="1"><w:abstractNumId w:val="0"/></w:num><w:num w:numId="2"><w:abstractNumId w:val="1"/></w:num>',
      }),
    );
    expect(headingLabel([3], style.headings)).toBe('C.');
  });
});

describe('running heads', () => {
  test('logo, table and title come over; the old title does not', () => {
    const style = read(germanHouse());
    expect(style.pictures.size).toBe(1);
    expect(style.header.portrait?.pieces).toContainEqual({ property: 'title' });
    expect(textOf(style)).not.toContain('Alter Titel');
    expect(style.header.cover?.pictures.size).toBe(1);
    expect(style.header.portrait?.showsNumber).toBe(false);
    expect(style.footer.portrait?.showsPage).toBe(true);
  });

  test('on lying pages tables and tabs are as wide as the page', () => {
    const { header, footer } = read(germanHouse());
    // 16838 - 2 * 1417 over 11906 - 2 * 1417 is 1.5437; 9072 times that is 14004.
    expect(JSON.stringify(header.landscape?.pieces)).toContain('w:w=\\"14004\\"');
    expect(JSON.stringify(footer.landscape?.pieces)).toContain('w:val=\\"right\\" w:pos=\\"14004\\"');
    expect(JSON.stringify(footer.landscape?.pieces)).toContain('w:val=\\"clear\\" w:pos=\\"9072\\"');
  });

  const withHeader = (xml: string, more: Partial<HouseParts> = {}): HouseStyle =>
    read(
      houseFile({
        styles: '',
        body: '<w:p/><w:sectPr><w:headerReference w:type="default" r:id="h"/></w:sectPr>',
        running: { 'header1.xml': xml },
        relationships: [{ id: 'h', type: 'header', target: 'header1.xml' }],
        ...more,
      }),
    );
  const said = (style: HouseStyle): string => JSON.stringify(style.header.portrait?.pieces);

  test.each([
    ['DATE', '01.02.2003'],
    ['INCLUDEPICTURE "http://a.example/x.png" \\d', 'PIC'],
    ['INCLUDETEXT "/etc/hosts"', 'TEXT'],
    ['DDEAUTO excel a b', 'DDE'],
    ['LINK Excel.Sheet x', 'LINKED'],
    ['MACROBUTTON run Click', 'CLICK'],
    ['DOCPROPERTY "Salary"', '9'],
  ])('the field %s is left out with its text, and said', (instruction, result) => {
    const style = withHeader(`<w:p>${complexField(instruction, result)}</w:p>`);
    expect(said(style)).not.toContain(result);
    expect(said(style)).not.toContain('instrText');
    expect(style.dropped.map(({ what }) => what)).toContainEqual(
      expect.stringContaining(instruction.split(' ')[0] ?? ''),
    );
  });

  test('a field within a field hides nothing', () => {
    const inner = complexField('INCLUDETEXT "x"', 'y');
    const style = withHeader(
      `<w:p><w:r><w:fldChar w:fldCharType="begin"/></w:r><w:r><w:instrText> IF </w:instrText></w:r>${inner}<w:r><w:fldChar w:fldCharType="end"/></w:r><w:r><w:t>after</w:t></w:r></w:p>`,
    );
    expect(said(style)).not.toContain('INCLUDETEXT');
    expect(said(style)).toContain('after');
  });

  test('properties of a document, in simple fields and controls, are gaps for its own', () => {
    const style = withHeader(
      '<w:p><w:fldSimple w:instr=" DOCPROPERTY &quot;Document Number&quot; "><w:r><w:t>X-1</w:t></w:r></w:fldSimple>' +
        complexField('DOCPROPERTY Revision', 'X-2') +
        '<w:sdt><w:sdtPr><w:dataBinding w:xpath="/ns1:coreProperties[1]/ns0:title[1]" w:storeItemID="{6C3C8BC8-F283-45AE-878A-BAB7291924A1}"/></w:sdtPr><w:sdtContent><w:r><w:t>Old</w:t></w:r></w:sdtContent></w:sdt></w:p>',
    );
    expect(style.header.portrait?.pieces).toContainEqual({ property: 'document number' });
    expect(style.header.portrait?.pieces).toContainEqual({ property: 'title' });
    expect(style.header.portrait?.showsNumber).toBe(true);
    expect(said(style)).not.toMatch(/X-1|X-2|Old/);
  });

  test.each([
    [
      'linked',
      inlinePicture('p', 'r:link="p"'),
      { id: 'p', type: 'image', target: 'http://a.example/x.png', external: true },
    ],
    ['of another kind', inlinePicture('p'), { id: 'p', type: 'image', target: 'media/x.svg' }],
    ['that is not there', inlinePicture('p'), { id: 'p', type: 'image', target: 'media/gone.png' }],
    [
      'in the old form',
      '<w:pict><v:shape><v:imagedata r:id="p" r:href="q"/></v:shape></w:pict>',
      { id: 'q', type: 'image', target: 'http://a.example/x.png', external: true },
    ],
  ])('a picture %s is left out, and said', (_name, drawing, relationship) => {
    const style = withHeader(`<w:p><w:r>${drawing}<w:t>words</w:t></w:r></w:p>`, {
      runningRelationships: { 'header1.xml': [relationship] },
    });
    expect(style.dropped.map(({ what }) => what)).toContain('a picture');
    expect(said(style)).not.toMatch(/drawing|pict|example/);
    expect(said(style)).toContain('words');
  });

  test('embedded objects, parts to be loaded and scripts are left out, and said', () => {
    const style = withHeader(
      '<w:p><w:r><w:object><o:OLEObject Type="Embed" ProgID="Package" r:id="x"/></w:object></w:r></w:p><w:altChunk r:id="y"/>',
    );
    expect(style.dropped.map(({ what }) => what)).toEqual(['object', 'altChunk']);
    expect(said(style)).not.toMatch(/object|altChunk/);
  });

  test('of alternatives the one that every program can show', () => {
    const style = withHeader(
      '<w:p><w:r><mc:AlternateContent><mc:Choice Requires="wps"><w:drawing><wps:wsp/></w:drawing></mc:Choice>' +
        '<mc:Fallback><w:pict><v:rect style="width:9pt"/></w:pict></mc:Fallback></mc:AlternateContent></w:r></w:p>',
    );
    expect(said(style)).toContain('v:rect');
    expect(said(style)).not.toMatch(/mc:|wps/);
  });
});

describe('files that are no house style', () => {
  const plain = { styles: '' };
  const bomb = zipSync({
    '[Content_Types].xml': strToU8('<Types/>'),
    'word/document.xml': new Uint8Array(21_000_000),
  });
  const many = zipSync(
    Object.fromEntries([...Array(4).keys()].map((n) => [`word/media/p${n}.png`, new Uint8Array(19_000_000)])),
  );
  test.each([
    ['text', strToU8('no archive'), 'no zip archive'],
    ['another archive', zipSync({ 'a.txt': strToU8('x') }), 'word/document.xml'],
    ['a part that unpacks to 21 MB', bomb, 'larger than 20 MB'],
    ['parts that unpack to 76 MB', many, 'all parts together than 60 MB'],
    ['macros', houseFile({ ...plain, kind: 'template.macroEnabledTemplate' }), 'macros'],
    ['another program', houseFile({ ...plain, kind: 'glossary' }), 'no Word document'],
    ['broken XML', houseFile({ styles: '<w:style>' }), 'cannot be read'],
    [
      'a document type',
      houseFile({ styles: '', theme: '<!DOCTYPE a [<!ENTITY b "c">]><a/>' }),
      'document type',
    ],
    ['deep XML', houseFile({ styles: '<w:style>'.repeat(200) + '</w:style>'.repeat(200) }), 'nest deeper'],
  ])('%s', (_name, bytes, reason) => {
    const outcome = readHouseStyle(bytes, wantedStyles());
    expect(outcome).toMatchObject({ ok: false, reason: expect.stringContaining(reason) });
    expect((outcome as { hint: string }).hint).toMatch(/\.docx/);
  });

  test('a page that text does not fit on is not taken over, and said', () => {
    const style = read(
      houseFile({
        styles: '',
        body: '<w:p/><w:sectPr><w:pgSz w:w="3000" w:h="3000"/><w:pgMar w:top="1440" w:right="1440" w:bottom="1440" w:left="1440"/></w:sectPr>',
      }),
    );
    expect(style.page).toBeUndefined();
    expect(style.dropped.map(({ what }) => what)).toEqual(['its page size']);
    expect(read(bareHouse()).page).toMatchObject({ width: 12240, height: 15840, left: 1440 });
  });
});

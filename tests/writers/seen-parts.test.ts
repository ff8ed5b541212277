import { strFromU8, strToU8, unzipSync } from 'fflate';
import { expect, test } from 'vitest';
import { sha256Hex } from '../../src/graph/digest.ts';
import { readHouseStyle } from '../../src/house/house-style.ts';
import { type SeenKind, seenDigests, seenProperties } from '../../src/writers/docx/seen-parts.ts';
import { wantedStyles } from '../../src/writers/docx/styles.ts';
import { writeDocx } from '../../src/writers/docx/write-docx.ts';
import { germanHouse } from '../house/house-files.ts';
import { plainPng } from './plain-png.ts';
import { sampleDocument } from './sample-document.ts';

const options = {
  digestOf: sha256Hex,
  rasterise: (_svg: string, width: number, height: number) => plainPng(width, height),
};
const { bytes } = await writeDocx(sampleDocument, options);

type Files = Record<string, Uint8Array>;

/** The kinds of which the digest in the file is no longer right once something was done to it. */
const differing = (change: (files: Files) => void, written = bytes): readonly SeenKind[] => {
  const files: Files = unzipSync(written);
  change(files);
  const text = (path: string) => {
    const part = files[path];
    return part && strFromU8(part);
  };
  const custom = text('docProps/custom.xml') ?? '';
  const seen = seenDigests({ part: text, bytes: (path) => files[path] }, sha256Hex);
  return (Object.keys(seen) as SeenKind[]).filter(
    (kind) => !custom.includes(`name="${seenProperties[kind]}"><vt:lpwstr>${seen[kind]}<`),
  );
};

const replaced =
  (path: string, before: string | RegExp, after: string) =>
  (files: Files): void => {
    const text = strFromU8(files[path] ?? new Uint8Array());
    const changed = text.replace(before, after);
    if (changed === text) throw new Error(`${path} has no ${before}`);
    files[path] = strToU8(changed);
  };

const body = 'word/document.xml';
const plainRun = /<w:r><w:t xml:space="preserve">(?=[A-Z])/;

test.each<readonly [string, (files: Files) => void, readonly SeenKind[]]>([
  ['nothing', () => undefined, []],
  [
    'a passage that was hidden',
    replaced(body, plainRun, '<w:r><w:rPr><w:vanish/></w:rPr><w:t xml:space="preserve">'),
    ['passages'],
  ],
  [
    'a passage that was struck through',
    replaced(body, plainRun, '<w:r><w:rPr><w:strike/></w:rPr><w:t xml:space="preserve">'),
    ['passages'],
  ],
  [
    'a style that hides',
    replaced('word/styles.xml', /(w:styleId="Heading1".*?)<w:rPr>/s, '$1<w:rPr><w:vanish/>'),
    ['passages'],
  ],
  [
    'a passage in the colour of paper',
    replaced(body, plainRun, '<w:r><w:rPr><w:color w:val="FEFEFE"/></w:rPr><w:t xml:space="preserve">'),
    ['passages'],
  ],
  [
    'a passage of one point',
    replaced(body, plainRun, '<w:r><w:rPr><w:sz w:val="2"/></w:rPr><w:t xml:space="preserve">'),
    ['passages'],
  ],
  [
    'a passage in grey and one in the size of a note',
    replaced(
      body,
      plainRun,
      '<w:r><w:rPr><w:color w:val="606060"/><w:sz w:val="14"/></w:rPr><w:t xml:space="preserve">',
    ),
    [],
  ],
  [
    'a head row in white',
    replaced(
      body,
      /(<w:tblHeader\/>.*?<w:r>)(?:<w:rPr>(?:(?!<\/w:rPr>).)*<\/w:rPr>)?/s,
      '$1<w:rPr><w:color w:val="FFFFFF"/></w:rPr>',
    ),
    [],
  ],
  [
    'a cell below it in white',
    replaced(
      body,
      /(<w:tblHeader\/>.*?<\/w:tr>.*?<w:r>)(?:<w:rPr>(?:(?!<\/w:rPr>).)*<\/w:rPr>)?/s,
      '$1<w:rPr><w:color w:val="FFFFFF"/></w:rPr>',
    ),
    ['passages'],
  ],
  [
    'a mark that is off, and the form that a tracked change keeps',
    replaced(
      body,
      plainRun,
      '<w:r><w:rPr><w:strike w:val="false"/><w:rPrChange w:id="1" w:author="R"><w:rPr><w:vanish/></w:rPr></w:rPrChange></w:rPr><w:t xml:space="preserve">',
    ),
    [],
  ],
  ['bold letters', replaced(body, plainRun, '<w:r><w:rPr><w:b/></w:rPr><w:t xml:space="preserve">'), []],
  [
    'another picture',
    (files) => {
      files['word/media/figure1.png'] = plainPng(7, 7);
    },
    ['pictures'],
  ],
  [
    'another drawing',
    (files) => {
      files['word/media/figure1.svg'] = strToU8('<svg/>');
    },
    ['drawings'],
  ],
  ['another description of a picture', replaced(body, / descr="/, ' descr="Not: '), ['pictures']],
  [
    'a file that is taken in',
    replaced(body, '</w:body>', '<w:altChunk r:id="rId99"/></w:body>'),
    ['pictures'],
  ],
  ['another revision in the head', replaced('word/header1.xml', ', revision ', ', edition '), ['heads']],
  ['another result of a field in the head', replaced('word/header1.xml', />DOC-03</, '>DOC-04<'), ['heads']],
  ['another number of pages in the foot', replaced('word/footer1.xml', />1<\/w:t>/, '>2</w:t>'), []],
  [
    'another revision in the properties',
    replaced('docProps/custom.xml', /(name="Revision"><vt:lpwstr>)/, '$1X'),
    ['particulars'],
  ],
  [
    'another state in the properties',
    replaced('docProps/core.xml', '<cp:contentStatus>', '<cp:contentStatus>not '),
    ['particulars'],
  ],
  [
    'a property that a program adds',
    replaced(
      'docProps/custom.xml',
      '</Properties>',
      '<property fmtid="{D5CDD505-2E9C-101B-9397-08002B2CF9AE}" pid="99" name="Sensitivity"><vt:lpwstr>internal</vt:lpwstr></property></Properties>',
    ),
    [],
  ],
  ['drawings that a program left out', replaced(body, /<a:extLst>.*?<\/a:extLst>/gs, ''), []],
])('%s', (_, change, kinds) => {
  expect(differing(change)).toEqual(kinds);
});

test('another logo in the head of a house style', async () => {
  const house = readHouseStyle(germanHouse(), wantedStyles());
  if (!house.ok) throw new Error(house.reason);
  const { bytes: inHouse } = await writeDocx(sampleDocument, { ...options, house: house.style });
  expect(differing(() => undefined, inHouse)).toEqual([]);
  const redrawn = (files: Files): void => {
    expect(Object.keys(files)).toContain('word/media/house1.png');
    files['word/media/house1.png'] = plainPng(160, 41);
  };
  expect(differing(redrawn, inHouse)).toEqual(['heads']);
});

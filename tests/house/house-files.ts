import { readFileSync } from 'node:fs';
import { strToU8, zipSync } from 'fflate';
import { plainPng } from '../writers/plain-png.ts';

/** House styles as makers have them, written out as XML, so that each test sees what a file holds. */

const office = 'http://schemas.openxmlformats.org';
const types = `${office}/officeDocument/2006/relationships`;
const word = 'application/vnd.openxmlformats-officedocument.wordprocessingml';
const namespaces =
  `xmlns:w="${office}/wordprocessingml/2006/main" xmlns:r="${types}" xmlns:wp="${office}/drawingml/2006/wordprocessingDrawing"` +
  ` xmlns:a="${office}/drawingml/2006/main" xmlns:pic="${office}/drawingml/2006/picture"` +
  ` xmlns:mc="${office}/markup-compatibility/2006" xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office"` +
  ' xmlns:w14="http://schemas.microsoft.com/office/word/2010/wordml" xmlns:wps="http://schemas.microsoft.com/office/word/2010/wordprocessingShape" mc:Ignorable="w14"';

export interface PartRelationship {
  readonly id: string;
  readonly type: string;
  readonly target: string;
  readonly external?: boolean;
}

export interface HouseParts {
  readonly styles: string;
  readonly body?: string;
  readonly numbering?: string;
  readonly theme?: string;
  readonly settings?: string;
  /** By file name, `header1.xml`. */
  readonly running?: Readonly<Record<string, string>>;
  readonly relationships?: readonly PartRelationship[];
  readonly runningRelationships?: Readonly<Record<string, readonly PartRelationship[]>>;
  readonly media?: Readonly<Record<string, Uint8Array>>;
  /** Type of the main part: `template` or `document`. */
  readonly kind?: string;
}

const rels = (list: readonly PartRelationship[]): string =>
  `<Relationships xmlns="${office}/package/2006/relationships">${list
    .map(
      ({ id, type, target, external }) =>
        `<Relationship Id="${id}" Type="${types}/${type}" Target="${target}"${external ? ' TargetMode="External"' : ''}/>`,
    )
    .join('')}</Relationships>`;

/** A Word file of these parts. */
export const houseFile = (parts: HouseParts): Uint8Array => {
  const { running = {}, runningRelationships = {}, media = {}, kind = 'template' } = parts;
  const files: Record<string, string | Uint8Array> = {
    '_rels/.rels': rels([{ id: 'rId1', type: 'officeDocument', target: 'word/document.xml' }]),
    'word/document.xml': `<w:document ${namespaces}><w:body>${parts.body ?? '<w:p/><w:sectPr/>'}</w:body></w:document>`,
    'word/styles.xml': `<w:styles ${namespaces}>${parts.styles}</w:styles>`,
    ...(parts.numbering
      ? { 'word/numbering.xml': `<w:numbering ${namespaces}>${parts.numbering}</w:numbering>` }
      : {}),
    ...(parts.settings
      ? { 'word/settings.xml': `<w:settings ${namespaces}>${parts.settings}</w:settings>` }
      : {}),
    ...(parts.theme ? { 'word/theme/theme1.xml': parts.theme } : {}),
    'word/_rels/document.xml.rels': rels([
      { id: 'rIdA', type: 'styles', target: 'styles.xml' },
      ...(parts.numbering ? [{ id: 'rIdB', type: 'numbering', target: 'numbering.xml' }] : []),
      ...(parts.settings ? [{ id: 'rIdC', type: 'settings', target: '/word/settings.xml' }] : []),
      ...(parts.theme ? [{ id: 'rIdD', type: 'theme', target: 'theme/theme1.xml' }] : []),
      ...(parts.relationships ?? []),
    ]),
  };
  for (const [name, xml] of Object.entries(running)) {
    const tag = name.startsWith('header') ? 'w:hdr' : 'w:ftr';
    files[`word/${name}`] = `<${tag} ${namespaces}>${xml}</${tag}>`;
  }
  for (const [name, list] of Object.entries(runningRelationships))
    files[`word/_rels/${name}.rels`] = rels(list);
  for (const [name, bytes] of Object.entries(media)) files[`word/media/${name}`] = bytes;
  const overrides = Object.keys(files)
    .filter((name) => name.endsWith('.xml'))
    .map((name) => {
      const type = name === 'word/document.xml' ? `${kind}.main` : name.replace(/^.*\/|\d*\.xml$/g, '');
      return `<Override PartName="/${name}" ContentType="${word}.${type}+xml"/>`;
    });
  files['[Content_Types].xml'] =
    `<Types xmlns="${office}/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>${overrides.join('')}</Types>`;
  return zipSync(
    Object.fromEntries(
      Object.entries(files).map(([name, content]) => [
        name,
        typeof content === 'string' ? strToU8(content) : content,
      ]),
    ),
    { mtime: new Date(2026, 0, 2) },
  );
};

const style = (
  type: string,
  id: string,
  name: string,
  inner: string,
  options: { readonly isDefault?: boolean; readonly basedOn?: string } = {},
): string =>
  `<w:style w:type="${type}"${options.isDefault ? ' w:default="1"' : ''} w:styleId="${id}"><w:name w:val="${name}"/>` +
  `${options.basedOn ? `<w:basedOn w:val="${options.basedOn}"/>` : ''}<w:uiPriority w:val="9"/><w:qFormat/>${inner}</w:style>`;

/** A picture as Word writes it: size in English metric units. */
export const inlinePicture = (id: string, attributes = `r:embed="${id}"`): string =>
  '<w:drawing><wp:inline distT="0" distB="0" distL="0" distR="0"><wp:extent cx="1440000" cy="360000"/><wp:docPr id="7" name="Logo"/>' +
  '<a:graphic><a:graphicData uri="http://schemas.openxmlformats.org/drawingml/2006/picture"><pic:pic><pic:nvPicPr><pic:cNvPr id="0" name="logo"/><pic:cNvPicPr/></pic:nvPicPr>' +
  `<pic:blipFill><a:blip ${attributes}/><a:stretch><a:fillRect/></a:stretch></pic:blipFill><pic:spPr><a:xfrm><a:off x="0" y="0"/><a:ext cx="1440000" cy="360000"/></a:xfrm>` +
  '<a:prstGeom prst="rect"><a:avLst/></a:prstGeom></pic:spPr></pic:pic></a:graphicData></a:graphic></wp:inline></w:drawing>';

export const complexField = (instruction: string, result: string): string =>
  `<w:r><w:fldChar w:fldCharType="begin"/></w:r><w:r><w:instrText xml:space="preserve"> ${instruction} </w:instrText></w:r>` +
  `<w:r><w:fldChar w:fldCharType="separate"/></w:r><w:r><w:t>${result}</w:t></w:r><w:r><w:fldChar w:fldCharType="end"/></w:r>`;

const level = (at: number, format: string, text: string, linked: string): string =>
  `<w:lvl w:ilvl="${at}"><w:start w:val="1"/><w:numFmt w:val="${format}"/><w:pStyle w:val="${linked}"/><w:lvlText w:val="${text}"/><w:lvlJc w:val="left"/>` +
  '<w:pPr><w:ind w:left="851" w:hanging="851"/></w:pPr></w:lvl>';

const germanHeading = (at: number, size: number, before: number): string =>
  style(
    'paragraph',
    `berschrift${at}`,
    `heading ${at}`,
    `<w:pPr><w:keepNext/><w:numPr>${at > 1 ? `<w:ilvl w:val="${at - 1}"/>` : ''}<w:numId w:val="4"/></w:numPr><w:spacing w:before="${before}" w:after="120"/></w:pPr>` +
      `<w:rPr><w:rFonts w:asciiTheme="majorHAnsi" w:hAnsiTheme="majorHAnsi"/><w:b/><w:color w:val="1F4E79" w:themeColor="accent1" w:themeShade="80"/><w:sz w:val="${size}"/><w14:ligatures w14:val="none"/></w:rPr>`,
    { basedOn: 'Standard' },
  );

const officeTheme = `<a:theme xmlns:a="${office}/drawingml/2006/main" name="House"><a:themeElements><a:clrScheme name="House">${[
  ['dk1', '000000'],
  ['lt1', 'FFFFFF'],
  ['dk2', '1F4E79'],
  ['lt2', 'EEECE1'],
  ['accent1', '2E75B6'],
  ['accent2', 'C55A11'],
  ['accent3', '70AD47'],
  ['accent4', 'FFC000'],
  ['accent5', '5B9BD5'],
  ['accent6', 'A5A5A5'],
  ['hlink', '0563C1'],
  ['folHlink', '954F72'],
]
  .map(([name, value]) => `<a:${name}><a:srgbClr val="${value}"/></a:${name}>`)
  .join('')}</a:clrScheme><a:fontScheme name="House">${['major', 'minor']
  .map(
    (kind) =>
      `<a:${kind}Font><a:latin typeface="${kind === 'major' ? 'Cambria' : 'Calibri'}"/><a:ea typeface=""/><a:cs typeface=""/></a:${kind}Font>`,
  )
  .join('')}</a:fontScheme><a:fmtScheme name="House">${[
  ['fillStyleLst', '<a:solidFill><a:schemeClr val="phClr"/></a:solidFill>'],
  ['lnStyleLst', '<a:ln w="6350"><a:solidFill><a:schemeClr val="phClr"/></a:solidFill></a:ln>'],
  ['effectStyleLst', '<a:effectStyle><a:effectLst/></a:effectStyle>'],
  ['bgFillStyleLst', '<a:solidFill><a:schemeClr val="phClr"/></a:solidFill>'],
]
  .map(([name, inner = '']) => `<a:${name}>${inner.repeat(3)}</a:${name}>`)
  .join('')}</a:fmtScheme></a:themeElements></a:theme>`;

/**
 * As Word in German saves a template: localised ids, English names, numbered headings, a theme, a logo in a table of
 * the running head, another one on the first page, and a foot with page numbers that reaches out of the file.
 */
export const germanHouse = (): Uint8Array =>
  houseFile({
    theme: officeTheme,
    styles:
      '<w:docDefaults><w:rPrDefault><w:rPr><w:rFonts w:asciiTheme="minorHAnsi" w:hAnsiTheme="minorHAnsi"/><w:sz w:val="22"/><w:lang w:val="de-DE"/></w:rPr></w:rPrDefault>' +
      '<w:pPrDefault><w:pPr><w:spacing w:after="160" w:line="259" w:lineRule="auto"/></w:pPr></w:pPrDefault></w:docDefaults>' +
      style('paragraph', 'Standard', 'Normal', '', { isDefault: true }) +
      germanHeading(1, 32, 480) +
      germanHeading(2, 26, 320) +
      germanHeading(3, 24, 240) +
      style('character', 'Absatz-Standardschriftart', 'Default Paragraph Font', '', { isDefault: true }) +
      style(
        'table',
        'NormaleTabelle',
        'Normal Table',
        '<w:tblPr><w:tblInd w:w="0" w:type="dxa"/></w:tblPr>',
        {
          isDefault: true,
        },
      ) +
      style('paragraph', 'Titel', 'Title', '<w:rPr><w:color w:val="1F4E79"/><w:sz w:val="56"/></w:rPr>', {
        basedOn: 'Standard',
      }) +
      style('paragraph', 'Beschriftung', 'caption', '<w:rPr><w:i/><w:sz w:val="18"/></w:rPr>', {
        basedOn: 'Standard',
      }) +
      style(
        'paragraph',
        'Kopfzeile',
        'header',
        '<w:pPr><w:tabs><w:tab w:val="center" w:pos="4536"/><w:tab w:val="right" w:pos="9072"/></w:tabs></w:pPr>',
        { basedOn: 'Standard' },
      ) +
      style(
        'paragraph',
        'Fuzeile',
        'footer',
        '<w:pPr><w:tabs><w:tab w:val="center" w:pos="4536"/><w:tab w:val="right" w:pos="9072"/></w:tabs></w:pPr><w:rPr><w:sz w:val="16"/></w:rPr>',
        { basedOn: 'Standard' },
      ) +
      style('paragraph', 'Verzeichnis1', 'toc 1', '<w:pPr><w:spacing w:after="100"/></w:pPr>', {
        basedOn: 'Standard',
      }) +
      style(
        'paragraph',
        'Verzeichnis2',
        'toc 2',
        '<w:pPr><w:spacing w:after="100"/><w:ind w:left="220"/></w:pPr>',
        {
          basedOn: 'Standard',
        },
      ) +
      style(
        'character',
        'Hyperlink',
        'Hyperlink',
        '<w:rPr><w:color w:val="0563C1"/><w:u w:val="single"/></w:rPr>',
      ) +
      style('paragraph', 'TableText', 'Merksatz', '<w:rPr><w:b/></w:rPr>', { basedOn: 'Standard' }),
    numbering: `<w:abstractNum w:abstractNumId="3" w:restartNumberingAfterBreak="0"><w:nsid w:val="11223344"/><w:multiLevelType w:val="multilevel"/>${[
      ...['%1', '%1.%2', '%1.%2.%3'].map((text, at) => level(at, 'decimal', text, `berschrift${at + 1}`)),
      ...[3, 4, 5].map((at) => level(at, 'lowerLetter', `%${at + 1})`, 'gibtEsNicht')),
    ].join('')}</w:abstractNum><w:num w:numId="4"><w:abstractNumId w:val="3"/></w:num>`,
    settings:
      '<w:clrSchemeMapping w:bg1="light1" w:t1="dark1" w:bg2="light2" w:t2="dark2" w:accent1="accent1" w:accent2="accent2" w:accent3="accent3" w:accent4="accent4" w:accent5="accent5" w:accent6="accent6" w:hyperlink="hyperlink" w:followedHyperlink="followedHyperlink"/>',
    running: {
      'header1.xml':
        '<w:tbl><w:tblPr><w:tblW w:w="9072" w:type="dxa"/><w:tblLayout w:type="fixed"/></w:tblPr><w:tblGrid><w:gridCol w:w="4536"/><w:gridCol w:w="4536"/></w:tblGrid>' +
        `<w:tr w14:paraId="1A2B"><w:tc><w:tcPr><w:tcW w:w="4536" w:type="dxa"/></w:tcPr><w:p><w:pPr><w:pStyle w:val="Kopfzeile"/></w:pPr><w:r>${inlinePicture('rId1')}</w:r></w:p></w:tc>` +
        `<w:tc><w:tcPr><w:tcW w:w="4536" w:type="dxa"/></w:tcPr><w:p><w:pPr><w:pStyle w:val="Kopfzeile"/><w:jc w:val="right"/></w:pPr>${complexField('TITLE', 'Alter Titel')}</w:p></w:tc></w:tr></w:tbl>` +
        '<w:p><w:pPr><w:pStyle w:val="Kopfzeile"/></w:pPr></w:p>',
      'header2.xml': `<w:p><w:pPr><w:pStyle w:val="Kopfzeile"/></w:pPr><w:r>${inlinePicture('rId1')}</w:r></w:p>`,
      'footer1.xml':
        `<w:p><w:pPr><w:pStyle w:val="Fuzeile"/></w:pPr><w:hyperlink r:id="rId9"><w:r><w:t>harrow-lane.example</w:t></w:r></w:hyperlink><w:r><w:tab/></w:r>` +
        `${complexField('DATE \\@ "dd.MM.yyyy"', '12.03.2019')}<w:r><w:tab/><w:t xml:space="preserve">Seite </w:t></w:r><w:fldSimple w:instr=" PAGE "><w:r><w:t>1</w:t></w:r></w:fldSimple></w:p>`,
    },
    relationships: [
      { id: 'rId5', type: 'header', target: 'header1.xml' },
      { id: 'rId6', type: 'header', target: 'header2.xml' },
      { id: 'rId7', type: 'footer', target: 'footer1.xml' },
      { id: 'rId8', type: 'attachedTemplate', target: 'file:///server/vorlage.dotm', external: true },
    ],
    runningRelationships: {
      'header1.xml': [{ id: 'rId1', type: 'image', target: 'media/logo.png' }],
      'header2.xml': [{ id: 'rId1', type: 'image', target: '../word/media/logo.png' }],
      'footer1.xml': [
        { id: 'rId9', type: 'hyperlink', target: 'https://harrow-lane.example/', external: true },
      ],
    },
    media: { 'logo.png': plainPng(160, 40) },
    body:
      '<w:p><w:r><w:t>Mustertext</w:t></w:r></w:p><w:sectPr><w:headerReference w:type="default" r:id="rId5"/><w:headerReference w:type="first" r:id="rId6"/>' +
      '<w:footerReference w:type="default" r:id="rId7"/><w:pgSz w:w="11906" w:h="16838"/><w:pgMar w:top="2268" w:right="1417" w:bottom="1134" w:left="1417" w:header="708" w:footer="708" w:gutter="0"/><w:titlePg/></w:sectPr>',
  });

/** As small as a template can be: one style, no running heads, US Letter paper. */
export const bareHouse = (): Uint8Array =>
  houseFile({
    kind: 'document',
    styles:
      '<w:docDefaults><w:rPrDefault><w:rPr><w:rFonts w:ascii="Times New Roman" w:hAnsi="Times New Roman"/><w:sz w:val="21"/></w:rPr></w:rPrDefault></w:docDefaults>' +
      '<w:style w:type="paragraph" w:default="1" w:styleId="Normal"><w:name w:val="Normal"/><w:pPr><w:spacing w:after="120"/></w:pPr></w:style>',
    body: '<w:p/><w:sectPr><w:pgSz w:w="12240" w:h="15840"/><w:pgMar w:top="1440" w:right="1440" w:bottom="1440" w:left="1440" w:header="720" w:footer="720" w:gutter="0"/></w:sectPr>',
  });

/** Made by LibreOffice 7.4: names in its own spelling, headings in a list without numbers, page numbers in the foot. */
export const libreOfficeHouse = (): Uint8Array =>
  new Uint8Array(readFileSync(new URL('from-libreoffice.dotx', import.meta.url)));

import type { Tone } from '../../document/model.ts';
import type { HouseStyle, WantedStyle } from '../../house/house-style.ts';
import { headingListNumber } from './lists.ts';
import {
  type Colours,
  colours,
  contentsLevels,
  fonts,
  portrait,
  sizes,
  textWidth,
  toneColours,
} from './look.ts';
import { toneStyles } from './runs.ts';
import { escapeXml, wordNamespaces, xmlHead } from './xml.ts';

/** What the styles of one document depend on. */
export interface StyleOptions {
  readonly language: string;
  readonly colours: Colours;
  /** Width of the text of upright pages. */
  readonly textWidth: number;
  readonly house: HouseStyle | undefined;
}

/** The part `styles.xml`. All looks are here, so that a reader can change them in Word in one place. */
export function writeStyles(options: StyleOptions): string {
  const { language, house } = options;
  const own = documentStyles(options)
    .filter(({ id }) => house?.styleIds.has(id) !== true)
    .map(({ xml }) => xml);
  const look =
    house === undefined
      ? defaults(language)
      : (house.defaults === undefined ? defaults(language) : houseDefaults(house.defaults, language)) +
        house.latent +
        house.styles.join('');
  return `${xmlHead}<w:styles ${wordNamespaces}>${look}${own.join('')}</w:styles>`;
}

/** Id, name and type of every style that documents use. */
export const wantedStyles = (): readonly WantedStyle[] =>
  documentStyles({ language: '', colours, textWidth: textWidth(portrait), house: undefined });

interface WrittenStyle extends WantedStyle {
  readonly xml: string;
}

const documentStyles = (options: StyleOptions): readonly WrittenStyle[] => [
  ...bodyStyles(options),
  ...headingStyles(options),
  ...coverStyles(options),
  ...contentsStyles(options),
  ...noteStyles(),
  ...toneStylesXml(),
  ...tableStyles(options),
];

function houseDefaults(given: NonNullable<HouseStyle['defaults']>, language: string): string {
  const tongue = `<w:lang w:val="${escapeXml(language)}" w:eastAsia="${escapeXml(language)}"/>`;
  return (
    `<w:docDefaults><w:rPrDefault><w:rPr>${given.run}${tongue}</w:rPr></w:rPrDefault>` +
    `<w:pPrDefault><w:pPr>${given.paragraph}</w:pPr></w:pPrDefault></w:docDefaults>`
  );
}

function defaults(language: string): string {
  const names = ['ascii', 'hAnsi', 'cs', 'eastAsia'].map((kind) => `w:${kind}="${fonts.text}"`).join(' ');
  return (
    `<w:docDefaults><w:rPrDefault><w:rPr><w:rFonts ${names}/><w:sz w:val="${sizes.body}"/>` +
    `<w:szCs w:val="${sizes.body}"/><w:lang w:val="${escapeXml(language)}" w:eastAsia="${escapeXml(language)}"/></w:rPr></w:rPrDefault>` +
    '<w:pPrDefault><w:pPr><w:spacing w:after="120" w:line="276" w:lineRule="auto"/></w:pPr></w:pPrDefault></w:docDefaults>'
  );
}

interface Style {
  readonly id: string;
  readonly name: string;
  readonly basedOn?: string;
  readonly next?: string;
  readonly paragraph?: string;
  readonly run?: string;
  readonly isDefault?: boolean;
  /** Shown in Word's style gallery. */
  readonly listed?: boolean;
}

function paragraphStyle(style: Style): WrittenStyle {
  const { id, name, basedOn = 'Normal', next, paragraph = '', run = '' } = style;
  const xml =
    `<w:style w:type="paragraph"${style.isDefault ? ' w:default="1"' : ''} w:styleId="${id}"><w:name w:val="${name}"/>` +
    `${style.isDefault ? '' : `<w:basedOn w:val="${basedOn}"/>`}${next === undefined ? '' : `<w:next w:val="${next}"/>`}` +
    `${style.listed ? '<w:qFormat/>' : ''}${paragraph && `<w:pPr>${paragraph}</w:pPr>`}${run && `<w:rPr>${run}</w:rPr>`}</w:style>`;
  return { id, name, type: 'paragraph', xml };
}

function characterStyle(id: string, name: string, run: string): WrittenStyle {
  const xml = `<w:style w:type="character" w:styleId="${id}"><w:name w:val="${name}"/><w:rPr>${run}</w:rPr></w:style>`;
  return { id, name, type: 'character', xml };
}

const tableStyle = (id: string, name: string, xml: string): WrittenStyle => ({
  id,
  name,
  type: 'table',
  xml,
});

const spacing = (before: number, after: number, line?: number) =>
  `<w:spacing w:before="${before}" w:after="${after}"${line === undefined ? '' : ` w:line="${line}" w:lineRule="auto"`}/>`;
const size = (halfPoints: number) => `<w:sz w:val="${halfPoints}"/><w:szCs w:val="${halfPoints}"/>`;
const colour = (value: string) => `<w:color w:val="${value}"/>`;
const border = (side: string, width: number, value: string, space = 0) =>
  `<w:${side} w:val="single" w:sz="${width}" w:space="${space}" w:color="${value}"/>`;
const shade = (fill: string) => `<w:shd w:val="clear" w:color="auto" w:fill="${fill}"/>`;

function bodyStyles({ colours }: StyleOptions): WrittenStyle[] {
  const codeBox = ['top', 'left', 'bottom', 'right'].map((side) => border(side, 4, colours.line, 4)).join('');
  return [
    paragraphStyle({
      id: 'Normal',
      name: 'Normal',
      isDefault: true,
      listed: true,
      run: colour(colours.ink),
    }),
    paragraphStyle({
      id: 'ListParagraph',
      name: 'List Paragraph',
      paragraph: spacing(0, 60),
      listed: true,
    }),
    paragraphStyle({
      id: 'Quote',
      name: 'Quote',
      paragraph: `<w:pBdr>${border('left', 18, colours.line, 10)}</w:pBdr>${spacing(60, 120)}<w:ind w:left="397" w:right="397"/>`,
      run: colour(colours.quiet),
      listed: true,
    }),
    paragraphStyle({
      id: 'Code',
      name: 'Code Block',
      paragraph: `<w:pBdr>${codeBox}</w:pBdr>${shade(colours.codeFill)}${spacing(120, 200, 252)}<w:ind w:left="113" w:right="113"/>`,
      run: `<w:rFonts w:ascii="${fonts.code}" w:hAnsi="${fonts.code}" w:cs="${fonts.code}"/><w:noProof/>${size(sizes.code)}`,
      listed: true,
    }),
    paragraphStyle({
      id: 'Rule',
      name: 'Rule',
      paragraph: `<w:pBdr>${border('bottom', 6, colours.line, 1)}</w:pBdr>${spacing(60, 200)}`,
    }),
    // Gaps, section ends and page breaks need a paragraph; this one takes next to no room.
    paragraphStyle({
      id: 'Hairline',
      name: 'Hairline',
      paragraph: '<w:spacing w:before="0" w:after="0" w:line="20" w:lineRule="exact"/>',
      run: size(2),
    }),
    paragraphStyle({
      id: 'AfterTable',
      name: 'After Table',
      paragraph: '<w:spacing w:before="0" w:after="0" w:line="200" w:lineRule="exact"/>',
      run: size(8),
    }),
    paragraphStyle({
      id: 'Caption',
      name: 'caption',
      next: 'Normal',
      paragraph: `<w:keepLines/>${spacing(160, 80)}`,
      run: `<w:b/>${colour(colours.heading)}${size(19)}`,
      listed: true,
    }),
    paragraphStyle({
      id: 'FigureBody',
      // Not "Figure": LibreOffice makes the name of a style a tag of the PDF, and the tag of that name is the picture's own.
      name: 'Figure Body',
      paragraph: `<w:keepNext/>${spacing(160, 40)}<w:jc w:val="center"/>`,
    }),
    characterStyle('Hyperlink', 'Hyperlink', `${colour(colours.link)}<w:u w:val="single"/>`),
    characterStyle('RecordLink', 'Record Link', colour(colours.link)),
  ];
}

function headingStyles({ colours, house }: StyleOptions): WrittenStyle[] {
  const looks = [
    { before: 400, after: 140, size: 34 },
    { before: 300, after: 100, size: 27 },
    { before: 240, after: 80, size: 23 },
    { before: 200, after: 60, size: 22 },
    { before: 180, after: 60, size: 21 },
    { before: 180, after: 60, size: 21 },
  ];
  return looks.map((look, index) =>
    paragraphStyle({
      id: `Heading${index + 1}`,
      name: `heading ${index + 1}`,
      next: 'Normal',
      paragraph:
        `<w:keepNext/><w:keepLines/>${headingNumber(index, house)}` +
        `${spacing(look.before, look.after, 252)}<w:outlineLvl w:val="${index}"/>`,
      run: `<w:b/>${index === 5 ? '<w:i/>' : ''}${colour(colours.heading)}${size(look.size)}`,
      listed: true,
    }),
  );
}

function headingNumber(index: number, house: HouseStyle | undefined): string {
  const given = house?.headings[index];
  if (given === undefined && house?.numbersHeadings) return '';
  const list = given?.list ?? headingListNumber(house);
  return `<w:numPr><w:ilvl w:val="${given?.level ?? index}"/><w:numId w:val="${list}"/></w:numPr>`;
}

function coverStyles({ colours, house }: StyleOptions): WrittenStyle[] {
  const model = ['Heading2', 'Heading1'].find((id) => house?.styleIds.has(id));
  return [
    paragraphStyle({
      id: 'CoverOrganisation',
      name: 'Cover Organisation',
      paragraph: `<w:pBdr>${border('top', 36, colours.accent, 10)}</w:pBdr>${spacing(0, 0)}`,
      run: `<w:b/>${colour(colours.heading)}<w:spacing w:val="10"/>${size(26)}`,
    }),
    paragraphStyle({
      id: 'CoverProduct',
      name: 'Cover Product',
      run: `${colour(colours.accent)}${size(28)}`,
      paragraph: spacing(0, 80),
    }),
    paragraphStyle({
      id: 'Title',
      name: 'Title',
      next: 'Subtitle',
      paragraph: `<w:keepNext/>${spacing(0, 160, 228)}`,
      run: `<w:b/>${colour(colours.heading)}${size(64)}`,
      listed: true,
    }),
    paragraphStyle({
      id: 'Subtitle',
      name: 'Subtitle',
      next: 'Normal',
      paragraph: spacing(0, 120),
      run: `${colour(colours.quiet)}${size(28)}`,
      listed: true,
    }),
    // Looks like a heading, but stands outside the outline: cover and end matter.
    paragraphStyle(
      model !== undefined
        ? {
            id: 'PartTitle',
            name: 'Part Title',
            basedOn: model,
            next: 'Normal',
            paragraph:
              '<w:keepNext/><w:keepLines/><w:pageBreakBefore w:val="0"/><w:numPr><w:numId w:val="0"/></w:numPr><w:ind w:left="0" w:firstLine="0"/><w:outlineLvl w:val="9"/>',
          }
        : {
            id: 'PartTitle',
            name: 'Part Title',
            next: 'Normal',
            paragraph: `<w:keepNext/><w:keepLines/>${spacing(360, 120)}`,
            run: `<w:b/>${colour(colours.heading)}${size(27)}`,
          },
    ),
  ];
}

function contentsStyles({ colours, textWidth: width }: StyleOptions): WrittenStyle[] {
  const right = `<w:tab w:val="right" w:leader="dot" w:pos="${width}"/>`;
  return [
    ...contentsLevels.map((level, index) =>
      paragraphStyle({
        id: `TOC${index + 1}`,
        name: `toc ${index + 1}`,
        next: 'Normal',
        paragraph:
          `<w:tabs><w:tab w:val="left" w:pos="${level.left + level.number}"/>${right}</w:tabs>${spacing(level.before, 40)}` +
          `<w:ind w:left="${level.left + level.number}" w:hanging="${level.number}"/>`,
        run: level.bold ? '<w:b/>' : '',
      }),
    ),
    paragraphStyle({
      id: 'TableofFigures',
      name: 'table of figures',
      next: 'Normal',
      paragraph: `<w:tabs>${right}</w:tabs>${spacing(0, 40)}<w:ind w:left="907" w:hanging="907"/>`,
    }),
    paragraphStyle({
      id: 'Header',
      name: 'header',
      paragraph: `<w:pBdr>${border('bottom', 4, colours.line, 5)}</w:pBdr>${spacing(0, 0, 240)}`,
      run: `${colour(colours.quiet)}${size(sizes.running)}`,
    }),
    paragraphStyle({
      id: 'Footer',
      name: 'footer',
      paragraph: `<w:pBdr>${border('top', 4, colours.line, 5)}</w:pBdr>${spacing(0, 0, 240)}`,
      run: `${colour(colours.quiet)}${size(sizes.running)}`,
    }),
  ];
}

function noteStyles(): WrittenStyle[] {
  return [
    paragraphStyle({
      id: 'FootnoteText',
      name: 'footnote text',
      paragraph: `${spacing(0, 40, 240)}<w:ind w:left="198" w:hanging="198"/>`,
      run: size(sizes.note),
    }),
    characterStyle('FootnoteReference', 'footnote reference', '<w:vertAlign w:val="superscript"/>'),
  ];
}

const noticeNames = {
  good: 'Good',
  bad: 'Bad',
  caution: 'Caution',
  quiet: 'Quiet',
} as const;

/** Name of the paragraph style of a notice. */
export function noticeStyle(tone: Tone): string {
  return `Notice${noticeNames[tone]}`;
}

function toneStylesXml(): WrittenStyle[] {
  return (['good', 'bad', 'caution', 'quiet'] as const).flatMap((tone) => {
    const { text, fill } = toneColours[tone];
    return [
      characterStyle(
        toneStyles[tone],
        `Tone ${noticeNames[tone]}`,
        `${tone === 'quiet' ? '' : '<w:b/>'}${colour(text)}`,
      ),
      paragraphStyle({
        id: noticeStyle(tone),
        name: `Notice ${noticeNames[tone]}`,
        paragraph:
          `<w:pBdr>${border('top', 4, fill, 4)}${border('left', 24, text, 8)}${border('bottom', 4, fill, 4)}</w:pBdr>` +
          `${shade(fill)}${spacing(0, 0)}<w:ind w:left="227" w:right="113"/>`,
      }),
    ];
  });
}

function tableStyles({ colours, house }: StyleOptions): WrittenStyle[] {
  // Text in cells keeps to the left whatever the house style does with paragraphs.
  const plain =
    house === undefined ? '' : '<w:ind w:left="0" w:right="0" w:firstLine="0"/><w:jc w:val="left"/>';
  const margins = (top: number, side: number) =>
    `<w:tblCellMar><w:top w:w="${top}" w:type="dxa"/><w:left w:w="${side}" w:type="dxa"/><w:bottom w:w="${top}" w:type="dxa"/><w:right w:w="${side}" w:type="dxa"/></w:tblCellMar>`;
  const condition = (type: string, paragraphRun: string, cell: string) =>
    `<w:tblStylePr w:type="${type}">${paragraphRun}<w:tcPr>${cell}</w:tcPr></w:tblStylePr>`;
  return [
    paragraphStyle({
      id: 'TableText',
      name: 'Table Text',
      paragraph: spacing(0, 0, 252) + plain,
      run: size(sizes.table),
      listed: true,
    }),
    paragraphStyle({
      id: 'TableHeading',
      name: 'Table Heading',
      basedOn: 'TableText',
      paragraph: '<w:keepNext/>',
      run: `<w:b/>${colour(colours.heading)}`,
      listed: true,
    }),
    paragraphStyle({
      id: 'ParticularsName',
      name: 'Particulars Name',
      basedOn: 'TableText',
      run: `<w:b/>${colour(colours.heading)}`,
    }),
    tableStyle(
      'TableNormal',
      'Normal Table',
      '<w:style w:type="table" w:default="1" w:styleId="TableNormal"><w:name w:val="Normal Table"/><w:uiPriority w:val="99"/><w:semiHidden/><w:unhideWhenUsed/>' +
        `<w:tblPr><w:tblInd w:w="0" w:type="dxa"/>${margins(0, 108)}</w:tblPr></w:style>`,
    ),
    tableStyle(
      'RecordTable',
      'Record Table',
      '<w:style w:type="table" w:styleId="RecordTable"><w:name w:val="Record Table"/><w:basedOn w:val="TableNormal"/><w:qFormat/>' +
        `<w:tblPr><w:tblStyleRowBandSize w:val="1"/><w:tblBorders>${border('top', 8, colours.lineStrong)}${border('bottom', 8, colours.lineStrong)}${border('insideH', 4, colours.line)}</w:tblBorders>${margins(50, 85)}</w:tblPr>` +
        condition(
          'firstRow',
          '',
          `<w:tcBorders>${border('bottom', 8, colours.lineStrong)}</w:tcBorders>${shade(colours.headFill)}<w:vAlign w:val="bottom"/>`,
        ) +
        condition('band2Horz', '', shade(colours.bandFill)) +
        '</w:style>',
    ),
    tableStyle(
      'ParticularsTable',
      'Particulars Table',
      '<w:style w:type="table" w:styleId="ParticularsTable"><w:name w:val="Particulars Table"/><w:basedOn w:val="TableNormal"/><w:qFormat/>' +
        `<w:tblPr><w:tblBorders>${border('top', 4, colours.line)}${border('bottom', 4, colours.line)}${border('insideH', 4, colours.line)}</w:tblBorders>${margins(50, 85)}</w:tblPr></w:style>`,
    ),
  ];
}

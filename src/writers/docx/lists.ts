import type { HouseStyle } from '../../house/house-style.ts';
import type { Colours } from './look.ts';
import type { ListStart } from './manuscript.ts';
import { wordNamespaces, xmlHead } from './xml.ts';

/** Number of the list that numbers the headings, where the house style doesn't: it follows those of the house style. */
export const headingListNumber = (house: HouseStyle | undefined): number => (house?.listCount ?? 0) + 1;

/** Number of the first list of the text in the file. */
export const firstListNumber = (house: HouseStyle | undefined): number => headingListNumber(house) + 1;

/** Indent of the text of a list item by its depth, counted from 0. */
export function listIndent(depth: number): number {
  return 397 * (depth + 1);
}

const deepestLevel = 8;

/** The level that Word knows for a depth. */
export function listLevel(depth: number): number {
  return Math.min(depth, deepestLevel);
}

const outlines = {
  heading: 0,
  bullet: 1,
  decimal: 2,
  checked: 3,
  unchecked: 4,
} as const;

/** The part `numbering.xml`: the outline of headings, and a list number for each list so that each starts anew. */
export function writeNumbering(
  lists: readonly ListStart[],
  colours: Colours,
  house: HouseStyle | undefined,
): string {
  const numbersHeadings = house?.numbersHeadings !== true;
  const levels = [...Array(deepestLevel + 1).keys()];
  const abstract = (id: number, level: (depth: number) => string) =>
    `<w:abstractNum w:abstractNumId="${id}"><w:multiLevelType w:val="multilevel"/>${levels.map(level).join('')}</w:abstractNum>`;
  const bulletSigns = ['•', '–', '▪'];
  return (
    `${xmlHead}<w:numbering ${wordNamespaces}>` +
    (numbersHeadings ? abstract(outlines.heading, headingLevel) : '') +
    abstract(outlines.bullet, (depth) =>
      listLevelXml(depth, 'bullet', bulletSigns[depth % 3] ?? '•', `<w:color w:val="${colours.accent}"/>`),
    ) +
    abstract(outlines.decimal, (depth) => listLevelXml(depth, 'decimal', `%${depth + 1}.`, '')) +
    abstract(outlines.checked, (depth) => listLevelXml(depth, 'bullet', '☑', '')) +
    abstract(outlines.unchecked, (depth) => listLevelXml(depth, 'bullet', '☐', '')) +
    (house?.outlines ?? '') +
    (house?.lists ?? '') +
    (numbersHeadings
      ? `<w:num w:numId="${headingListNumber(house)}"><w:abstractNumId w:val="${outlines.heading}"/></w:num>`
      : '') +
    lists.map((list, index) => listNumber(list, index + firstListNumber(house), levels)).join('') +
    '</w:numbering>'
  );
}

function headingLevel(depth: number): string {
  const style = depth < 6 ? `<w:pStyle w:val="Heading${depth + 1}"/>` : '';
  const text = [...Array(depth + 1).keys()].map((level) => `%${level + 1}`).join('.');
  const indent = [567, 680, 794, 907, 1020, 1134][depth] ?? 1247;
  return (
    `<w:lvl w:ilvl="${depth}"><w:start w:val="1"/><w:numFmt w:val="decimal"/>${style}<w:suff w:val="tab"/>` +
    `<w:lvlText w:val="${text}"/><w:lvlJc w:val="left"/><w:pPr><w:ind w:left="${indent}" w:hanging="${indent}"/></w:pPr></w:lvl>`
  );
}

function listLevelXml(depth: number, format: string, text: string, runProperties: string): string {
  return (
    `<w:lvl w:ilvl="${depth}"><w:start w:val="1"/><w:numFmt w:val="${format}"/><w:lvlText w:val="${text}"/><w:lvlJc w:val="left"/>` +
    `<w:pPr><w:ind w:left="${listIndent(depth)}" w:hanging="340"/></w:pPr>${runProperties && `<w:rPr>${runProperties}</w:rPr>`}</w:lvl>`
  );
}

function listNumber(list: ListStart, number: number, levels: readonly number[]): string {
  const starts =
    list.kind === 'decimal'
      ? levels
          .map(
            (level) =>
              `<w:lvlOverride w:ilvl="${level}"><w:startOverride w:val="${list.start}"/></w:lvlOverride>`,
          )
          .join('')
      : '';
  return `<w:num w:numId="${number}"><w:abstractNumId w:val="${outlines[list.kind]}"/>${starts}</w:num>`;
}

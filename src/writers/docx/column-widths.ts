import { inlineText } from '../../document/document-text.ts';
import type { Inline, Table } from '../../document/model.ts';
import { keepTogether } from '../keep-together.ts';
import { sizes } from './look.ts';

/** Cell margins left and right with a little air, in twentieths of a point. */
const cellMargins = 2 * 85 + 40;

/**
 * Widths of a table's columns in twentieths of a point, summing to `available` exactly. Shares are the author's;
 * a column is widened where a record id, a short word or a column title's longest word would not fit, since Word
 * breaks an id at its hyphen.
 *
 * @param fontWidth how wide the font is, as a multiple of Calibri
 */
export function columnWidths(table: Table, available: number, fontWidth = 1): readonly number[] {
  const count = table.columns.length;
  const least = leastWidths(table).map((width) => Math.min(width * fontWidth, available * 0.45));
  const totalLeast = least.reduce((sum, width) => sum + width, 0);
  if (totalLeast >= available) return rounded(least, available);
  const shares = table.columns.map((column) => Math.max(0, column.width));
  const totalShares = shares.reduce((sum, share) => sum + share, 0);
  const fair = totalShares > 0 ? shares.map((share) => share / totalShares) : shares.map(() => 1 / count);
  const wished = fair.map((share, column) => Math.max(share * available, least[column] ?? 0));
  // What the widened columns take too much is taken from the room that the others have above their least width.
  const over = wished.reduce((sum, width) => sum + width, 0) - available;
  const spare = wished.map((width, column) => width - (least[column] ?? 0));
  const totalSpare = spare.reduce((sum, width) => sum + width, 0);
  const widths = wished.map((width, column) =>
    totalSpare > 0 ? width - (over * (spare[column] ?? 0)) / totalSpare : width,
  );
  return rounded(widths, available);
}

/** Fonts whose letters are about as wide as those of Calibri. */
const narrow =
  /^(?:calibri|carlito|times new roman|liberation serif|tinos|garamond|eb garamond|aptos narrow|arial narrow)$/i;

/** How wide a font is as a multiple of Calibri, at the upper end: DejaVu Sans is one of the widest, with 1.25. */
export const fontWidthOf = (font: string | undefined): number =>
  font === undefined || narrow.test(font) ? 1 : 1.25;

function rounded(widths: readonly number[], available: number): readonly number[] {
  const total = widths.reduce((sum, width) => sum + width, 0);
  const ends: number[] = [];
  let end = 0;
  for (const width of widths) {
    end += (width / total) * available;
    ends.push(Math.round(end));
  }
  return ends.map((each, column) => each - (ends[column - 1] ?? 0));
}

/** Words up to this length are kept whole; a longer one may break, unless it is a record id. */
const longestWholeWord = 14;

function leastWidths(table: Table): readonly number[] {
  const least = table.columns.map((column) => widestWord(column.title.split(/\s+/), true));
  // rowsLeft[c] is how many rows column c is still covered by the cell above.
  const rowsLeft = table.columns.map(() => 0);
  for (const row of table.rows) {
    let next = 0;
    for (let column = 0; column < rowsLeft.length; column += 1) {
      if ((rowsLeft[column] ?? 0) === 0) {
        const cell = row.cells[next];
        next += 1;
        rowsLeft[column] = cell?.rowSpan ?? 1;
        if (cell !== undefined) least[column] = Math.max(least[column] ?? 0, widestPart(cell.children));
      }
      rowsLeft[column] = (rowsLeft[column] ?? 1) - 1;
    }
  }
  return least.map((width) => width + cellMargins);
}

function widestPart(children: readonly Inline[]): number {
  let widest = 0;
  for (const child of children) {
    const bold = child.kind === 'text' && (child.bold === true || child.tone !== undefined);
    const width =
      child.kind === 'record-reference'
        ? wordWidth(child.id, false)
        : widestShortWord(keepTogether(child.kind === 'text' ? child.value : inlineText([child])), bold);
    widest = Math.max(widest, width);
  }
  return widest;
}

function widestWord(words: readonly string[], bold: boolean): number {
  return Math.max(0, ...words.map((word) => wordWidth(word, bold)));
}

/** The widest of the words of a text that are kept whole. A large table has a million characters, so none is copied. */
function widestShortWord(text: string, bold: boolean): number {
  let widest = 0;
  let thousandths = 0;
  let length = 0;
  for (let index = 0; index <= text.length; index += 1) {
    const code = index === text.length ? space : text.charCodeAt(index);
    if (code === space || isOtherSpace(code)) {
      if (length <= longestWholeWord && thousandths > widest) widest = thousandths;
      thousandths = 0;
      length = 0;
    } else {
      // The second half of a surrogate pair takes no room of its own.
      if (code < 0xdc00 || code > 0xdfff) thousandths += widthOfCode[code] ?? 1000;
      length += 1;
    }
  }
  return inTwentieths(widest, bold);
}

const space = 32;
const noBreakSpace = 0xa0;
const isOtherSpace = (code: number): boolean =>
  (code < space && code >= 9 && code <= 13) ||
  (code > 126 && code !== noBreakSpace && /\s/.test(String.fromCharCode(code)));

/** Advance widths in thousandths of an em, by class of character, at the upper end of what Calibri has. */
const classes: readonly (readonly [RegExp, number])[] = [
  [/[ijl.,:;'|!]/, 270],
  [/[ft()[\]\-/ I]/, 350],
  [/[mwMW@%]/, 880],
  [/[A-Z&]/, 630],
  [/[ -\u024f]/, 530],
];

/** Widths of the characters up to U+024F, by code: a large table has a million of them. */
const widthOfCode: readonly number[] = Array.from(
  { length: 0x250 },
  (_, code) => classes.find(([pattern]) => pattern.test(String.fromCodePoint(code)))?.[1] ?? 1000,
);

function wordWidth(word: string, bold: boolean): number {
  let thousandths = 0;
  for (const character of word) thousandths += widthOfCode[character.codePointAt(0) ?? 0] ?? 1000;
  return inTwentieths(thousandths, bold);
}

const inTwentieths = (thousandths: number, bold: boolean): number => {
  const em = (sizes.table / 2) * 20;
  return Math.ceil((thousandths / 1000) * em * (bold ? 1.05 : 1));
};

import stringWidth from 'string-width';
import { printable } from './printable.ts';

export interface Excerpt {
  readonly line: string;
  /** Blanks and marks that stand below the place. */
  readonly before: string;
  readonly marks: string;
}

/** Columns that are kept before the place where a line is cut at its start. */
const columnsBefore = 20;

/** Whether an offset lies between the two halves of one character. */
const splitsCharacter = (source: string, offset: number): boolean =>
  /^[\udc00-\udfff]/.test(source.slice(offset, offset + 1)) &&
  /[\ud800-\udbff]$/.test(source.slice(Math.max(0, offset - 1), offset));

const widthOf = (text: string): number => stringWidth(printable(text));

/** Offset up to which the text from `from` on fits into `room` columns. */
const fits = (source: string, from: number, room: number): number => {
  let offset = from;
  let width = 0;
  for (const character of source.slice(from, from + 2 * room + 2)) {
    width += widthOf(character);
    if (width > room) break;
    offset += character.length;
  }
  return offset;
};

/** Offset from which on the text up to `to` takes at most `room` columns. */
const fitsBefore = (source: string, to: number, room: number): number => {
  const characters = [...source.slice(Math.max(0, to - 2 * room - 2), to)].reverse();
  let offset = to;
  let width = 0;
  for (const character of characters) {
    width += widthOf(character);
    if (width > room) break;
    offset -= character.length;
  }
  return offset;
};

/** A line of a file cut to `room` columns around a place, which is given in UTF-16 code units from 1. */
export const excerptOf = (
  source: string,
  column: number,
  endColumn: number | undefined,
  room: number,
): Excerpt => {
  const given = Math.min(column - 1, source.length);
  const place = splitsCharacter(source, given) ? given - 1 : given;
  // A place far to the right is not measured from the start of the line, which can be megabytes long.
  const isNear = place <= room && widthOf(source.slice(0, place)) <= room - 10;
  const from = isNear ? 0 : fitsBefore(source, place, Math.min(columnsBefore, room - 10));
  const lead = from > 0 ? '…' : '';
  const whole = fits(source, from, room - lead.length);
  const until = whole === source.length ? whole : fits(source, from, room - lead.length - 1);
  const end = Math.min(endColumn === undefined ? place + 1 : endColumn - 1, until);
  return {
    line: `${lead}${printable(source.slice(from, until))}${until < source.length ? '…' : ''}`,
    before: ' '.repeat(stringWidth(lead) + widthOf(source.slice(from, place))),
    marks: '~'.repeat(Math.max(1, widthOf(source.slice(place, end)))),
  };
};

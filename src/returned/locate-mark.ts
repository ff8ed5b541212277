import type { Place } from '../findings/finding.ts';
import { placeOf, type TechnicalRecord } from '../records/record.ts';
import type { ReviewMark } from './review-marks.ts';

/** Where in the technical file a mark wants to be answered. */
export interface LocatedMark {
  readonly mark: ReviewMark;
  /** Id of the record; undefined where neither the file nor its text tells. */
  readonly record?: string;
  /** The line with the words that the mark is on, else the start of the record. */
  readonly place?: Place;
}

export interface LocateContext {
  readonly recordOfBookmark: (bookmark: string) => TechnicalRecord | undefined;
  /** The document record that the Word file was compiled from. */
  readonly document: TechnicalRecord | undefined;
  /** Text of a record's file. */
  readonly textOf: (record: TechnicalRecord) => string;
  /** Records named in a text, each once. */
  readonly recordsNamedIn: (text: string) => readonly TechnicalRecord[];
}

/** Shorter passages say too little to be looked for. */
const shortestPassage = 4;

/**
 * Traces a mark home. Within a record's text it belongs to that record. In a table row, the record that the paragraph
 * itself names comes first, where it names one alone. After a record it belongs to the document, where the
 * document's own prose holds the words; else to that record.
 */
export const locateMark = (mark: ReviewMark, context: LocateContext): LocatedMark => {
  const { place } = mark;
  const words = mark.kind === 'comment' ? [mark.passage, place.paragraph] : [mark.text, place.paragraph];
  const beside = place.bookmark === undefined ? undefined : context.recordOfBookmark(place.bookmark);
  const named = place.nearness === 'within' ? [] : context.recordsNamedIn(place.paragraph);
  const [only, another] = named;
  const candidates = [
    ...(place.nearness === 'row' && only && !another ? [only] : []),
    ...(place.nearness === 'after' || place.nearness === 'none' ? [context.document] : []),
    beside,
    context.document,
  ].filter((record) => record !== undefined);
  for (const record of candidates) {
    const found = lineWith(context.textOf(record), words);
    if (found !== undefined)
      return { mark, record: record.id, place: { file: record.file, line: found, column: 1 } };
  }
  const record = place.nearness === 'row' && only && !another ? only : (beside ?? context.document);
  return record ? { mark, record: record.id, place: placeOf(record, 'id') } : { mark };
};

/** Without marks of Markdown and with single blanks, so that compiled and written text can be compared. */
const plain = (text: string): string =>
  text
    .replace(/[*_`"\u201c\u201d\u2018\u2019'|\\]/g, '')
    .replace(/\s+/g, ' ')
    .trim()
    .toLowerCase();

/** The line on which the first of the texts starts that the file holds, counted from 1. */
const lineWith = (file: string, texts: readonly string[]): number | undefined => {
  const lines = file.split('\n').map(plain);
  for (const text of texts) {
    const wanted = plain(text);
    if (wanted.length < shortestPassage) continue;
    const whole = lines.findIndex((line) => line.includes(wanted));
    if (whole !== -1) return whole + 1;
    // A passage over several lines of the file: the line on which its first words stand and the rest follows.
    const broken = lines.findIndex((line, index) => {
      if (line.length < shortestPassage) return false;
      const stretch = lines
        .slice(index, index + 12)
        .join(' ')
        .replace(/\s+/g, ' ');
      const at = stretch.indexOf(wanted);
      return at !== -1 && at < line.length;
    });
    if (broken !== -1) return broken + 1;
  }
  return undefined;
};

import type { Place } from '../findings/finding.ts';
import { placeOf, type TechnicalRecord } from '../records/record.ts';
import { lineInSource } from './line-in-source.ts';
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

/**
 * Traces a mark home. Within a record's text it belongs to that record. In a table row, the record that the paragraph
 * itself names comes first, where it names one alone. After a record it belongs to the document, where the
 * document's own prose holds the words; else to that record.
 */
export const locateMark = (mark: ReviewMark, context: LocateContext): LocatedMark => {
  const { place } = mark;
  const passage = mark.kind === 'comment' ? mark.passage : mark.text;
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
    const found = lineInSource(context.textOf(record), place.paragraph, passage);
    if (found !== undefined)
      return { mark, record: record.id, place: { file: record.file, line: found, column: 1 } };
  }
  const record = place.nearness === 'row' && only && !another ? only : (beside ?? context.document);
  return record ? { mark, record: record.id, place: placeOf(record, 'id') } : { mark };
};

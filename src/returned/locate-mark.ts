import type { Place } from '../findings/finding.ts';
import { placeOf, type TechnicalRecord } from '../records/record.ts';
import { lineByNeighbours, type Neighbourhood, wantedOf } from './line-by-neighbours.ts';
import { readSource } from './line-in-source.ts';
import type { FlowParagraph, ReviewMark } from './review-marks.ts';

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

type ReadSource = Pick<Neighbourhood, 'source' | 'known'>;

const startOf = (record: TechnicalRecord): Place => placeOf(record, 'id');

/**
 * Makes what traces marks home. Within a record's text a mark belongs to that record. In a row that stands in the
 * document's own source it belongs there; in another row the record that the paragraph itself names comes first, where
 * it names one alone. What follows a record, outside of its text, belongs to the document.
 */
export const createLocator = (context: LocateContext): ((mark: ReviewMark) => LocatedMark) => {
  const sources = new Map<string, ReadSource>();
  const sourceOf = (record: TechnicalRecord): ReadSource => {
    const source = sources.get(record.file) ?? {
      source: readSource(context.textOf(record)),
      known: new Map(),
    };
    sources.set(record.file, source);
    return source;
  };
  return (mark) => locate(mark, context, sourceOf);
};

const locate = (
  mark: ReviewMark,
  context: LocateContext,
  sourceOf: (record: TechnicalRecord) => ReadSource,
): LocatedMark => {
  const { nearness, bookmark, paragraph, flow } = mark.place;
  const { document } = context;
  const passage = mark.kind === 'comment' ? mark.passage : mark.text;
  const beside = bookmark === undefined ? undefined : context.recordOfBookmark(bookmark);
  const at = (record: TechnicalRecord, line: number | undefined): LocatedMark => ({
    mark,
    record: record.id,
    place: line === undefined ? startOf(record) : { file: record.file, line, column: 1 },
  });
  if (!flow) return document ? at(document, undefined) : { mark };
  const wanted = wantedOf(
    flow.paragraphs[flow.index] ?? { text: paragraph, form: 'text', nearness },
    passage,
  );
  const inRecord = (record: TechnicalRecord, belongs: (each: FlowParagraph) => boolean): number | undefined =>
    lineByNeighbours(flow.index, passage, {
      flow: flow.paragraphs,
      ...sourceOf(record),
      belongs,
      drawsViews: false,
    });
  const inDocument = (): number | undefined =>
    document &&
    lineByNeighbours(flow.index, passage, {
      flow: flow.paragraphs,
      ...sourceOf(document),
      belongs: (each) => each.nearness !== 'within',
      drawsViews: true,
    });
  if (nearness === 'within' && beside) {
    const own = inRecord(beside, (each) => each.nearness === 'within' && each.bookmark === bookmark);
    if (own !== undefined) return at(beside, own);
    const [found] = document ? sourceOf(document).source.sure(wanted) : [];
    return document && found && !found.unit.isFrontMatter ? at(document, found.line) : at(beside, undefined);
  }
  if (nearness === 'row') {
    const [written] = document ? sourceOf(document).source.rows(wanted) : [];
    if (document && written) return at(document, inDocument() ?? written.line);
    const [only, another] = context.recordsNamedIn(paragraph);
    const named = only && !another ? only : undefined;
    for (const record of [named, beside]) {
      const line = record && inRecord(record, (each) => each === flow.paragraphs[flow.index]);
      if (record && line !== undefined) return at(record, line);
    }
    const record = named ?? beside;
    if (record) return at(record, undefined);
  }
  return document ? at(document, inDocument()) : beside ? at(beside, undefined) : { mark };
};

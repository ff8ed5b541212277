import { inlineText } from '../document/document-text.ts';
import type { Document, FileLink } from '../document/model.ts';
import { forEachBlock } from '../document/numbering.ts';
import { compareIds } from '../graph/trace-graph.ts';
import type { RecordOf } from '../records/record.ts';
import { deliverableName } from '../submission/deliverable-name.ts';
import type { CompiledDocument } from './compile-document.ts';

/** The document that shows a record best, as a controlled document: what a reader has to ask for. */
export interface RecordPlace {
  readonly document: RecordOf<'document'>;
  readonly number: string;
  readonly title: string;
  readonly revision: string;
  readonly status: string;
  /** Opens the document. */
  readonly file: Pick<FileLink, 'path' | 'inHtml'>;
  /** All headings of the document, in its order. */
  readonly headings: readonly {
    readonly words: string;
    readonly level: number;
    readonly anchor?: string;
  }[];
}

export type RecordPlaces = ReadonlyMap<string, RecordPlace>;

/**
 * How well a document shows a record: written for it, told with its particulars, under a heading, in a row, or only named
 * in a list.
 */
type Rank = 0 | 1 | 2 | 3 | 4;

const formatsOf = (document: RecordOf<'document'>): readonly string[] => document.fields.formats ?? ['docx'];

/** The letters of an id tell its record type. */
const kindOf = (id: string): string => id.split('-', 1)[0] ?? '';

/** Records that have a bookmark in a document, with how they are shown there. */
const shownIn = ({ document, each, namesOnly }: CompiledDocument): ReadonlyMap<string, Rank> => {
  const shown = new Map<string, Rank>();
  const put = (id: string | undefined, rank: Rank): void => {
    if (id !== undefined && rank < (shown.get(id) ?? 5)) shown.set(id, id === each?.id ? 0 : rank);
  };
  let opened: string | undefined;
  forEachBlock(document.blocks, (block) => {
    const isList = namesOnly.has(block);
    if (block.kind === 'heading') opened = block.recordId;
    if (block.kind === 'particulars') put(opened, isList ? 4 : 1);
    else if (block.kind === 'table') for (const row of block.rows) put(row.recordId, isList ? 4 : 3);
    else if ('recordId' in block) put(block.recordId, isList ? 4 : 2);
  });
  return shown;
};

/** Where a link to the document leads; undefined where it is written neither as a Word file nor as a page. */
const fileOf = ({ record, each }: CompiledDocument): RecordPlace['file'] | undefined => {
  const formats = formatsOf(record);
  const name = deliverableName(record, each);
  const page = formats.includes('html') ? `${name}.html` : undefined;
  const path = formats.includes('docx') ? `${name}.docx` : page;
  return path === undefined ? undefined : { path, ...(page === undefined ? {} : { inHtml: page }) };
};

const placeIn = (compiled: CompiledDocument): RecordPlace | undefined => {
  const { record, document } = compiled;
  const file = fileOf(compiled);
  const { number, title, revision, status } = document;
  return file && { document: record, number, title, revision, status, file, headings: headingsOf(document) };
};

const headingsOf = ({ blocks }: Document): RecordPlace['headings'] => {
  const found: RecordPlace['headings'][number][] = [];
  forEachBlock(blocks, (block) => {
    if (block.kind === 'heading')
      found.push({
        words: inlineText(block.children),
        level: block.level,
        ...(block.anchor === undefined ? {} : { anchor: block.anchor }),
      });
  });
  return found;
};

/**
 * Where each record is shown. Of several documents the one counts that was written for the record, then one that tells
 * its particulars, then one that gives it a heading, then one that has a row for it, then one that only lists it; among
 * equals the one that shows the most records of its kind, then the one with the lowest id.
 *
 * @param format only documents that are written in this format
 */
export const recordPlaces = (
  documents: readonly CompiledDocument[],
  format?: 'docx' | 'html',
): RecordPlaces => {
  const best = new Map<
    string,
    { readonly rank: Rank; readonly alike: number; readonly place: RecordPlace }
  >();
  const sorted = [...documents]
    .filter(({ record }) => format === undefined || formatsOf(record).includes(format))
    .sort((a, b) => compareIds(a.document.id, b.document.id));
  for (const compiled of sorted) {
    const shown = shownIn(compiled);
    const place = placeIn(compiled);
    if (!place) continue;
    const kinds = new Map<string, number>();
    for (const id of shown.keys()) kinds.set(kindOf(id), (kinds.get(kindOf(id)) ?? 0) + 1);
    for (const [id, rank] of shown) {
      const known = best.get(id);
      const alike = kinds.get(kindOf(id)) ?? 0;
      if (known && (known.rank < rank || (known.rank === rank && known.alike >= alike))) continue;
      best.set(id, { rank, alike, place });
    }
    // A document is shown by itself.
    if (!compiled.each) best.set(compiled.record.id, { rank: 0, alike: Number.POSITIVE_INFINITY, place });
  }
  return new Map([...best].map(([id, { place }]) => [id, place]));
};

/**
 * The same documents with links between them: a reference to a record that a document does not show leads to the one
 * that does. All documents must be given, though not all need be written.
 */
export const linkDocuments = (documents: readonly CompiledDocument[]): readonly CompiledDocument[] => {
  const inWord = recordPlaces(documents, 'docx');
  const inHtml = recordPlaces(documents, 'html');
  const whole = new Set(documents.flatMap(({ record, each }) => (each ? [] : [record.id])));
  const elsewhere: NonNullable<Document['elsewhere']> = new Map(
    [...inWord, ...inHtml].map(([id]) => {
      const page = inHtml.get(id)?.file.inHtml;
      const path = inWord.get(id)?.file.path ?? page ?? '';
      return [id, { path, ...(page === undefined ? {} : { inHtml: page }), opensWhole: whole.has(id) }];
    }),
  );
  return documents.map((compiled) => ({ ...compiled, document: { ...compiled.document, elsewhere } }));
};

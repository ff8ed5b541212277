import { recordBookmark } from '../document/anchors.ts';
import type { Analysis } from '../pipeline.ts';
import { decodeText } from '../records/decode.ts';
import type { TechnicalRecord } from '../records/record.ts';
import type { LocateContext } from '../returned/locate-mark.ts';
import { documentRecord } from './document-record.ts';

/** Where the marks of a returned file can be traced to: the records as they are now. `document` is the id that the file names. */
export const contextOf = (document: string | undefined, { graph, files }: Analysis): LocateContext => {
  const byBookmark = new Map(
    [...graph.records.values()].map((record) => [recordBookmark(record.id), record]),
  );
  const textOf = (record: TechnicalRecord): string => {
    const decoded = decodeText(files.get(record.file)?.bytes ?? new Uint8Array());
    return decoded.ok ? decoded.text : '';
  };
  return {
    recordOfBookmark: (bookmark) => byBookmark.get(bookmark),
    document: document === undefined ? undefined : documentRecord(graph, document),
    textOf,
    recordsNamedIn: (text) => [
      ...new Set(
        (text.match(/[A-Z]{2,5}-[A-Za-z0-9.-]{0,30}[A-Za-z0-9]/g) ?? []).flatMap(
          (id) => graph.record(id) ?? [],
        ),
      ),
    ],
  };
};

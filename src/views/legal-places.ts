import type { LegalRow } from '../graph/legal-rows.ts';
import { compareIds } from '../graph/trace-graph.ts';
import type { RecordPlace } from './record-places.ts';
import type { ViewContext } from './view.ts';

/** The evidence of rows by the document that shows it. */
export const evidencePlaces = (
  rows: readonly LegalRow[],
  { placeOf }: ViewContext,
): {
  readonly held: readonly { readonly place: RecordPlace; readonly records: readonly string[] }[];
  /** Records that no document shows. */
  readonly recordsOnly: readonly string[];
} => {
  const ids = [...new Set(rows.flatMap((row) => row.evidence.map(({ record }) => record)))].sort(compareIds);
  const held = new Map<string, { readonly place: RecordPlace; readonly records: string[] }>();
  const recordsOnly: string[] = [];
  for (const id of ids) {
    const place = placeOf(id);
    if (!place) {
      recordsOnly.push(id);
      continue;
    }
    const entry = held.get(place.number) ?? { place, records: [] };
    entry.records.push(id);
    held.set(place.number, entry);
  }
  return {
    held: [...held.values()].sort((a, b) => compareIds(a.place.file.path, b.place.file.path)),
    recordsOnly,
  };
};

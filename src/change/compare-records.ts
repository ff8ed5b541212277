import type { Place } from '../findings/finding.ts';
import { compareIds } from '../graph/trace-graph.ts';
import { placeOf, type TechnicalRecord } from '../records/record.ts';
import { compareValues, type ValueChange } from './compare-values.ts';
import { compareWords, type ParagraphChange } from './compare-words.ts';
import type { FileState } from './file-state.ts';

/** What became of one record between two states. */
export interface RecordChange {
  readonly id: string;
  readonly type: string;
  readonly title: string;
  readonly kind: 'added' | 'removed' | 'changed';
  /** The digest differs: what was approved is no longer what is there. False where only the status changed. */
  readonly isNormative: boolean;
  readonly statusBefore?: string;
  readonly statusAfter?: string;
  readonly fields: readonly ValueChange[];
  readonly body: readonly ParagraphChange[];
  /** In the later state; in the earlier one for a record that was removed. */
  readonly place: Place;
}

/** Front matter of a record without what is not normative. */
const normative = (record: TechnicalRecord, informative: ReadonlySet<string>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(record.fields).filter(([name]) => !informative.has(name)));

const alwaysInformative: ReadonlySet<string> = new Set(['status', 'approvals']);

/** What differs in the normative content of two states of one record. */
export const compareContent = (
  before: TechnicalRecord,
  after: TechnicalRecord,
  informative: ReadonlySet<string> = alwaysInformative,
): { readonly fields: readonly ValueChange[]; readonly body: readonly ParagraphChange[] } => ({
  fields: compareValues(
    { value: normative(before, informative), written: (path) => before.yaml.written(path) },
    { value: normative(after, informative), written: (path) => after.yaml.written(path) },
  ),
  body: compareWords(before.body, after.body).map((change) => ({
    ...change,
    line: change.line + after.bodyLine - 1,
  })),
});

/** Records that were added, removed or changed, in order of id. A record that was only moved to another file is not among them. */
export const compareRecords = (before: FileState, after: FileState): readonly RecordChange[] => {
  const ids = [...new Set([...before.graph.records.keys(), ...after.graph.records.keys()])].sort(compareIds);
  return ids.flatMap((id): readonly RecordChange[] => {
    const old = before.graph.record(id);
    const now = after.graph.record(id);
    const record = now ?? old;
    if (!record) return [];
    const about = { id, type: record.type, title: record.title, place: placeOf(record) };
    if (!old || !now)
      return [
        {
          ...about,
          kind: old ? 'removed' : 'added',
          isNormative: true,
          ...(old ? { statusBefore: old.status } : {}),
          ...(now ? { statusAfter: now.status } : {}),
          fields: [],
          body: [],
        },
      ];
    const isNormative = before.approvals.digests.get(id) !== after.approvals.digests.get(id);
    if (!isNormative && old.status === now.status) return [];
    return [
      {
        ...about,
        kind: 'changed',
        isNormative,
        statusBefore: old.status,
        statusAfter: now.status,
        ...(isNormative
          ? compareContent(old, now, after.graph.types.get(now.type)?.informative)
          : { fields: [], body: [] }),
      },
    ];
  });
};

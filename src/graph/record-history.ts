import type { RecordFields } from '../records/fields.ts';
import { readSingleRecord } from '../records/read-records.ts';
import type { TechnicalRecord } from '../records/record.ts';
import type { SchemaSet } from '../records/schema-set.ts';
import { recordDigest } from './digest.ts';

/** A commit, as reports name it. `date` is the day on which it was made. */
export interface CommitFacts {
  readonly id: string;
  readonly date: string;
  readonly author: string;
  readonly subject: string;
  /** It has more than one parent. */
  readonly isMerge: boolean;
}

/** A Markdown file as one commit left it; without bytes where the commit removed it. */
export interface PastFile {
  readonly commit: CommitFacts;
  readonly path: string;
  readonly bytes?: Uint8Array;
}

/** The history of a technical file as far as it is at hand, oldest first. */
export interface FileHistory {
  readonly files: readonly PastFile[];
  /** Commits at which a clone with only part of the history begins: what they show may be older. Empty for a whole one. */
  readonly cutAt: ReadonlySet<string>;
}

/** What is known of the past of a technical file. */
export type RecordHistories =
  | {
      readonly known: true;
      /** Oldest first. */
      of(id: string): readonly RecordState[];
      readonly cutAt: ReadonlySet<string>;
    }
  | { readonly known: false; readonly reason: string };

/** A record as one commit left it. */
export interface RecordState {
  readonly commit: CommitFacts;
  readonly record: TechnicalRecord;
  readonly digest: string;
}

/**
 * States of records, oldest first. A record is followed by its id, whatever its file is called. A merge that only
 * brings in what a branch had already is no state of its own.
 */
export const recordHistories = (
  history: FileHistory,
  schemas: SchemaSet,
): ReadonlyMap<string, readonly RecordState[]> => {
  const histories = new Map<string, RecordState[]>();
  for (const { commit, path, bytes } of history.files) {
    const record = bytes && readSingleRecord({ path, bytes }, schemas);
    if (!record) continue;
    const digest = recordDigest(record, schemas.types.get(record.type));
    const states = histories.get(record.id) ?? [];
    if (commit.isMerge && states.some((state) => isSameState(state.record, record, state.digest, digest)))
      continue;
    states.push({ commit, record, digest });
    histories.set(record.id, states);
  }
  return histories;
};

const isSameState = (a: TechnicalRecord, b: TechnicalRecord, digestA: string, digestB: string): boolean =>
  digestA === digestB && a.status === b.status && approvalKeys(a).join() === approvalKeys(b).join();

type Approval = NonNullable<RecordFields['approvals']>[number];

/** What makes two approvals the same entry, however it is laid out in the file. */
export const approvalKey = (approval: Approval): string =>
  JSON.stringify([
    approval.role,
    approval.name,
    approval.meaning,
    approval.date,
    approval.digest,
    approval.no_technical_effect ?? '',
    Object.entries(approval.relies_on ?? {}).sort(([a], [b]) => (a < b ? -1 : 1)),
  ]);

const approvalKeys = (record: TechnicalRecord): readonly string[] =>
  ((record.fields['approvals'] ?? []) as readonly Approval[]).map(approvalKey);

/** The commit by which each approval of a record came into the file, by `approvalKey`. */
export const approvalCommits = (states: readonly RecordState[]): ReadonlyMap<string, CommitFacts> => {
  const commits = new Map<string, CommitFacts>();
  for (const { commit, record } of states) {
    if (!record.sound) continue;
    for (const key of approvalKeys(record)) if (!commits.has(key)) commits.set(key, commit);
  }
  return commits;
};

import { readSingleRecord } from '../records/read-records.ts';
import type { TechnicalRecord } from '../records/record.ts';
import type { SchemaSet } from '../records/schema-set.ts';
import type { SourceFile } from '../records/source-file.ts';
import type { Approvals } from './approvals.ts';
import { recordDigest } from './digest.ts';

/** Earlier contents of records by digest. */
export type PastContent = ReadonlyMap<string, TechnicalRecord>;

/** Reads earlier states of records, as the host found them. */
export const readPastContent = (files: readonly SourceFile[], schemas: SchemaSet): PastContent => {
  const past = new Map<string, TechnicalRecord>();
  for (const file of files) {
    const record = readSingleRecord(file, schemas);
    if (record) past.set(recordDigest(record, schemas.types.get(record.type)), record);
  }
  return past;
};

/** Digests that lapsed approvals name and the file no longer has, by id of the record: what to look for in the history. */
export const digestsLookedFor = (approvals: Approvals): ReadonlyMap<string, ReadonlySet<string>> => {
  const wanted = new Map<string, Set<string>>();
  for (const { record, states } of approvals.all.values())
    for (const { approval, state, changed } of states)
      if (state === 'lapsed')
        for (const id of changed) {
          const digest = id === record.id ? approval.digest : approval.relies_on?.[id];
          if (digest !== undefined) wanted.set(id, (wanted.get(id) ?? new Set()).add(digest));
        }
  return wanted;
};

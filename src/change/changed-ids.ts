import type { RecordChange } from './compare-records.ts';

/**
 * Records that are no longer what others relied on: the normative content differs, or the record is gone, retired, or
 * back from being retired. Records that were added are not among them: nothing rested on them.
 */
export const changedIds = (records: readonly RecordChange[]): ReadonlyMap<string, RecordChange> =>
  new Map(
    records
      .filter(
        (change) =>
          change.kind === 'removed' ||
          (change.kind === 'changed' &&
            (change.isNormative || change.statusBefore === 'retired' || change.statusAfter === 'retired')),
      )
      .map((change) => [change.id, change]),
  );

/** What happened to a record, for the middle of a sentence. */
export const whatHappened = (change: RecordChange): string =>
  change.kind === 'removed'
    ? 'was removed'
    : change.statusAfter === 'retired' && change.statusBefore !== 'retired'
      ? 'was retired'
      : change.kind === 'added'
        ? 'is new'
        : 'changed';

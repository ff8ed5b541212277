import type { RecordOf } from '../records/record.ts';
import type { TraceGraph } from './trace-graph.ts';

export type TestRecord = RecordOf<'verification-record'> | RecordOf<'validation-record'>;

/** Verification and validation records, not retired, in order of id within each type. */
export const testRecords = (graph: TraceGraph): readonly TestRecord[] =>
  [...graph.recordsOf('verification-record'), ...graph.recordsOf('validation-record')].filter(
    (record) => record.status !== 'retired',
  );

/** Whether a record tested units made to a revision of an output. */
export const testedAt = (record: TestRecord, output: string, revision: string): boolean =>
  (record.fields.tested ?? []).some((each) => each.output === output && each.revision === revision);

/** Records that tested an output at a revision, but for those already repeated at the same revision. */
export const testsAtRevision = (
  graph: TraceGraph,
  output: string,
  revision: string,
): readonly TestRecord[] => {
  const all = testRecords(graph).filter((record) => testedAt(record, output, revision));
  return all.filter((record) => !repetitionsOf(graph, record).some((other) => all.includes(other)));
};

/**
 * Records that repeat a test: a verification record names it under `retests`; a validation record, which
 * has no such link, is repeated by a later one of the same protocol.
 */
export const repetitionsOf = (graph: TraceGraph, record: TestRecord): readonly TestRecord[] =>
  testRecords(graph).filter((other) => {
    if (other.id === record.id) return false;
    if (other.type === 'verification-record' && other.fields.retests === record.id) return true;
    return (
      record.type === 'validation-record' &&
      other.type === 'validation-record' &&
      other.fields.reports === record.fields.reports &&
      other.fields.executed.from > record.fields.executed.to
    );
  });

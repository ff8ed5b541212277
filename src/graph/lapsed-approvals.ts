import type { ApprovalState, Approvals } from './approvals.ts';
import type { TraceGraph } from './trace-graph.ts';

/** The last approval of each role that no longer fits because a given record changed. */
export const lapsedBecauseOf = (
  approvals: Approvals,
  id: string,
  changed: string,
): readonly ApprovalState[] =>
  (approvals.of(id)?.states ?? []).filter(
    (state) => state.state === 'lapsed' && state.changed.includes(changed),
  );

export interface RelyingRecord {
  readonly id: string;
  readonly state: ApprovalState;
}

/** Records, not retired, whose last approvals rely on content of `changed` that is no longer there; directly, in order of id. */
export const relyingOnOlder = (
  graph: TraceGraph,
  approvals: Approvals,
  changed: string,
): readonly RelyingRecord[] =>
  [...graph.records.values()].flatMap((record) => {
    if (record.id === changed || record.status === 'retired') return [];
    const state = lapsedBecauseOf(approvals, record.id, changed)[0];
    return state ? [{ id: record.id, state }] : [];
  });

import type { Approvals } from './approvals.ts';
import type { TraceGraph } from './trace-graph.ts';

/** A role's approval that no longer covers a record. */
export interface LapsedRole {
  readonly id: string;
  readonly role: string;
}

/** Lapsed approvals of records that are not retired, in order of id; with `because`, those that a change of that record made lapse. */
export const lapsedRoles = (
  graph: TraceGraph,
  approvals: Approvals,
  because?: string,
): readonly LapsedRole[] =>
  [...graph.records.values()]
    .filter((record) => record.status !== 'retired')
    .flatMap(({ id }) =>
      (approvals.of(id)?.states ?? [])
        .filter(
          ({ state, changed }) => state === 'lapsed' && (because === undefined || changed.includes(because)),
        )
        .map(({ approval }) => ({ id, role: approval.role })),
    );

import { compareIds } from '../graph/trace-graph.ts';
import type { FileState } from './file-state.ts';

/** A record whose standing differs. */
export interface StandingChange {
  readonly id: string;
  readonly type: string;
  readonly title: string;
  readonly before?: string;
  readonly after?: string;
  /** Why it stands as it does now. */
  readonly reason?: string;
  /** The shortest chain of ids that explains the present standing. */
  readonly because: readonly string[];
}

/** Records whose standing differs between two states, in order of id; records that are in one state only are left out. */
export const standingChanges = (before: FileState, after: FileState): readonly StandingChange[] =>
  [...after.standing]
    .sort(([a], [b]) => compareIds(a, b))
    .flatMap(([id, now]): readonly StandingChange[] => {
      const old = before.standing.get(id);
      const record = after.graph.record(id);
      if (!old || !record || record.status === 'retired' || old.state === now.state) return [];
      return [
        {
          id,
          type: record.type,
          title: record.title,
          before: old.state,
          after: now.state,
          reason: now.reason,
          because: now.because,
        },
      ];
    });

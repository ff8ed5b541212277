import type { Approval, ApprovalState } from '../graph/approvals.ts';
import { compareIds } from '../graph/trace-graph.ts';
import type { FileState } from './file-state.ts';

/** An approval that no longer covers what is there. */
export interface LapsedApproval {
  readonly id: string;
  readonly title: string;
  readonly role: string;
  readonly name: string;
  readonly date: string;
  /** Records whose content changed since: the record itself, or what it rests on. */
  readonly because: readonly string[];
  /** True where it was not lapsed in the earlier state. */
  readonly isNew: boolean;
}

const sameApproval = (a: Approval, b: Approval): boolean =>
  a.role === b.role && a.name === b.name && a.date === b.date && a.digest === b.digest;

/** The last approvals that are lapsed in the later state, by id; retired records are left out. */
export const lapsedApprovals = (before: FileState, after: FileState): readonly LapsedApproval[] =>
  [...after.graph.records.values()]
    .filter((record) => record.status !== 'retired')
    .sort((a, b) => compareIds(a.id, b.id))
    .flatMap((record) => {
      const earlier = before.approvals.of(record.id)?.states ?? [];
      const wasLapsed = (state: ApprovalState): boolean =>
        earlier.some((each) => each.state === 'lapsed' && sameApproval(each.approval, state.approval));
      return (after.approvals.of(record.id)?.states ?? [])
        .filter((state) => state.state === 'lapsed')
        .map((state) => ({
          id: record.id,
          title: record.title,
          role: state.approval.role,
          name: state.approval.name,
          date: state.approval.date,
          because: state.changed,
          isNew: !wasLapsed(state),
        }));
    });

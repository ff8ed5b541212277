import { changedIds, whatHappened } from './changed-ids.ts';
import type { RecordChange } from './compare-records.ts';
import type { FileState } from './file-state.ts';
import type { ReliancePath } from './reliance.ts';
import type { TestToRepeat } from './tests-to-repeat.ts';

/** A legal requirement whose evidence is no longer what was judged. */
export interface RequirementToReview {
  readonly id: string;
  readonly title: string;
  readonly reasons: readonly { readonly text: string; readonly path: ReliancePath }[];
}

/**
 * Legal requirements that name evidence which changed, or a protocol or record whose test is to be repeated or argued
 * anew. Only what the requirement itself names counts: everything beyond is judged where it stands.
 */
export const requirementsToReview = (
  after: FileState,
  records: readonly RecordChange[],
  tests: readonly TestToRepeat[],
): readonly RequirementToReview[] => {
  const changed = changedIds(records);
  return after.graph.recordsOf('legal-requirement').flatMap((requirement): readonly RequirementToReview[] => {
    if (requirement.status === 'retired') return [];
    const evidence = new Set(
      requirement.links.filter((link) => link.field === 'evidence').map((link) => link.to),
    );
    const reasons = [...evidence].flatMap((id) => {
      const change = changed.get(id);
      if (change) return [{ text: `its evidence ${id} ${whatHappened(change)}`, path: [requirement.id, id] }];
      return tests
        .filter((test) => test.id === id || test.protocols.includes(id))
        .map((test) => ({
          text: `its evidence ${test.id} is to be ${test.action === 'repeat' ? 'repeated' : 'argued anew'}`,
          path: [requirement.id, id, ...(test.id === id ? [] : [test.id])],
        }));
    });
    return reasons.length > 0 ? [{ id: requirement.id, title: requirement.title, reasons }] : [];
  });
};

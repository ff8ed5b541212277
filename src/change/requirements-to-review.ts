import { type LegalRow, legalRowsOf } from '../graph/legal-rows.ts';
import type { RecordOf } from '../records/record.ts';
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
 * anew, or that apply a standard whose record changed. Only what the requirement itself names counts: everything beyond
 * is judged where it stands.
 */
export const requirementsToReview = (
  after: FileState,
  records: readonly RecordChange[],
  tests: readonly TestToRepeat[],
): readonly RequirementToReview[] => {
  const changed = changedIds(records);
  return after.graph.recordsOf('legal-requirement').flatMap((requirement): readonly RequirementToReview[] => {
    if (requirement.status === 'retired') return [];
    const rows = legalRowsOf(requirement);
    const evidence = new Set(rows.flatMap((row) => row.evidence.map((each) => each.record)));
    const standards = new Set(rows.flatMap((row) => row.standards.map((each) => each.standard)));
    const of = (id: string): string => clausesWords(requirement, rows, id);
    const reasons = [
      ...[...evidence].flatMap((id) => {
        const change = changed.get(id);
        if (change)
          return [
            { text: `its evidence ${id}${of(id)} ${whatHappened(change)}`, path: [requirement.id, id] },
          ];
        return tests
          .filter((test) => test.id === id || test.protocols.includes(id))
          .map((test) => ({
            text: `its evidence ${test.id}${of(id)} is to be ${test.action === 'repeat' ? 'repeated' : 'argued anew'}`,
            path: [requirement.id, id, ...(test.id === id ? [] : [test.id])],
          }));
      }),
      ...[...standards].flatMap((id) => {
        const change = changed.get(id);
        return change && !evidence.has(id)
          ? [{ text: `the standard ${id}${of(id)} ${whatHappened(change)}`, path: [requirement.id, id] }]
          : [];
      }),
    ];
    return reasons.length > 0 ? [{ id: requirement.id, title: requirement.title, reasons }] : [];
  });
};

/** Where a requirement holds sub-clauses, those that name the record: ` (10.4.1, 10.4.2)`. */
const clausesWords = (
  { fields }: RecordOf<'legal-requirement'>,
  rows: readonly LegalRow[],
  id: string,
): string => {
  if (fields.clauses === undefined) return '';
  const naming = rows.filter(
    (row) =>
      row.evidence.some((each) => each.record === id) || row.standards.some((each) => each.standard === id),
  );
  return ` (${naming.map((row) => row.clause).join(', ')})`;
};

import type { PlinthFields } from '../records/fields.ts';
import type { ApprovalState } from './approvals.ts';

/** Two approvals that count, by one person in roles that different persons must hold. */
export interface DependentApprovers {
  readonly first: ApprovalState;
  readonly second: ApprovalState;
}

/** A name as people compare names: capital letters, blanks and ways to write an accent make no difference. */
const sameName = (a: string, b: string): boolean => plainName(a) === plainName(b);

const plainName = (name: string): string => name.normalize('NFKC').toLowerCase().replace(/\s+/g, ' ').trim();

/** Pairs of approvals that break a rule of `independence` in plinth.yaml; each pair once, in the order of the record. */
export const dependentApprovers = (
  project: PlinthFields,
  type: string,
  states: readonly ApprovalState[],
): readonly DependentApprovers[] => {
  const rules = (project.independence ?? []).filter(
    ({ types }) => types.includes('*') || types.includes(type),
  );
  const current = states.filter((state) => state.state !== 'replaced');
  return current.flatMap((second, at) =>
    current
      .slice(0, at)
      .filter(
        (first) =>
          first.approval.role !== second.approval.role &&
          sameName(first.approval.name, second.approval.name) &&
          rules.some(
            ({ roles }) => roles.includes(first.approval.role) && roles.includes(second.approval.role),
          ),
      )
      .map((first) => ({ first, second })),
  );
};

import type { PlinthFields } from '../records/fields.ts';
import type { TechnicalRecord } from '../records/record.ts';
import type { ApprovalSignature, Signatures } from './approval-signatures.ts';
import type { ApprovalState, Approvals } from './approvals.ts';

/** An approval that signed mode asks to be signed, and what git says of it. */
export interface SignedApproval {
  readonly record: TechnicalRecord;
  readonly state: ApprovalState;
  readonly signature: ApprovalSignature;
}

/** Whether an approval came in since a day: by its own date, or by that of the commit that brought it in, since anybody can write an earlier date. */
const isSince = (since: string, { approval }: ApprovalState, { commit, isCut }: ApprovalSignature): boolean =>
  approval.date >= since || (commit !== undefined && !isCut && commit.date >= since);

/** The last approval of each role since signed mode holds, on records that are not retired; none where nothing was checked. */
export const signedApprovals = ({
  approvals,
  project,
  signatures,
}: {
  readonly approvals: Approvals;
  readonly project: { readonly fields: PlinthFields };
  readonly signatures?: Signatures;
}): readonly SignedApproval[] => {
  const since = project.fields.signatures?.since;
  if (since === undefined || !signatures?.checked) return [];
  return [...approvals.all.values()].flatMap(({ record, states }) =>
    record.status === 'retired'
      ? []
      : states
          .filter((state) => state.state !== 'replaced')
          .map((state) => ({ record, state, signature: signatures.of(record.id, state.index) }))
          .filter(({ state, signature }) => isSince(since, state, signature)),
  );
};

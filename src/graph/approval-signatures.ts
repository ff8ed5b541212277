import type { Approvals } from './approvals.ts';
import { approvalCommits, approvalKey, type CommitFacts, type RecordState } from './record-history.ts';

/** What git says of a commit's signature, in the host's words. */
export interface SignatureFacts {
  readonly state: 'good' | 'unsigned' | 'untrusted' | 'bad' | 'unchecked';
  readonly signer?: string;
  readonly fingerprint?: string;
}

/** How an approval came into the file. */
export interface ApprovalSignature {
  /** Undefined where no commit holds the approval yet. */
  readonly commit?: CommitFacts;
  readonly signature?: SignatureFacts;
  /** The commit is the first one of a shallow clone: the approval may have come in before. */
  readonly isCut?: boolean;
}

/** What is known of signatures: of each approval, or why nothing is. */
export type Signatures =
  | { readonly checked: true; of(id: string, index: number): ApprovalSignature }
  | { readonly checked: false; readonly reason: string };

/** Commits by which the approvals in the file came in, each once: whose signatures are to be checked. */
export const commitsToCheck = (
  approvals: Approvals,
  histories: ReadonlyMap<string, readonly RecordState[]>,
): readonly string[] => {
  const ids = new Set<string>();
  for (const { record, states } of approvals.all.values()) {
    const commits = approvalCommits(histories.get(record.id) ?? []);
    for (const { approval } of states) {
      const commit = commits.get(approvalKey(approval));
      if (commit) ids.add(commit.id);
    }
  }
  return [...ids];
};

/** Puts approvals, their commits and the signatures of these together. */
export const approvalSignatures = (
  approvals: Approvals,
  histories: ReadonlyMap<string, readonly RecordState[]>,
  signatureOf: ReadonlyMap<string, SignatureFacts>,
  firstCommits: ReadonlySet<string>,
): Signatures => {
  const byRecord = new Map(
    [...approvals.all.values()].map(({ record, states }) => {
      const commits = approvalCommits(histories.get(record.id) ?? []);
      return [
        record.id,
        states.map(({ approval }): ApprovalSignature => {
          const commit = commits.get(approvalKey(approval));
          const signature = commit && signatureOf.get(commit.id);
          return {
            ...(commit ? { commit } : {}),
            ...(signature ? { signature } : {}),
            ...(commit && firstCommits.has(commit.id) ? { isCut: true } : {}),
          };
        }),
      ] as const;
    }),
  );
  return { checked: true, of: (id, index) => byRecord.get(id)?.[index] ?? {} };
};

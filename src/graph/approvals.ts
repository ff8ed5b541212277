import type { PlinthFields, RecordFields } from '../records/fields.ts';
import type { TechnicalRecord } from '../records/record.ts';
import { recordDigest } from './digest.ts';
import { compareIds, type TraceGraph } from './trace-graph.ts';
import { wordingDigests, wordsTakenIn } from './wording-digests.ts';

export type Approval = NonNullable<RecordFields['approvals']>[number];

export interface ApprovalState {
  readonly approval: Approval;
  readonly index: number;
  /** `replaced`: the same role approved again later. */
  readonly state: 'in force' | 'lapsed' | 'replaced';
  /** Ids whose content is no longer what was approved: the record itself, or what it relies on, wordings among it. */
  readonly changed: readonly string[];
}

export interface RecordApprovals {
  readonly record: TechnicalRecord;
  readonly states: readonly ApprovalState[];
  /** Roles of plinth.yaml that have not approved. */
  readonly missingRoles: readonly string[];
  /** All required roles approved and each one's last approval is in force. */
  readonly inForce: boolean;
  /** What made the last approvals lapse, without repeats. */
  readonly changed: readonly string[];
}

export interface Approvals {
  /** Of records by their ids, and of the wordings of plinth.yaml by their keys. */
  readonly digests: ReadonlyMap<string, string>;
  of(id: string): RecordApprovals | undefined;
  readonly all: ReadonlyMap<string, RecordApprovals>;
}

/** Roles that must approve a record of a type. */
export const requiredRoles = (project: PlinthFields, type: string): readonly string[] => {
  const roles = project.approval_roles ?? {};
  // A record of an unknown type may be called "constructor".
  return (Object.hasOwn(roles, type) ? roles[type] : roles['*']) ?? [];
};

/** Ids that a record names, but only over links by which it does not rely on them. */
const notReliedOn = (record: TechnicalRecord): ReadonlySet<string> => {
  const relied = new Set(reliedOn(record));
  return new Set(record.links.flatMap((link) => (relied.has(link.to) ? [] : [link.to])));
};

/**
 * What a record rests on, in order: an approval stores a digest of each. These are the records that it links, and the
 * claims and wordings that the sentences of a document take in (`wording-digests.ts`).
 */
export const reliedOn = (record: TechnicalRecord): readonly string[] =>
  [
    ...new Set([
      ...record.links.filter((link) => link.relies).map((link) => link.to),
      ...wordsTakenIn(record),
    ]),
  ].sort(compareIds);

/** State of every approval: the digests stored in it compared with the content as it is now. */
export const assessApprovals = (graph: TraceGraph, project: PlinthFields): Approvals => {
  const digests = new Map([
    ...[...graph.records.values()].map(
      (record) => [record.id, recordDigest(record, graph.types.get(record.type))] as const,
    ),
    ...wordingDigests(project),
  ]);
  const all = new Map<string, RecordApprovals>();
  for (const record of graph.records.values()) {
    const ignored = notReliedOn(record);
    const approvals = record.sound ? ((record.fields['approvals'] ?? []) as readonly Approval[]) : [];
    const states = approvals.map((approval, index): ApprovalState => {
      const replaced = approvals.some(
        (other, at) =>
          at !== index &&
          other.role === approval.role &&
          (other.date > approval.date || (other.date === approval.date && at > index)),
      );
      const changed = [
        ...(approval.digest === digests.get(record.id) ? [] : [record.id]),
        ...Object.entries(approval.relies_on ?? {}).flatMap(([id, digest]) =>
          digests.get(id) === digest || ignored.has(id) ? [] : [id],
        ),
        // A link drawn after the approval is a change of the record itself, so the record's own digest tells of it.
      ];
      return {
        approval,
        index,
        state: replaced ? 'replaced' : changed.length === 0 ? 'in force' : 'lapsed',
        changed,
      };
    });
    const current = states.filter((state) => state.state !== 'replaced');
    const missingRoles = requiredRoles(project, record.type).filter(
      (role) => !current.some((state) => state.approval.role === role),
    );
    all.set(record.id, {
      record,
      states,
      missingRoles,
      inForce:
        current.length > 0 &&
        missingRoles.length === 0 &&
        current.every((state) => state.state === 'in force'),
      changed: [...new Set(current.flatMap((state) => state.changed))],
    });
  }
  return { digests, all, of: (id) => all.get(id) };
};

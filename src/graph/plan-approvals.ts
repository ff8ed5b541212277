import type { PlinthFields } from '../records/fields.ts';
import { nearestName } from '../records/nearest-name.ts';
import type { TechnicalRecord } from '../records/record.ts';
import {
  type ApprovalState,
  type Approvals,
  type RecordApprovals,
  reliedOn,
  requiredRoles,
} from './approvals.ts';
import { approveCommand } from './approve-command.ts';
import { dependentApprovers } from './independence.ts';
import { strongComponents } from './strong-components.ts';
import { compareIds, type TraceGraph } from './trace-graph.ts';

/** What a person wants to sign. */
export interface ApprovalWish {
  readonly ids: readonly string[];
  readonly role: string;
  readonly name: string;
  readonly meaning: string;
  /** ISO date. */
  readonly date: string;
  /** Why the change since the approval before has no technical effect. */
  readonly noTechnicalEffect?: string;
}

/** An approval as it will be written. */
export interface PlannedApproval {
  readonly record: TechnicalRecord;
  readonly digest: string;
  /** Digest of each record that this one relies on, in order of id. */
  readonly reliesOn: Readonly<Record<string, string>>;
  /** The approval of the same role that this one replaces. */
  readonly replaces?: ApprovalState;
  /** Required roles whose approval will still be missing, or lapsed. */
  readonly stillOpen: readonly string[];
}

/** Why something cannot be approved. */
export interface Objection {
  readonly reason: string;
  readonly hint: string;
}

export interface ApprovalPlan {
  /** In order of id. */
  readonly planned: readonly PlannedApproval[];
  /** Records whose approval by this role covers the present content already. */
  readonly inForce: readonly { readonly id: string; readonly date: string }[];
  readonly objections: readonly Objection[];
}

interface Context {
  readonly graph: TraceGraph;
  readonly approvals: Approvals;
  readonly project: PlinthFields;
}

/**
 * Plans the approval of several records by one role at one time. A record may rely on another one that is approved in
 * the same plan. Everything that stands against it is collected, so that the person hears of all of it at once.
 */
export const planApprovals = (context: Context, wish: ApprovalWish): ApprovalPlan => {
  const { graph, approvals } = context;
  const objections: Objection[] = [];
  const inForce: { id: string; date: string }[] = [];
  const planned: PlannedApproval[] = [];
  const ids = [...new Set(wish.ids)].sort(compareIds);
  for (const id of ids) {
    const record = graph.record(id);
    const own = approvals.of(id);
    if (!record || !own) {
      const near = nearestName(id, [...graph.records.keys()]);
      objections.push({
        reason: `there is no record ${id}`,
        hint: near ? `Did you mean "${near}"?` : 'Give the id of a record, such as DI-01.',
      });
      continue;
    }
    const against = objectionTo(record, own, context, wish);
    if (against) {
      objections.push(against);
      continue;
    }
    const current = currentOf(own, wish.role);
    const targets = reliedOn(record).filter((target) => approvals.digests.has(target));
    const stored = current?.approval.relies_on ?? {};
    if (current?.state === 'in force' && targets.every((target) => Object.hasOwn(stored, target))) {
      inForce.push({ id, date: current.approval.date });
      continue;
    }
    planned.push({
      record,
      digest: approvals.digests.get(id) ?? '',
      reliesOn: Object.fromEntries(targets.map((target) => [target, approvals.digests.get(target) ?? ''])),
      ...(current ? { replaces: current } : {}),
      stillOpen: stillOpen(own, wish.role),
    });
  }
  const said = new Set(ids.filter((id) => !planned.some(({ record }) => record.id === id)));
  for (const { id } of inForce) said.delete(id);
  const circle = circlesOf(graph);
  for (const each of planned)
    for (const target of Object.keys(each.reliesOn)) {
      // What stands against a record of the same wish has been said. Records that rely on each other can have no order.
      if (said.has(target) || circle.get(target) === circle.get(each.record.id)) continue;
      const against = objectionToReliance(each, target, planned, context, wish);
      if (against) objections.push(against);
    }
  return { planned, inForce, objections };
};

const currentOf = (own: RecordApprovals, role: string): ApprovalState | undefined =>
  own.states.find((state) => state.state !== 'replaced' && state.approval.role === role);

/** Roles that must approve the record yet, when `role` has. */
const stillOpen = (own: RecordApprovals, role: string): readonly string[] => [
  ...new Set([
    ...own.missingRoles.filter((each) => each !== role),
    ...own.states
      .filter((state) => state.state === 'lapsed' && state.approval.role !== role)
      .map((state) => state.approval.role),
  ]),
];

const objectionTo = (
  record: TechnicalRecord,
  own: RecordApprovals,
  { project }: Context,
  wish: ApprovalWish,
): Objection | undefined => {
  const { id } = record;
  if (!record.sound)
    return {
      reason: `${id} cannot be read in full`,
      hint: 'Run "plinth check" and mend its fields first.',
    };
  if (record.status === 'retired')
    return { reason: `${id} is retired`, hint: 'Set its status to "in review" to bring it back.' };
  const current = currentOf(own, wish.role);
  const roles = requiredRoles(project, record.type);
  if (roles.length > 0 && !roles.includes(wish.role) && !current)
    return {
      reason: `${id} is approved by ${roles.join(' and ')}, not by ${wish.role}`,
      hint: hintOfRole(wish.role, roles, record.type),
    };
  if (wish.noTechnicalEffect !== undefined && !current)
    return {
      reason: `${id} was never approved by ${wish.role}, so there is no change to judge`,
      hint: 'Leave --no-effect out to approve it for the first time.',
    };
  if (current && current.approval.date > wish.date)
    return {
      reason: `${wish.role} approved ${id} on ${current.approval.date}, later than ${wish.date}`,
      hint: `Give a date that is not before ${current.approval.date}.`,
    };
  const twin = dependentApprovers(project, record.type, [
    ...own.states.filter((state) => state !== current),
    {
      approval: { role: wish.role, name: wish.name, meaning: wish.meaning, date: wish.date, digest: '' },
      index: own.states.length,
      state: 'in force',
      changed: [],
    },
  ]).find(({ second }) => second.index === own.states.length);
  if (twin)
    return {
      reason: `${twin.first.approval.name} approved ${id} as ${twin.first.approval.role}, and another person must approve it as ${wish.role}`,
      hint: 'Have another person approve it, or change the rule under "independence" in plinth.yaml.',
    };
  return undefined;
};

const hintOfRole = (role: string, roles: readonly string[], type: string): string => {
  const near = nearestName(role, roles);
  return near
    ? `Did you mean --role "${near}"?`
    : `Give one of these roles, or add "${role}" under approval_roles of ${type} in plinth.yaml.`;
};

/** Number of the group of records that rely on each other, directly or over others, for each record. */
const circlesOf = (graph: TraceGraph): ReadonlyMap<string, number> =>
  new Map(
    strongComponents([...graph.records.keys()], (id) => {
      const record = graph.record(id);
      return record ? reliedOn(record) : [];
    }).flatMap((ids, number) => ids.map((id) => [id, number] as const)),
  );

/**
 * The last role may only approve a record when all that it relies on is approved; a role before it, when it has itself
 * approved that: two roles may go through the file one after the other.
 */
const objectionToReliance = (
  { record, stillOpen: openHere }: PlannedApproval,
  target: string,
  planned: readonly PlannedApproval[],
  { graph, approvals, project }: Context,
  wish: ApprovalWish,
): Objection | undefined => {
  const linked = graph.record(target);
  const own = approvals.of(target);
  // A retired record that is linked has a check of its own.
  if (!linked || !own || linked.status === 'retired') return undefined;
  const roles = requiredRoles(project, linked.type);
  const lapsed = own.states.filter((state) => state.state === 'lapsed').map((state) => state.approval.role);
  if (own.inForce || (roles.length === 0 && lapsed.length === 0)) return undefined;
  const inPlan = planned.find((each) => each.record.id === target);
  const isLast = openHere.length === 0;
  const open = inPlan ? inPlan.stillOpen : [...new Set([...own.missingRoles, ...lapsed])];
  if (open.length === 0 || (!isLast && roles.includes(wish.role) && !open.includes(wish.role)))
    return undefined;
  const state =
    own.missingRoles.length > 0 || inPlan
      ? `not approved by ${open.join(' and ')}`
      : `approved with older content by ${open.join(' and ')}`;
  return {
    reason: `${record.id} relies on ${target}, which is ${state}`,
    hint: open.includes(wish.role)
      ? `Approve both in one call: ${approveCommand([target, record.id], wish.role)}`
      : `Have it approved first: ${approveCommand([target], open[0])}`,
  };
};

import { lapsedRoles } from '../graph/approval-selection.ts';
import { requiredRoles } from '../graph/approvals.ts';
import type { ApprovalWish } from '../graph/plan-approvals.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import type { Analysis } from '../pipeline.ts';
import { isRealDate } from '../records/calendar.ts';
import { nearestName } from '../records/nearest-name.ts';
import type { Request } from './command.ts';
import { Refusal } from './refusal.ts';

/** What the words ask for, with the role and the records that follow from it. */
export const wishOf = (request: Request, analysis: Analysis, today: string): ApprovalWish => {
  const { options } = request;
  const { ids, roles } = selection(request, analysis);
  const role = options['role'] ?? onlyRoleOf(roles);
  const { name } = options;
  if (name === undefined || name.trim() === '')
    throw new Refusal(
      'an approval needs the name of the person who gives it',
      'Add --name "FULL NAME"; it is never guessed.',
    );
  const date = options['date'] ?? today;
  if (!isRealDate(date)) throw new Refusal(`--date is "${date}", expected a date`, 'Write it as 2026-06-01.');
  if (date > today)
    throw new Refusal(
      `--date is ${date}, after today, ${today}`,
      'An approval cannot be given ahead; give a day that has come.',
    );
  const noTechnicalEffect = options['no-effect'];
  const meaning =
    options['meaning'] ??
    (noTechnicalEffect === undefined ? 'approved' : 'approved again after a change without technical effect');
  return {
    ids,
    role,
    name: name.trim(),
    meaning,
    date,
    ...(noTechnicalEffect === undefined ? {} : { noTechnicalEffect }),
  };
};

interface Selection {
  readonly ids: readonly string[];
  /** Roles in question where none was named. */
  readonly roles: readonly string[];
}

const selection = (request: Request, { graph, approvals, project }: Analysis): Selection => {
  const because = request.options['because'];
  const isLapsed = request.switches.has('lapsed');
  const ids = request.arguments.flatMap((word) => word.split(',')).filter((id) => id !== '');
  const isNamed = request.arguments.length > 0;
  // Ids together with --lapsed choose among what has lapsed.
  const ways = [isNamed || isLapsed, because !== undefined].filter(Boolean).length;
  if (ways !== 1)
    throw new Refusal(
      ways === 0 ? 'nothing was named to approve' : 'the records to approve were named in two ways',
      'Give ids, or --lapsed, or --because ID. For example: plinth approve DI-01 --name "FULL NAME"',
    );
  const { role } = request.options;
  for (const id of ids) refuseUnknown(id, graph);
  if (isNamed && !isLapsed) {
    const records = ids.flatMap((id) => graph.record(id) ?? []);
    return { ids, roles: records.flatMap((record) => requiredRoles(project.fields, record.type)) };
  }
  if (because !== undefined) refuseUnknown(because, graph);
  const lapsed = lapsedRoles(graph, approvals, because);
  const chosen = lapsed.filter((each) => role === undefined || each.role === role);
  if (chosen.length === 0)
    throw new Refusal(
      `no approval${role === undefined ? '' : ` by ${role}`} has lapsed${because === undefined ? '' : ` because of ${because}`}`,
      lapsed.length === 0
        ? 'There is nothing to approve again.'
        : `Lapsed are those by ${[...new Set(lapsed.map((each) => each.role))].join(', ')}.`,
    );
  const other = ids.find((id) => !chosen.some((each) => each.id === id));
  if (other !== undefined)
    throw new Refusal(
      `the approval of ${other}${role === undefined ? '' : ` by ${role}`} has not lapsed`,
      `Lapsed are those of ${chosen.map(({ id }) => id).join(', ')}. Leave --lapsed out to approve ${other} all the same.`,
    );
  const taken = ids.length === 0 ? chosen : chosen.filter(({ id }) => ids.includes(id));
  return { ids: taken.map(({ id }) => id), roles: taken.map((each) => each.role) };
};

const refuseUnknown = (id: string, graph: TraceGraph): void => {
  if (graph.record(id)) return;
  const near = nearestName(id, [...graph.records.keys()]);
  throw new Refusal(
    `there is no record ${id}`,
    near ? `Did you mean "${near}"?` : 'Give the id of a record, such as DI-01.',
  );
};

const onlyRoleOf = (roles: readonly string[]): string => {
  const different = [...new Set(roles)];
  const [role] = different;
  if (role !== undefined && different.length === 1) return role;
  throw new Refusal(
    different.length === 0
      ? 'plinth.yaml names no role that must approve this'
      : `the approval of several roles is in question: ${different.join(', ')}`,
    'Say for which one you sign: --role ROLE.',
  );
};

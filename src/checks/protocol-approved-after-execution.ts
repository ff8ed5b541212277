import { requiredRoles } from '../graph/approvals.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const protocolApprovedAfterExecution = defineCheck({
  code: 'protocol-approved-after-execution',
  level: 'error',
  title: 'A protocol was approved after the work had begun',
  basis:
    'ISO 13485:2016 4.2.4 (approval before issue) and 7.3.6 or 7.3.7 (planned methods and acceptance criteria)',
  explain:
    'A role that must approve the protocol did so only after the first day of the work that the record reports. Acceptance criteria that are settled after the first readings are seen can be bent to them, and a reviewer has no way to tell that they were not. So the order of the two dates is among the first things that an auditor looks at.\n\nIf a date is wrong, correct it. If not, record a deviation that says what was known when the protocol was approved, and whether the work has to be repeated under the approved protocol. Required roles are those of `approval_roles` in plinth.yaml; where none is set, the first approval counts. A protocol without any approval is the business of other checks.',
  examines: 'verification and validation records of approved protocols',
  subjects: ({ graph }) =>
    [...graph.recordsOf('verification-record'), ...graph.recordsOf('validation-record')].flatMap((record) => {
      const protocol =
        graph.recordOf('verification-protocol', record.fields.reports) ??
        graph.recordOf('validation-protocol', record.fields.reports);
      return record.status !== 'retired' && protocol?.status === 'approved' ? [{ record, protocol }] : [];
    }),
  judge: ({ record, protocol }, { project }) => {
    const approvals = (protocol.fields.approvals ?? []).map((approval, index) => ({ ...approval, index }));
    const required = requiredRoles(project.fields, protocol.type);
    const byRole =
      required.length > 0
        ? required.map((role) => approvals.filter((approval) => approval.role === role))
        : [approvals];
    const start = record.fields.executed.from;
    const late = byRole.flatMap((list) => {
      const [first] = [...list].sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
      return first && first.date > start ? [first] : [];
    });
    if (late.length === 0) return [];
    return [
      {
        place: placeOf(record, 'executed', 'from'),
        message: `${record.id} began on ${start}, before ${protocol.id} was approved (${late.map((each) => `${each.role} ${each.date}`).join(', ')})`,
        hint: `Record a deviation that weighs it, or repeat the work under the approved ${protocol.id}.`,
        records: [record.id, protocol.id],
        related: late.map((each) => ({
          place: placeOf(protocol, 'approvals', each.index, 'date'),
          message: `${protocol.id} approved by ${each.role} on ${each.date}`,
        })),
        data: { began: start, approved: late.map((each) => each.date) },
      },
    ];
  },
});

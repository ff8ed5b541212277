import { residualRisk } from '../evidence/residual-risk.ts';
import { requiredRoles } from '../graph/approvals.ts';
import { approveCommand, onlyRole } from '../graph/approve-command.ts';
import { placeOf, type TechnicalRecord } from '../records/record.ts';
import { type CheckContext, defineCheck } from './check.ts';

/** An unsigned decision on a risk that needs one is the business of residual-risk-not-accepted. */
const isJudgedWithItsRisk = (record: TechnicalRecord, { graph, approvals, project }: CheckContext): boolean =>
  record.type === 'benefit-risk' &&
  graph
    .targets(record.id, 'decides', 'risk')
    .some(
      (risk) =>
        risk.status !== 'retired' &&
        residualRisk(risk, graph, approvals, project.fields).kind === 'not accepted',
    );

export const approvalMissing = defineCheck({
  code: 'approval-missing',
  level: 'error',
  title: 'A record counts as approved, but a required role has not approved it',
  basis: 'ISO 13485:2016 4.2.4',
  explain:
    'The status says "approved", yet a role that plinth.yaml asks for this type of record under `approval_roles` is not among the approvals. A status is a word that anybody can type; an approval names a person, a date and the content that was approved.\n\nA reviewer reads an approved record as one that the responsible people have seen. Work that builds on it, and in the end the patient, relies on that.\n\nHave the role approve the record, or set the status back to `in review`. `plinth approve` writes the approval into the record: an entry under `approvals` with `role`, `name`, `meaning`, `date`, the `digest` of the content as it is now and, under `relies_on`, those of the records that it rests on. Whether such an entry counts as a signature depends on your procedures.',
  examines: 'approved records',
  subjects: ({ graph, project }) =>
    [...graph.records.values()].filter(
      (record) =>
        record.sound && record.status === 'approved' && requiredRoles(project.fields, record.type).length > 0,
    ),
  judge: (record, context) => {
    const missing = context.approvals.of(record.id)?.missingRoles ?? [];
    if (missing.length === 0 || isJudgedWithItsRisk(record, context)) return [];
    return [
      {
        place: placeOf(record, 'status'),
        message: `${record.id} has the status approved, but not the approval of ${missing.join(' and ')}`,
        hint: `Have ${missing.join(' and ')} approve it (${approveCommand([record.id], onlyRole(missing))}), or set the status to "in review".`,
        records: [record.id],
        data: { roles: missing, digest: context.approvals.digests.get(record.id) ?? '' },
      },
    ];
  },
});

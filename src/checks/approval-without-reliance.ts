import { reliedOn } from '../graph/approvals.ts';
import { approveCommand } from '../graph/approve-command.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const approvalWithoutReliance = defineCheck({
  code: 'approval-without-reliance',
  level: 'error',
  title: 'An approval does not say on which content of a linked record it relies',
  basis: 'ISO 13485:2016 7.3.9 (effect of changes); common practice, no source, for the digest',
  explain:
    'The approval is in force, but `relies_on` holds no digest of a record that this one rests on. When that record changes, nothing tells that this approval was given for something else.\n\nA verification that still counts although the drawing below it has changed is how a part that was never tested reaches a patient.\n\nLook at the linked record as it is now, and approve again with `plinth approve`: it stores the digests. The claims and wordings that the sentences of a document take in (`:claim[...]`, `:phrase[...]`) count as linked. Links to registers that grow and to past events (equipment, deviations, reviews) need none.',
  examines: 'approvals in force',
  subjects: ({ graph, approvals }) =>
    [...graph.records.values()]
      .filter((record) => record.sound && record.status !== 'retired')
      .flatMap((record) =>
        (approvals.of(record.id)?.states ?? [])
          .filter((state) => state.state === 'in force')
          .map((state) => ({ record, state })),
      ),
  judge: ({ record, state: { approval, index } }, { graph, approvals }) => {
    const stored = approval.relies_on ?? {};
    const missing = reliedOn(record).filter((id) => {
      return (
        approvals.digests.has(id) && graph.record(id)?.status !== 'retired' && !Object.hasOwn(stored, id)
      );
    });
    return missing.length === 0
      ? []
      : [
          {
            place: placeOf(record, 'approvals', index, ...(approval.relies_on ? ['relies_on'] : [])),
            message: `the approval of ${record.id} by ${approval.role} of ${approval.date} stores no digest of ${missing.join(', ')}: a change there would go unseen`,
            hint: `Look at ${missing.join(', ')} as it is now, then approve again: ${approveCommand([record.id], approval.role)}`,
            records: [record.id, ...missing.filter((id) => graph.record(id))],
            data: { missing },
          },
        ];
  },
});

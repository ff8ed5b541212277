import { testRecords } from '../graph/tested-revisions.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const protocolChangedAfterWork = defineCheck({
  code: 'protocol-changed-after-work',
  level: 'warning',
  title: 'A protocol was changed after the work that reports it had begun',
  basis: 'ISO 13485:2016 7.3.6 and 7.3.7 (planned methods and acceptance criteria)',
  explain:
    'On the first day of the work the protocol was approved with another content than it has today, and neither a deviation against the record nor a design change says what that means for the result. The approvals may all be in force again; the question is whether the acceptance was settled before the readings were known.\n\nAcceptance criteria that are loosened once the readings are seen show nothing, and a reader of the file as it stands today cannot tell.\n\n`plinth impact` shows what changed, where git has it. Write a deviation against the record that says what changed, why, and why the result stands; or repeat the work under the protocol as it is now.',
  examines: 'verification and validation records of approved protocols',
  subjects: ({ graph }) =>
    testRecords(graph).flatMap((record) => {
      const protocol =
        graph.recordOf('verification-protocol', record.fields.reports) ??
        graph.recordOf('validation-protocol', record.fields.reports);
      return protocol?.status === 'approved' ? [{ record, protocol }] : [];
    }),
  judge: ({ record, protocol }, { approvals, graph }) => {
    const begun = record.fields.executed.from;
    const today = approvals.digests.get(protocol.id);
    const given = (approvals.of(protocol.id)?.states ?? []).filter(({ approval }) => approval.date <= begun);
    const last = given.reduce<(typeof given)[number] | undefined>(
      (a, b) => (a && a.approval.date > b.approval.date ? a : b),
      undefined,
    );
    const isWeighed =
      graph.sources(record.id, 'against', 'deviation').length > 0 ||
      graph.sources(record.id, 'decisions', 'design-change').length > 0;
    if (!last || last.approval.digest === today || isWeighed) return [];
    return [
      {
        place: placeOf(record, 'reports'),
        message: `${record.id} began on ${begun} under ${protocol.id} as approved on ${last.approval.date}, and ${protocol.id} has been changed since`,
        hint: `Say in a deviation against ${record.id} what changed and why the result stands, or repeat the work under ${protocol.id} as it is now.`,
        records: [record.id, protocol.id],
        related: [
          {
            place: placeOf(protocol, 'approvals', last.index, 'digest'),
            message: `${protocol.id} as it was approved on ${last.approval.date}`,
          },
        ],
        data: { began: begun, approved: last.approval.date },
      },
    ];
  },
});

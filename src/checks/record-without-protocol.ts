import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const recordWithoutProtocol = defineCheck({
  code: 'record-without-protocol',
  level: 'error',
  title: 'A record reports a protocol that is not approved',
  basis: 'ISO 13485:2016 4.2.4, 7.3.6 and 7.3.7 (plans and acceptance criteria come first)',
  explain:
    'Work has been carried out under a protocol that is still a draft or in review, or that has been retired. Nobody has agreed to its method and its acceptance criteria, so the result proves nothing, however good it is; tests made before design control belong to the development history.\n\nApprove the protocol and repeat the work, or, where it was approved at the time and only its status lags behind, correct the status. A protocol that does not exist at all is reported as an unknown link target.',
  awaits: ['verification-protocol', 'validation-protocol'],
  examines: 'verification and validation records',
  subjects: ({ graph }) =>
    [...graph.recordsOf('verification-record'), ...graph.recordsOf('validation-record')].filter(
      (record) => record.status !== 'retired',
    ),
  judge: (record, { graph }) => {
    const protocol = graph.record(record.fields.reports);
    if (!protocol || protocol.status === 'approved') return [];
    const [link] = graph.linksFrom(record.id, 'reports');
    if (!link?.allowed.includes(protocol.type)) return [];
    const state = protocol.status === 'draft' ? 'a draft' : protocol.status;
    return [
      {
        place: placeOf(record, 'reports'),
        message: `${record.id} reports ${protocol.id}, which is ${state}, expected approved`,
        hint: `Carry out an approved protocol, or correct the status of ${protocol.id}.`,
        records: [record.id, protocol.id],
        related: [{ place: placeOf(protocol, 'status'), message: `${protocol.id} is ${state}` }],
        data: { status: protocol.status },
      },
    ];
  },
});

import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const protocolWithoutRecord = defineCheck({
  code: 'protocol-without-record',
  level: 'note',
  title: 'An approved protocol has not been carried out',
  basis: 'ISO 13485:2016 7.3.6 and 7.3.7 (results and conclusions are recorded)',
  explain:
    'The protocol is approved and no record reports it yet. That is the normal state between planning and testing; near a submission it is work still to be done, and what the protocol verifies stands as planned, not as shown.\n\nCarry it out and add its record, or retire the protocol if another one has taken its place.',
  awaits: ['verification-record', 'validation-record'],
  examines: 'approved protocols',
  subjects: ({ graph }) =>
    [...graph.recordsOf('verification-protocol'), ...graph.recordsOf('validation-protocol')].filter(
      (protocol) => protocol.status === 'approved',
    ),
  judge: (protocol, { graph }) => {
    const type = protocol.type === 'verification-protocol' ? 'verification-record' : 'validation-record';
    if (graph.sources(protocol.id, 'reports', type).length > 0) return [];
    return [
      {
        place: placeOf(protocol, 'id'),
        message: `${protocol.id} "${protocol.title}" is approved and has not been carried out`,
        hint: `Carry it out and add its record (plinth new ${type}), or retire it.`,
        records: [protocol.id],
      },
    ];
  },
});

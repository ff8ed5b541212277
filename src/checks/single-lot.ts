import { statesReliability } from '../evidence/sample-plan.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const singleLot = defineCheck({
  code: 'single-lot',
  level: 'warning',
  title: 'The units come from fewer lots than they should',
  basis: 'common practice, no source',
  explain:
    'A statement of confidence and reliability is meant for all units that will be made, but the tested ones come from a single lot, or from fewer lots than the protocol plans. What differs from lot to lot, such as material, moulding or sterilisation, is then not in the data, and the spread looks smaller than patients will meet it.\n\nTest units from the planned lots; three is usual. Where only one lot exists, say so in a waiver with the reason, and repeat the test with production lots.',
  examines: 'verification records with a statement of reliability',
  subjects: ({ graph }) =>
    graph
      .recordsOf('verification-record')
      .filter((record) => record.status !== 'retired')
      .flatMap((record) => {
        const protocol = graph.recordOf('verification-protocol', record.fields.reports);
        return protocol && statesReliability(protocol.fields.sampling.kind) ? [{ record, protocol }] : [];
      }),
  judge: ({ record, protocol }, { evidence }) => {
    const measured = evidence.get(record.id)?.lots ?? [];
    const lots = measured.length > 0 ? measured : (record.fields.lots ?? []);
    const planned = protocol.fields.sampling.lots;
    if (planned === undefined ? lots.length !== 1 : lots.length >= planned && lots.length !== 1) return [];
    const found =
      lots.length === 0 ? 'no lot' : lots.length === 1 ? `one lot, ${lots[0]}` : `${lots.length} lots`;
    const wanted = planned === undefined || planned === 1 ? '' : `, ${protocol.id} plans ${planned}`;
    return [
      {
        place: record.fields.lots ? placeOf(record, 'lots') : placeOf(record, 'data', 'lot'),
        message: `${record.id} records ${found}${wanted}`,
        hint: `Test units from ${planned === undefined || planned === 1 ? 'several' : planned} lots, or record a waiver with the reason.`,
        records: [record.id, protocol.id],
        related:
          planned === undefined
            ? []
            : [{ place: placeOf(protocol, 'sampling', 'lots'), message: `${protocol.id} plans ${planned}` }],
        data: { lots },
      },
    ];
  },
});

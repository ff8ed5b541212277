import { countedSize, countedThings } from '../evidence/sample-plan.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const sampleLargerThanPlan = defineCheck({
  code: 'sample-larger-than-plan',
  level: 'warning',
  title: 'More units were tested than planned',
  basis: 'common practice, no source',
  explain:
    'More units count in the raw data than the protocol plans. More sounds better, but units that are added once the first results are known change the odds: after a failure, adding units until the share of failures is small enough is testing until it passes.\n\nSay in a deviation when and why units were added, before or after the results were seen. If the plan was meant to be larger, change the protocol and have it approved.',
  examines: 'verification records with raw data',
  subjects: ({ graph, evidence }) =>
    graph.recordsOf('verification-record').flatMap((record) => {
      const found = evidence.get(record.id);
      const protocol = graph.recordOf('verification-protocol', record.fields.reports);
      const counted = found ? countedSize(found) : undefined;
      const planned = protocol?.fields.sampling.size;
      return record.status !== 'retired' && protocol && counted !== undefined && planned !== undefined
        ? [{ record, protocol, counted, planned }]
        : [];
    }),
  judge: ({ record, protocol, counted, planned }) =>
    counted <= planned
      ? []
      : [
          {
            place: placeOf(record, 'data', 'file'),
            message: `${record.id} counts ${counted} ${countedThings(protocol.fields.sampling.kind)}, ${protocol.id} plans ${planned}`,
            hint: 'Say in a deviation when and why units were added.',
            records: [record.id, protocol.id],
            related: [
              { place: placeOf(protocol, 'sampling', 'size'), message: `${protocol.id} plans ${planned}` },
            ],
            data: { counted, planned },
          },
        ],
});

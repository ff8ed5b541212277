import { countedSize, countedThings } from '../evidence/sample-plan.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const sampleSizeUnderPlan = defineCheck({
  code: 'sample-size-under-plan',
  level: 'error',
  title: 'Fewer units were tested than planned',
  basis: 'ISO 13485:2016 7.3.6 (sample size with rationale)',
  explain:
    'Fewer units count in the raw data than the protocol plans. The plan was the promise of how sure the result would be; with fewer units it is not kept, and why some are missing is exactly what a reviewer wants to know: a broken unit that nobody counted may be the failure that a patient meets.\n\nTest the missing units, or record a deviation that says where they went, and have the protocol changed and approved for the smaller size if that still shows enough. Units, not readings, are counted; for checklists and laboratory results, items or results.',
  examines: 'verification records with raw data',
  subjects: ({ graph, evidence }) =>
    graph.recordsOf('verification-record').flatMap((record) => {
      const found = evidence.get(record.id);
      const protocol = graph.recordOf('verification-protocol', record.fields.reports);
      const counted = found ? countedSize(found) : undefined;
      const planned = protocol?.fields.sampling.size;
      return record.status !== 'retired' &&
        found &&
        protocol &&
        counted !== undefined &&
        planned !== undefined
        ? [{ record, protocol, found, counted, planned }]
        : [];
    }),
  judge: ({ record, protocol, found, counted, planned }) => {
    if (counted >= planned) return [];
    const without = found.excludedUnits.length > 0 ? ` (${found.excludedUnits.length} excluded)` : '';
    return [
      {
        place: placeOf(record, 'data', 'file'),
        message: `${record.id} counts ${counted} ${countedThings(protocol.fields.sampling.kind)}${without}, ${protocol.id} plans ${planned}`,
        hint: 'Test the missing units, or record a deviation and have the plan approved anew.',
        records: [record.id, protocol.id],
        related: [
          { place: placeOf(protocol, 'sampling', 'size'), message: `${protocol.id} plans ${planned}` },
        ],
        data: { counted, planned },
      },
    ];
  },
});

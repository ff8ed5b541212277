import { fieldCounts } from '../evidence/counted-risks.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const fieldDataUnusable = defineCheck({
  code: 'field-data-unusable',
  level: 'error',
  title: 'Field data cannot be used',
  basis: 'ISO 13485:2016 4.2.5 (records remain legible, identifiable and retrievable)',
  explain:
    'The file of a field-data record is missing, has other columns than the record says, holds something that is not a count, or is not the file that was recorded: its digest differs.\n\nA row that is misread changes a rate, and with it the answer to the question whether the risks are estimated rightly. So the whole record counts for nothing until it is mended.\n\nMend the place that the message names. If the file was corrected on purpose, enter the new digest and have the record approved again.',
  examines: 'records of field data',
  subjects: fieldCounts,
  judge: ({ record, problems, dataFile, dataDigest }): readonly Draft[] => {
    const written = record.fields.data.sha256;
    return [
      ...problems.map(({ place, message, hint }) => ({
        place,
        message: `${record.id}: ${message}`,
        hint,
        records: [record.id],
      })),
      ...(dataDigest !== undefined && dataDigest !== written
        ? [
            {
              place: placeOf(record, 'data', 'sha256'),
              message: `${dataFile} is not the file that ${record.id} recorded: its digest is ${dataDigest.slice(0, 12)}…, recorded ${written.slice(0, 12)}…`,
              hint: 'Bring back the file as it was, or enter the new digest and have the record approved again.',
              records: [record.id],
            },
          ]
        : []),
    ];
  },
});

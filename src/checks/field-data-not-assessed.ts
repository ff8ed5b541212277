import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const fieldDataNotAssessed = defineCheck({
  code: 'field-data-not-assessed',
  level: 'warning',
  title: 'Nobody has assessed field data',
  basis: 'ISO 14971:2019 10.3 (from memory); Regulation (EU) 2017/745 Article 83(3)',
  explain:
    'Counts were collected, and no person has said what they mean for safety: whether there is a hazard that nobody knew of, whether a risk is no longer acceptable, whether the state of the art has moved on. A bound on a rate answers none of these questions.\n\nHave those whom the surveillance plan names look at the data, write their conclusion under the heading Assessment, and enter day and roles under `assessed`.',
  examines: 'records of field data',
  subjects: ({ graph }) => graph.recordsOf('field-data').filter((record) => record.status !== 'retired'),
  judge: (record, { asOf }) => {
    const { assessed, period } = record.fields;
    if (assessed === undefined)
      return period.to < asOf
        ? [
            {
              place: placeOf(record, 'period', 'to'),
              message: `${record.id} "${record.title}" ended on ${period.to} and was not assessed`,
              hint: 'Write the conclusion under Assessment and enter "assessed" with day and roles.',
              records: [record.id],
            },
          ]
        : [];
    return assessed.date < period.to
      ? [
          {
            place: placeOf(record, 'assessed', 'date'),
            message: `${record.id} was assessed on ${assessed.date}, before its period ended on ${period.to}`,
            hint: 'Assess the data once they are complete.',
            records: [record.id],
          },
        ]
      : [];
  },
});

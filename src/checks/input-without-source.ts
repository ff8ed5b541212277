import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const inputWithoutSource = defineCheck({
  code: 'input-without-source',
  level: 'error',
  title: 'A design input has no source',
  basis: 'ISO 13485:2016 7.3.3',
  explain:
    'The input derives from no need, risk, risk control, standard or law that exists. A requirement without a source cannot be weighed: nobody can say who is harmed or disappointed if it is dropped, and a reviewer will ask why it is there. Often it is a solution written as a requirement.\n\nName under `derives_from` what asks for the input, or retire the input.',
  examines: 'design inputs',
  subjects: ({ graph }) => graph.recordsOf('design-input').filter((input) => input.status !== 'retired'),
  judge: (input, { graph }) => {
    const named = input.fields.derives_from;
    if (named.some((id) => graph.record(id) !== undefined)) return [];
    return [
      {
        place: placeOf(input, 'derives_from'),
        message:
          named.length === 0
            ? `${input.id} "${input.title}" derives from nothing`
            : `${input.id} "${input.title}" derives only from records that do not exist: ${named.join(', ')}`,
        hint: 'Name the need, risk, risk control, standard or law that asks for it.',
        records: [input.id],
      },
    ];
  },
});

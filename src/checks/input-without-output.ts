import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const inputWithoutOutput = defineCheck({
  code: 'input-without-output',
  level: 'error',
  title: 'A design input has no design output',
  basis: 'ISO 13485:2016 7.3.4 (outputs meet the inputs)',
  explain:
    'No design output satisfies the input: no part, label, process or procedure is said to bring about what it requires. Whatever a test shows then cannot be traced to something that is bought and made, so a later change may undo it without anyone seeing.\n\nAdd the input under `satisfies` of the output that answers it, or add the missing output.',
  awaits: ['design-output'],
  examines: 'design inputs',
  subjects: ({ graph }) => graph.recordsOf('design-input').filter((input) => input.status !== 'retired'),
  judge: (input, { graph }) =>
    graph.sources(input.id, 'satisfies', 'design-output').length > 0
      ? []
      : [
          {
            place: placeOf(input, 'id'),
            message: `${input.id} "${input.title}" is satisfied by no design output`,
            hint: `Add ${input.id} under "satisfies" of the design output that answers it.`,
            records: [input.id],
          },
        ],
});

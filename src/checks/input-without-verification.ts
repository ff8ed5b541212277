import { verifiersOf } from '../graph/verifiers.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const inputWithoutVerification = defineCheck({
  code: 'input-without-verification',
  level: 'error',
  title: 'A design input has no verification',
  basis: 'ISO 13485:2016 7.3.6',
  explain:
    'No verification protocol, analysis or validation protocol verifies the input, so nobody has planned how to show that the device meets it. A requirement that is never tested protects no patient, and an untested input is among the first things that a reviewer finds in a trace matrix.\n\nAdd a protocol or an analysis with the input under `verifies`, or add the input to one that covers it.',
  awaits: ['verification-protocol', 'validation-protocol', 'analysis'],
  examines: 'design inputs',
  subjects: ({ graph }) => graph.recordsOf('design-input').filter((input) => input.status !== 'retired'),
  judge: (input, { graph }) =>
    verifiersOf(graph, input.id).length > 0
      ? []
      : [
          {
            place: placeOf(input, 'id'),
            message: `${input.id} "${input.title}" is verified by no protocol or analysis`,
            hint: `Add a protocol with "verifies: [${input.id}]" (plinth new verification-protocol).`,
            records: [input.id],
          },
        ],
});

import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const needWithoutValidation = defineCheck({
  code: 'need-without-validation',
  level: 'warning',
  title: 'A user need has no validation',
  basis: 'ISO 13485:2016 7.3.7',
  explain:
    'No validation protocol validates the need. Verification shows that the device meets its inputs; only validation shows that, in the hands of its users, the device does what they need. A device can pass every test and still be of no use to a patient.\n\nAdd the need under `validates` of a validation protocol. Where no study is meant, because a clinical evaluation or a comparison covers the need, say so in the need and record a waiver with the reason.',
  awaits: ['validation-protocol'],
  examines: 'user needs',
  subjects: ({ graph }) => graph.recordsOf('user-need').filter((need) => need.status !== 'retired'),
  judge: (need, { graph }) =>
    graph.sources(need.id, 'validates', 'validation-protocol').length > 0
      ? []
      : [
          {
            place: placeOf(need, 'id'),
            message: `${need.id} "${need.title}" is validated by no validation protocol`,
            hint: `Add ${need.id} under "validates" of a validation protocol (plinth new validation-protocol).`,
            records: [need.id],
          },
        ],
});

import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const newRisksUnanswered = defineCheck({
  code: 'new-risks-unanswered',
  level: 'warning',
  title: 'Nobody has answered whether a risk control brings new risks',
  basis: 'ISO 14971:2019 7.5 (from memory)',
  explain:
    'The control has no `new_risks` with an answer. Each measure changes the device, and some changes bring a risk of their own: a plunger that cannot be pulled back cannot be used twice, but neither can it be relieved after too much was pressed.\n\nThe new risk reaches the patient just like the old one, and nobody looks for it unless the question is asked for each measure.\n\nThink it through and write the answer, also where it is "none", with the reason. Name the risks that cover what you found under `risks`.',
  examines: 'risk controls',
  subjects: ({ graph }) => graph.recordsOf('risk-control').filter((control) => control.status !== 'retired'),
  judge: (control) => {
    const answer = control.fields.new_risks?.answer;
    return answer !== undefined && answer.trim() !== ''
      ? []
      : [
          {
            place: placeOf(control, control.fields.new_risks ? 'new_risks' : 'id'),
            message: `${control.id} "${control.title}" does not say whether it brings new risks`,
            hint: 'Add "new_risks" with an answer, and the risks that cover it if there are any.',
            records: [control.id],
          },
        ];
  },
});

import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const furtherReductionUnargued = defineCheck({
  code: 'further-reduction-unargued',
  level: 'warning',
  title: 'Nothing says why a risk cannot be reduced further',
  basis: 'Regulation (EU) 2017/745 Annex I 2 and 4',
  explain:
    'The law asks that every risk be reduced as far as possible without making the ratio of benefit to risk worse, whatever its class. The field `alarp` of this risk is empty: nobody has written down what else was considered and why it was not done.\n\nA class that the criteria accept does not end the work. For the patient, the measure that was never looked for is the one that is missing.\n\nWrite under `alarp` which further measures were considered and what speaks against each of them: another risk, a lost benefit, the state of the art. Cost alone is not such a ground. Whether the grounds are good is for people to judge.',
  examines: 'risks',
  subjects: ({ graph }) => graph.recordsOf('risk').filter((risk) => risk.status !== 'retired'),
  judge: (risk) =>
    (risk.fields.alarp ?? '').trim() !== ''
      ? []
      : [
          {
            place: placeOf(risk, risk.fields.alarp === undefined ? 'after' : 'alarp'),
            message: `${risk.id} "${risk.title}" does not say why it cannot be reduced further`,
            hint: 'Add "alarp": which further measures were considered, and what speaks against them.',
            records: [risk.id],
          },
        ],
});

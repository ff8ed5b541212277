import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

/** The text of a record that speaks of one of the two numbers. */
const speaksOfNumbers = /\bP[12]\b/;

export const estimateWithoutBasis = defineCheck({
  code: 'estimate-without-basis',
  level: 'note',
  title: 'Nothing says where the probabilities of a risk come from',
  basis: 'ISO 14971:2019 5.5 (from memory); Regulation (EU) 2017/745 Annex I 3(c)',
  explain:
    'P1 and P2 stand in the record, but neither the field `basis` nor the text says where they come from: no count, no publication, no comparable device, no judgement with a name.\n\nA number without a source cannot be defended, and cannot be corrected when field data come in, because nobody knows what it stood for.\n\nWrite under `basis` where each of the two numbers comes from and how sure it is. "Judgement of the clinical adviser, on the cautious side" is a source too.',
  examines: 'risks with probabilities',
  subjects: ({ graph }) =>
    graph
      .recordsOf('risk')
      .filter(
        ({ status, fields }) =>
          status !== 'retired' && (fields.before.p1 !== undefined || fields.after.p1 !== undefined),
      ),
  judge: (risk) =>
    (risk.fields.basis ?? '').trim() !== '' || speaksOfNumbers.test(risk.body)
      ? []
      : [
          {
            place: placeOf(risk, 'before'),
            message: `${risk.id} "${risk.title}" does not say where P1 and P2 come from`,
            hint: 'Add "basis": the source of each number, and how sure it is.',
            records: [risk.id],
          },
        ],
});

import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

/** Case, spaces and punctuation do not make another procedure. */
const plainWords = (words: string): string =>
  words
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, ' ')
    .trim();

export const declarationProcedureDiffers = defineCheck({
  code: 'declaration-procedure-differs',
  level: 'warning',
  title: 'The declaration names another conformity assessment than the classification',
  basis: 'Regulation (EU) 2017/745 Article 52 and Annex IV 8',
  explain:
    'plinth.yaml names the conformity assessment that the notified body carried out, for item 8 of the declaration of conformity. The classification record names the procedure that was chosen for the class of the device. They are not the same.\n\nThe class decides which procedures are open to the maker. A declaration that names another one than was decided on is wrong, or the decision is.\n\nFind out which of the two holds and correct the other. Write the procedure in the words of the classification record. Which procedure is right is for qualified people and the notified body to say.',
  examines: 'classifications, where plinth.yaml names a conformity assessment',
  subjects: ({ graph, project }) => {
    const procedure = project.fields.declaration?.notified_body?.procedure;
    return procedure === undefined
      ? []
      : graph
          .recordsOf('classification')
          .filter(({ status }) => status !== 'retired')
          .map((record) => ({ record, procedure }));
  },
  judge: ({ record, procedure }, { project }) => {
    const chosen = record.fields.route?.procedure;
    if (chosen === undefined || plainWords(chosen) === plainWords(procedure)) return [];
    return [
      {
        place: project.yaml.place(['declaration', 'notified_body', 'procedure']),
        message: `the declaration names the procedure "${procedure}", and ${record.id} has chosen "${chosen}"`,
        hint: `Write "${chosen}" in plinth.yaml, or correct the route of ${record.id}.`,
        records: [record.id],
        related: [{ place: placeOf(record, 'route', 'procedure'), message: 'the procedure that was chosen' }],
        data: { chosen },
      },
    ];
  },
});

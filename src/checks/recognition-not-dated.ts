import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const recognitionNotDated = defineCheck({
  code: 'recognition-not-dated',
  level: 'warning',
  title: 'The recognition of a standard does not say when it was looked up',
  basis:
    'Regulation (EU) 2017/745 Article 8(1) (presumption of conformity by references in the Official Journal)',
  explain:
    'The record says that the standard is harmonised or recognised, and no day on which somebody looked it up.\n\nLists of references change: an edition is taken in, restricted or withdrawn, and a presumption of conformity goes with it. Without the day nobody knows which list was meant.\n\nLook it up, and add `recognition_checked` with the day; or write `not checked`.',
  examines: 'standards with a recognition',
  subjects: ({ graph }) =>
    graph
      .recordsOf('standard')
      .filter(
        ({ status, fields }) =>
          status !== 'retired' &&
          fields.recognition !== undefined &&
          fields.recognition.trim().toLowerCase() !== 'not checked',
      ),
  judge: (standard) =>
    standard.fields.recognition_checked === undefined
      ? [
          {
            place: placeOf(standard, 'recognition'),
            message: `${standard.id} says "${standard.fields.recognition}", and not when that was looked up`,
            hint: 'Add "recognition_checked" with the day, or write "not checked".',
            records: [standard.id],
          },
        ]
      : [],
});

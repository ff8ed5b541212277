import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const independentReviewerMissing = defineCheck({
  code: 'independent-reviewer-missing',
  level: 'warning',
  title: 'A design review names no independent reviewer',
  basis: 'ISO 13485:2016 7.3.5 (specialists take part); common practice, no source, for independence',
  explain:
    'The review does not say who took part without direct responsibility for what was reviewed. Those who made a design see what they meant; somebody from outside sees what is there.\n\nSmall teams skip this easily, and errors that one fresh look would have found come out in tests or in patients.\n\nName the role or the person under `independent_reviewer`: a colleague from another project, or an expert from outside the company.',
  examines: 'design reviews',
  subjects: ({ graph }) => graph.recordsOf('design-review').filter((review) => review.status !== 'retired'),
  judge: (review) =>
    (review.fields.independent_reviewer ?? '').trim() !== ''
      ? []
      : [
          {
            place: placeOf(review, 'present'),
            message: `${review.id} "${review.title}" names no independent reviewer`,
            hint: 'Add "independent_reviewer" with somebody who is not responsible for what was reviewed.',
            records: [review.id],
          },
        ],
});

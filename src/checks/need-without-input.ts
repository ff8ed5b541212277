import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const needWithoutInput = defineCheck({
  code: 'need-without-input',
  level: 'error',
  title: 'A user need has no design input',
  basis: 'ISO 13485:2016 7.3.3',
  explain:
    'No design input derives from the need, so nothing measurable says what the device must do about it, and nothing can be verified.\n\nAdd a design input with the need under `derives_from`, or retire the need with a reason.',
  awaits: ['design-input'],
  examines: 'user needs',
  subjects: ({ graph }) => graph.recordsOf('user-need').filter((need) => need.status !== 'retired'),
  judge: (need, { graph }) =>
    graph.sources(need.id, 'derives_from', 'design-input').length > 0
      ? []
      : [
          {
            place: placeOf(need, 'id'),
            message: `${need.id} "${need.title}" has no design input`,
            hint: `Add a design input with "derives_from: [${need.id}]" (plinth new design-input).`,
            records: [need.id],
          },
        ],
});

import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const standardTransitionOver = defineCheck({
  code: 'standard-transition-over',
  level: 'warning',
  title: 'The transition to a later edition is over, and the file still works to the older one',
  basis: 'Regulation (EU) 2017/745 Article 8(1); ISO 13485:2016 4.2.4 (control of external documents)',
  explain:
    'The record says until when the older edition may still be used. That day has passed, and the record is in force with the older edition.\n\nWhat was tested to the older edition may stand on its own, but a presumption of conformity or a recognition that went with it has ended, and a reviewer will ask.\n\nAdopt the later edition, with the gap analysis and what it asks for, in a record of its own, and retire this one. Or correct the day, where an authority has moved it.',
  examines: 'standards with a day until which they may be used',
  subjects: ({ graph }) =>
    graph
      .recordsOf('standard')
      .filter(
        ({ status, fields }) => status !== 'retired' && fields.superseded_by?.transition_until !== undefined,
      ),
  judge: (standard, { asOf }) => {
    const { superseded_by: later, designation, edition } = standard.fields;
    const until = later?.transition_until;
    if (later === undefined || until === undefined || until >= asOf) return [];
    return [
      {
        place: placeOf(standard, 'superseded_by', 'transition_until'),
        message: `${standard.id} lists ${designation}:${edition}, which could be used until ${until}; the later edition is ${later.edition}`,
        hint: 'Adopt the later edition and retire this record, or correct the day.',
        records: [standard.id],
        data: { until },
      },
    ];
  },
});

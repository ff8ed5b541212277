import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const informationControlNotInStudy = defineCheck({
  code: 'information-control-not-in-study',
  level: 'warning',
  title: 'Information for safety is not shown to work in a study with users',
  basis: 'ISO 14971:2019 7.2; IEC 62366-1:2015 with Amendment 1:2020, 5.9 (both from memory)',
  explain:
    'The measure is information for safety, and none of the protocols that show its effect is a validation protocol in force with users of the final design. An inspection shows that a sentence is printed; only users show that it is seen, understood and followed. A formative study does not show it of the final wording.\n\nHave a task in a study that depends on the information, and name the protocol under `shown_by`.',
  awaits: ['validation-protocol'],
  examines: 'controls that are information for safety',
  subjects: ({ graph }) =>
    graph
      .recordsOf('risk-control')
      .filter((record) => record.status !== 'retired' && record.fields.option === 'information for safety'),
  judge: (control, { graph }) => {
    const studies = graph.targets(control.id, 'shown_by', 'validation-protocol');
    if (studies.some((study) => study.status !== 'retired' && study.fields.study !== 'formative')) return [];
    const named = control.fields.shown_by ?? [];
    return [
      {
        place: placeOf(control, named.length > 0 ? 'shown_by' : 'option'),
        message: `${control.id} "${control.title}" is information for safety, but ${
          named.length > 0
            ? `none of ${named.join(', ')} is a study with users of the final design`
            : 'nothing shows its effect'
        }`,
        hint: 'Name a validation protocol under "shown_by" in which users do a task that depends on the information.',
        records: [control.id, ...named],
      },
    ];
  },
});

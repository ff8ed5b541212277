import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const controlNotApproved = defineCheck({
  code: 'control-not-approved',
  level: 'warning',
  title: 'An approved risk counts on a control that nobody has approved',
  basis: 'ISO 14971:2019 7.2 and 7.3 (from memory); ISO 13485:2016 4.2.4',
  explain:
    'The risk is approved with its estimate after control, and a control that names it under `controls` is still a draft or in review. The measure can change tomorrow without anyone being asked, and the low probability after control counts on it.\n\nHave the control approved, or set the risk back until it is. A measure that is only an idea can stay out of `controls` until it is decided on.',
  examines: 'risk controls',
  subjects: ({ graph }) =>
    graph
      .recordsOf('risk-control')
      .filter((control) => control.status !== 'retired')
      .map((control) => ({
        control,
        risks: graph.targets(control.id, 'controls', 'risk').filter((risk) => risk.status === 'approved'),
      })),
  judge: ({ control, risks }) => {
    if (control.status === 'approved' || risks.length === 0) return [];
    const state = control.status === 'draft' ? 'a draft' : control.status;
    const ids = risks.map((risk) => risk.id);
    return [
      {
        place: placeOf(control, 'status'),
        message: `${control.id} "${control.title}" is ${state}, and ${ids.join(', ')} ${ids.length === 1 ? 'is' : 'are'} approved with ${ids.length === 1 ? 'an estimate that counts' : 'estimates that count'} on it`,
        hint: `Have ${control.id} approved, or set ${ids.join(', ')} back until it is.`,
        records: [control.id, ...ids],
        related: risks.map((risk) => ({
          place: placeOf(risk, 'after'),
          message: `the estimate of ${risk.id}`,
        })),
      },
    ];
  },
});

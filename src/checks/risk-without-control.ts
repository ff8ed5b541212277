import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const riskWithoutControl = defineCheck({
  code: 'risk-without-control',
  level: 'warning',
  title: 'No measure controls a risk',
  basis: 'Regulation (EU) 2017/745 Annex I 2 and 4',
  explain:
    'No risk control names the risk under `controls`. European law asks that every risk be reduced as far as possible, also one that the criteria would accept as it is: a low number does not replace the search for a measure.\n\nFor the patient, a cheap change of design that nobody looked for is a harm that could have been spared. A reviewer will ask which options were considered.\n\nAdd the measures that are already there (often a dimension, a material or a test at the end of the line), or look for one. Where nothing can be done, say so under `alarp` and waive this finding with that reason.',
  awaits: ['risk-control'],
  examines: 'risks',
  subjects: ({ graph }) => graph.recordsOf('risk').filter((risk) => risk.status !== 'retired'),
  judge: (risk, { graph }) =>
    graph.sources(risk.id, 'controls', 'risk-control').length > 0
      ? []
      : [
          {
            place: placeOf(risk, 'id'),
            message: `${risk.id} "${risk.title}" has no risk control`,
            hint: `Add a risk control with "controls: [${risk.id}]".`,
            records: [risk.id],
          },
        ],
});

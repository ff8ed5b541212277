import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const riskWithoutSurveillance = defineCheck({
  code: 'risk-without-surveillance',
  level: 'warning',
  title: 'No source of the surveillance plan watches a risk',
  basis: 'Regulation (EU) 2017/745 Annex I 3(e); ISO 14971:2019 10.1 (from memory)',
  explain:
    'There is a surveillance plan, and none of its sources informs this risk. The estimate of its probability then stays a guess for as long as the device is sold, and nobody would notice that it was wrong.\n\nName under `informs` of a source which risks it tells of. Where nothing in the field could ever tell of the risk, add a source that can, such as the literature or a test of returned units.',
  examines: 'risks of files with a surveillance plan',
  subjects: ({ graph }) =>
    graph.recordsOf('surveillance-plan').some((plan) => plan.status !== 'retired')
      ? graph.recordsOf('risk').filter((risk) => risk.status !== 'retired')
      : [],
  judge: (risk, { graph }) => {
    const plans = graph.recordsOf('surveillance-plan').filter((plan) => plan.status !== 'retired');
    if (plans.some((plan) => plan.fields.sources.some((source) => source.informs.includes(risk.id))))
      return [];
    return [
      {
        place: placeOf(risk, 'id'),
        message: `${risk.id} "${risk.title}" is watched by no source of ${plans.map((plan) => plan.id).join(', ')}`,
        hint: `Name ${risk.id} under "informs" of a source that tells of it.`,
        records: [risk.id],
        related: plans.map((plan) => ({
          place: placeOf(plan, 'sources'),
          message: `the sources of ${plan.id}`,
        })),
      },
    ];
  },
});

import { termHint, termOf } from '../evidence/risk-vocabulary.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const harmNotInVocabulary = defineCheck({
  code: 'harm-not-in-vocabulary',
  level: 'warning',
  title: 'A risk names a harm that the plan does not list, or lists as a hazard',
  basis: 'common practice, no source; ISO 14971:2019 3 (from memory) for the difference of hazard and harm',
  explain:
    'The risk management plan lists the words for harms. This risk uses another word, or one that the plan lists as a hazard.\n\nComplaints and field data are counted by harm. A harm under two names is counted twice by half, and its severity is judged twice, perhaps differently.\n\nUse the word of the plan, or add the new one to its vocabulary, with its severity, and have the plan approved again.',
  examines: 'risks, where the plan has a vocabulary of harms',
  subjects: ({ graph, project }) =>
    (project.riskPlan?.fields.vocabulary?.harms ?? []).length > 0
      ? graph.recordsOf('risk').filter((risk) => risk.status !== 'retired')
      : [],
  judge: (risk, { project }) => {
    const plan = project.riskPlan;
    const { harms = [], hazards } = plan?.fields.vocabulary ?? {};
    const { harm } = risk.fields;
    if (!plan || termOf(harms, harm)) return [];
    const hazard = termOf(hazards, harm);
    return [
      {
        place: placeOf(risk, 'harm'),
        message: `${risk.id} has the harm "${harm}", which ${plan.id} ${hazard ? 'lists as a hazard' : 'does not list'}`,
        hint: hazard ? 'Name the injury that comes of it.' : termHint(harms, harm),
        records: [risk.id, plan.id],
        related: [{ place: placeOf(plan, 'vocabulary'), message: `the vocabulary of ${plan.id}` }],
      },
    ];
  },
});

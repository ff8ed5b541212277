import { termHint, termOf } from '../evidence/risk-vocabulary.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const hazardNotInVocabulary = defineCheck({
  code: 'hazard-not-in-vocabulary',
  level: 'warning',
  title: 'A risk names a hazard that the plan does not list, or lists as a harm',
  basis: 'common practice, no source; ISO 14971:2019 3 (from memory) for the difference of hazard and harm',
  explain:
    'The risk management plan lists the words for hazards. This risk uses another word, or one that the plan lists as a harm.\n\nThe same hazard under two names falls apart: nobody sees all that can come from it, and the trace from each hazard to its controls has a gap. A harm in the place of the hazard hides the source that a measure could remove.\n\nUse the word of the plan, or add the new one to its vocabulary and have the plan approved again.',
  examines: 'risks, where the plan has a vocabulary of hazards',
  subjects: ({ graph, project }) =>
    (project.riskPlan?.fields.vocabulary?.hazards ?? []).length > 0
      ? graph.recordsOf('risk').filter((risk) => risk.status !== 'retired')
      : [],
  judge: (risk, { project }) => {
    const plan = project.riskPlan;
    const { hazards = [], harms } = plan?.fields.vocabulary ?? {};
    const { hazard } = risk.fields;
    if (!plan || termOf(hazards, hazard)) return [];
    const harm = termOf(harms, hazard);
    return [
      {
        place: placeOf(risk, 'hazard'),
        message: `${risk.id} has the hazard "${hazard}", which ${plan.id} ${harm ? 'lists as a harm' : 'does not list'}`,
        hint: harm ? 'Name the source that the harm comes from.' : termHint(hazards, hazard),
        records: [risk.id, plan.id],
        related: [{ place: placeOf(plan, 'vocabulary'), message: `the vocabulary of ${plan.id}` }],
      },
    ];
  },
});

import { hasUnreadRiskPlan } from '../evidence/criteria-in-force.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const riskPlanMissing = defineCheck({
  code: 'risk-plan-missing',
  level: 'warning',
  title: 'Risks are judged by criteria that nobody has approved',
  basis: 'Regulation (EU) 2017/745 Annex I 3(a); ISO 14971:2019 4.4 (from memory)',
  explain:
    'The file holds risks or risk criteria, but no record of type risk-plan, or approved risks and a plan that is still a draft. The criteria under `risk` in plinth.yaml still hold, yet plinth.yaml is not a record: it bears no approval and no date, and nobody can see that it stood before the analysis.\n\nWhoever sets the line between acceptable and not after the risks are known can draw it round them. That is why the law asks for a plan, and why inspectors look at its date first.\n\nWrite a risk management plan with `plinth new risk-plan`, move `risk` and `sampling_policy` of plinth.yaml into it (the former as `criteria`), and have it approved before the analysis.',
  awaits: ['risk-plan'],
  awaitsAnywhere: true,
  examines: 'risk criteria in force',
  subjects: ({ graph, project }) =>
    project.fields.risk || graph.recordsOf('risk').some((risk) => risk.status !== 'retired')
      ? ['the file']
      : [],
  judge: (_, { graph, project }) => {
    const risks = graph.recordsOf('risk').filter((risk) => risk.status !== 'retired');
    const plan = project.riskPlan;
    const approved = risks.filter((risk) => risk.status === 'approved');
    if (plan && plan.status !== 'approved' && approved.length > 0)
      return [
        {
          place: placeOf(plan, 'status'),
          message: `${plan.id} is ${plan.status === 'draft' ? 'a draft' : plan.status}, and ${approved.length} approved ${approved.length === 1 ? 'risk is' : 'risks are'} judged by its criteria`,
          hint: `Have ${plan.id} approved; its criteria have to stand before the analysis.`,
          records: [plan.id],
          data: { risks: approved.length },
        },
      ];
    if (plan || hasUnreadRiskPlan(graph)) return [];
    const [first] = risks;
    return [
      {
        place: project.fields.risk || !first ? project.yaml.place(['risk'], 'key') : placeOf(first, 'id'),
        message: `the file has no risk management plan, so nobody has approved the criteria that its risks are judged by: ${risks.length} in the file`,
        hint: 'Write a risk management plan (plinth new risk-plan), and move the criteria of plinth.yaml into it.',
        records: [],
        data: { risks: risks.length },
      },
    ];
  },
});

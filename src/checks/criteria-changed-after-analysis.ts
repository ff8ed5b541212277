import { currentRiskPlans } from '../evidence/criteria-in-force.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const criteriaChangedAfterAnalysis = defineCheck({
  code: 'criteria-changed-after-analysis',
  level: 'warning',
  title: 'The risk plan was changed, and risks were not judged by it again',
  basis: 'Regulation (EU) 2017/745 Annex I 3(a) and (c); ISO 14971:2019 4.4 and 6 (from memory)',
  explain:
    'The risk management plan as it stands was approved later than some of its risks, and an earlier approval was for other content. Those risks were judged by criteria that no longer hold; in every table they now look as if they had been judged by the new ones.\n\nCriteria that are loosened after the analysis make risks acceptable that nobody has accepted.\n\nJudge each risk by the plan as it is now and have it approved again, and then the review of the overall residual risk. Say in the plan why it was changed.',
  examines: 'approved risks under a plan that was approved more than once',
  subjects: ({ graph, approvals }) => {
    const [plan] = currentRiskPlans(graph.records.values());
    const states = plan ? (approvals.of(plan.id)?.states ?? []) : [];
    const digest = plan && approvals.digests.get(plan.id);
    const present = states
      .filter((state) => state.approval.digest === digest)
      .map((state) => state.approval.date)
      .toSorted()[0];
    const wasOther = states.some(
      (state) => state.approval.digest !== digest && present !== undefined && state.approval.date <= present,
    );
    if (!plan || present === undefined || !wasOther) return [];
    return graph
      .recordsOf('risk')
      .filter((risk) => risk.status === 'approved')
      .map((risk) => ({ risk, plan, present }));
  },
  judge: ({ risk, plan, present }) => {
    const last = (risk.fields.approvals ?? [])
      .map((each) => each.date)
      .toSorted()
      .at(-1);
    if (last === undefined || last >= present) return [];
    return [
      {
        place: placeOf(risk, 'approvals'),
        message: `${risk.id} was last approved on ${last}, before ${plan.id} as it stands was approved on ${present}`,
        hint: `Judge ${risk.id} by the plan as it is now and approve it again.`,
        records: [risk.id, plan.id],
        related: [{ place: placeOf(plan, 'approvals'), message: `the approvals of ${plan.id}` }],
        data: { risk: last, plan: present },
      },
    ];
  },
});

import { currentRiskPlans } from '../evidence/criteria-in-force.ts';
import { requiredRoles } from '../graph/approvals.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type CheckContext, defineCheck } from './check.ts';

type Approvals = readonly { readonly role: string; readonly date: string }[];

const earliest = (approvals: Approvals): string | undefined =>
  approvals.map((each) => each.date).toSorted()[0];

/** Day by which every required role had approved the plan for the first time; undefined where one has not. */
const approvedOn = (plan: RecordOf<'risk-plan'>, { project }: CheckContext): string | undefined => {
  const approvals = plan.fields.approvals ?? [];
  const roles = requiredRoles(project.fields, plan.type);
  if (roles.length === 0) return earliest(approvals);
  const days = roles.map((role) => earliest(approvals.filter((each) => each.role === role)));
  return days.includes(undefined) ? undefined : days.toSorted().at(-1);
};

export const riskPlanApprovedAfterAnalysis = defineCheck({
  code: 'risk-plan-approved-after-analysis',
  level: 'warning',
  title: 'A risk was approved before the plan that sets the criteria',
  basis: 'Regulation (EU) 2017/745 Annex I 3(a) and (b); ISO 14971:2019 4.4 (from memory)',
  explain:
    'The first approval of a risk is earlier than that of the risk management plan, or the plan is not approved at all. The plan sets what is acceptable, and has to stand before anybody knows what the analysis will find.\n\nCriteria that come after the risks can be fitted to them, and nobody can tell later whether they were. Inspectors compare these two dates.\n\nHave the plan approved before the next risk is. Where an earlier plan stood before the analysis in another form, say so in the plan and keep its approval among the approvals with its true date. Do not change the date of an approval.',
  examines: 'risk management plans with approved risks',
  subjects: ({ graph }) => {
    const [plan] = currentRiskPlans(graph.records.values());
    const risks = graph
      .recordsOf('risk')
      .flatMap((risk) => {
        const date = risk.status === 'retired' ? undefined : earliest(risk.fields.approvals ?? []);
        return date === undefined ? [] : [{ risk, date }];
      })
      .toSorted((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
    return plan && risks.length > 0 ? [{ plan, risks }] : [];
  },
  judge: ({ plan, risks }, context) => {
    const planned = approvedOn(plan, context);
    const early = risks.filter(({ date }) => planned === undefined || date < planned);
    const [first] = early;
    if (!first) return [];
    return [
      {
        place: placeOf(plan, plan.fields.approvals ? 'approvals' : 'status'),
        message: `${plan.id} ${planned === undefined ? 'lacks an approval that had to come before' : `was approved on ${planned} and not before`} ${early.length} of ${risks.length} risks, the first of them ${first.risk.id} on ${first.date}`,
        hint: 'Have the plan approved before further risks are, and say in it what stood before the analysis.',
        records: [plan.id, ...early.map(({ risk }) => risk.id)],
        related: [
          { place: placeOf(first.risk, 'approvals'), message: `${first.risk.id}, approved on ${first.date}` },
        ],
        data: { first_risk: first.date, ...(planned === undefined ? {} : { plan: planned }) },
      },
    ];
  },
});

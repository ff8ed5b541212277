import { currentRiskPlans } from '../evidence/criteria-in-force.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type CheckContext, type Draft, defineCheck } from './check.ts';

const standsInYaml = ({ project }: CheckContext, field: string): boolean =>
  project.yaml.value !== null &&
  typeof project.yaml.value === 'object' &&
  Object.hasOwn(project.yaml.value, field);

/** What a plan holds, by the names of plinth.yaml. */
const held = (plan: RecordOf<'risk-plan'>): readonly (readonly [string, string])[] => [
  ['risk', 'criteria'],
  ...(plan.fields.sampling_policy ? [['sampling_policy', 'sampling_policy'] as const] : []),
];

const besidePlinthYaml = (plan: RecordOf<'risk-plan'>, context: CheckContext): readonly Draft[] =>
  held(plan).flatMap(([field, own]) =>
    standsInYaml(context, field)
      ? [
          {
            place: context.project.yaml.place([field], 'key'),
            message: `plinth.yaml has "${field}", and ${plan.id} has "${own}": those of ${plan.id} are in force`,
            hint: `Remove "${field}" from plinth.yaml.`,
            records: [plan.id],
            related: [{ place: placeOf(plan, own), message: `those of ${plan.id}` }],
          },
        ]
      : [],
  );

export const riskCriteriaTwice = defineCheck({
  code: 'risk-criteria-twice',
  level: 'error',
  title: 'Risk criteria stand in two places',
  basis: 'common practice, no source: one rule has one place',
  explain:
    'The criteria for risks, or the sampling policy, stand in plinth.yaml as well as in the risk management plan, or the file has two approved plans, or several drafts and none that is approved. Plinth uses those of the plan; of two plans it uses the approved one, and a draft beside it is the next one in preparation.\n\nTwo lines between acceptable and not will drift apart, and a reader who finds the other one reads another file than the one that was judged.\n\nRemove the fields from plinth.yaml that the plan has. Where a new plan replaces an old one, change the record and have it approved again, or set the old one to `retired`.',
  examines: 'risk management plans',
  subjects: ({ graph }) => currentRiskPlans(graph.records.values()),
  judge: (plan, context) => {
    const [inForce] = currentRiskPlans(context.graph.records.values());
    if (!inForce || plan.id === inForce.id) return besidePlinthYaml(plan, context);
    // The next plan is prepared beside the one in force.
    if (inForce.status === 'approved' && plan.status !== 'approved') return [];
    return [
      {
        place: placeOf(plan, 'criteria'),
        message: `${plan.id} "${plan.title}" is a second risk management plan beside ${inForce.id}, whose criteria are in force`,
        hint: `Set ${plan.id} or ${inForce.id} to retired.`,
        records: [plan.id, inForce.id],
        related: [{ place: placeOf(inForce, 'criteria'), message: `the criteria of ${inForce.id}` }],
      },
    ];
  },
});

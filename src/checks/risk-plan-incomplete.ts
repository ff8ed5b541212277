import { currentRiskPlans } from '../evidence/criteria-in-force.ts';
import { termOf } from '../evidence/risk-vocabulary.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

const missing = (plan: RecordOf<'risk-plan'>): readonly Draft[] => {
  const { criteria, overall_residual_risk, verification_of_controls, information_after_release } =
    plan.fields;
  const parts = [
    {
      has: criteria.not_estimable !== undefined,
      path: ['criteria'],
      words: 'no criteria for risks whose probability cannot be estimated',
      hint: 'Add "not_estimable" under "criteria".',
    },
    {
      has: overall_residual_risk !== undefined,
      path: ['id'],
      words: 'no method and criteria for the overall residual risk',
      hint: 'Add "overall_residual_risk".',
    },
    {
      has: verification_of_controls !== undefined,
      path: ['id'],
      words: 'nothing on how risk controls are verified',
      hint: 'Add "verification_of_controls".',
    },
    {
      has: information_after_release !== undefined,
      path: ['id'],
      words: 'nothing on information from production and afterwards',
      hint: 'Add "information_after_release".',
    },
  ];
  return parts
    .filter(({ has }) => !has)
    .map(({ path, words, hint }) => ({
      place: placeOf(plan, ...path),
      message: `${plan.id} "${plan.title}" has ${words}`,
      hint,
      records: [plan.id],
    }));
};

const unclearWords = (plan: RecordOf<'risk-plan'>): readonly Draft[] => {
  const { criteria, vocabulary } = plan.fields;
  const classes = criteria.severities.map((each) => each.class);
  return (vocabulary?.harms ?? []).flatMap(({ term, severity }, index): readonly Draft[] => [
    ...(severity === undefined || classes.includes(severity)
      ? []
      : [
          {
            place: placeOf(plan, 'vocabulary', 'harms', index, 'severity'),
            message: `${plan.id} gives the harm "${term}" the severity ${severity}, which its criteria do not have`,
            hint: `Use one of: ${classes.join(', ')}.`,
            records: [plan.id],
          },
        ]),
    ...(termOf(vocabulary?.hazards, term)
      ? [
          {
            place: placeOf(plan, 'vocabulary', 'harms', index, 'term'),
            message: `${plan.id} lists "${term}" as a hazard and as a harm`,
            hint: 'Keep it where it belongs: a hazard is what the harm comes from.',
            records: [plan.id],
          },
        ]
      : []),
  ]);
};

export const riskPlanIncomplete = defineCheck({
  code: 'risk-plan-incomplete',
  level: 'warning',
  title: 'The risk management plan leaves a question open',
  basis: 'ISO 14971:2019 4.4 (from memory)',
  explain:
    'A plan says beforehand how risks are judged. This one does not say what holds where the probability of harm cannot be estimated, how the residual risks are judged together, how controls are verified, or what is collected after release; or its vocabulary contradicts itself.\n\nWhat the plan leaves open is decided when the result is known, by whoever needs it. A reviewer looks for each of these parts by name.\n\nWrite the part that the message names, and have the plan approved again. What belongs in it is for people to decide.',
  examines: 'risk management plans',
  subjects: ({ graph }) => currentRiskPlans(graph.records.values()),
  judge: (plan) => [...missing(plan), ...unclearWords(plan)],
});

import { hasUnreadRiskPlan } from '../evidence/criteria-in-force.ts';
import { criteriaFaults } from '../evidence/risk-criteria-faults.ts';
import { nearestName } from '../records/nearest-name.ts';
import { criteriaOrigin } from '../records/project.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type CheckContext, type Draft, defineCheck } from './check.ts';

const judgeCriteria = ({ project, graph }: CheckContext): readonly Draft[] => {
  if (!project.fields.risk)
    return hasUnreadRiskPlan(graph)
      ? []
      : [
          {
            place: project.yaml.place(['device'], 'key'),
            message: `plinth.yaml has no risk criteria, so risks cannot be judged: ${graph.recordsOf('risk').length} in the file`,
            hint: 'Write a risk management plan with criteria (plinth new risk-plan).',
            records: [],
          },
        ];
  return criteriaFaults(project.fields).map(({ path, message, hint }) => {
    const { place, owner, records } = criteriaOrigin(project, path);
    return { place, message: `${owner}: ${message}`, hint, records };
  });
};

const judgeRisk = (risk: RecordOf<'risk'>, { project }: CheckContext): readonly Draft[] => {
  const criteria = project.fields.risk;
  if (!criteria) return [];
  const classes = criteria.severities.map((severity) => severity.class);
  const origin = criteriaOrigin(project, ['risk', 'severities']);
  const named = [
    { path: ['severity'], severity: risk.fields.severity },
    { path: ['after', 'severity'], severity: risk.fields.after.severity },
  ];
  const unknown = named.flatMap(({ path, severity }): readonly Draft[] => {
    if (severity === undefined || classes.includes(severity)) return [];
    const near = nearestName(severity, classes);
    return [
      {
        place: placeOf(risk, ...path),
        message: `${risk.id} has the severity ${severity}, which ${origin.owner} does not have`,
        hint: near ? `Did you mean "${near}"?` : `Use one of: ${classes.join(', ')}.`,
        records: [risk.id],
        related: [{ place: origin.place, message: 'the severity classes' }],
      },
    ];
  });
  const open = (['before', 'after'] as const).filter((when) => risk.fields[when].not_estimable !== undefined);
  const [first] = criteria.not_estimable ? [] : open;
  return first === undefined
    ? unknown
    : [
        ...unknown,
        {
          place: placeOf(risk, first, 'not_estimable'),
          message: `${risk.id} has a probability of harm that cannot be estimated, and ${origin.owner} does not say what holds then`,
          hint: 'Add "not_estimable" to the criteria: up to which severity such a risk may stand.',
          records: [risk.id, ...origin.records],
        },
      ];
};

export const riskCriteriaIncomplete = defineCheck({
  code: 'risk-criteria-incomplete',
  level: 'error',
  title: 'The risk criteria have a gap or contradict themselves',
  basis: 'Regulation (EU) 2017/745 Annex I 3(a) and 3(c); ISO 14971:2019 4.4 (from memory)',
  explain:
    'The criteria of the risk management plan (or under `risk` in plinth.yaml, where there is no plan) must answer for every risk: the bands rise and the last one is open, so that each probability lies in one band; each severity class has a band up to which it is acceptable, and a graver class none that is higher than that of a milder one; the sampling policy and the risks use the same classes. Somewhere they do not.\n\nA risk that falls into a gap is not judged at all, and in a table that looks like a risk without a fault.\n\nMend the entry that the message names, as the risk management plan has it. Where the plan has the gap, mend the plan first and have it approved.',
  examines: 'risk criteria and the risks that use them',
  subjects: ({ graph, project }): readonly ('criteria' | RecordOf<'risk'>)[] => {
    const risks = graph.recordsOf('risk').filter((risk) => risk.status !== 'retired');
    return risks.length > 0 || project.fields.risk ? ['criteria', ...risks] : [];
  },
  judge: (subject, context) =>
    subject === 'criteria' ? judgeCriteria(context) : judgeRisk(subject, context),
});

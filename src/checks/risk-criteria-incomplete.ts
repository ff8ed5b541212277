import { criteriaFaults } from '../evidence/risk-criteria-faults.ts';
import { nearestName } from '../records/nearest-name.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type CheckContext, type Draft, defineCheck } from './check.ts';

const judgeCriteria = ({ project, graph }: CheckContext): readonly Draft[] => {
  if (!project.fields.risk)
    return [
      {
        place: project.yaml.place(['device'], 'key'),
        message: `plinth.yaml has no risk criteria, so risks cannot be judged: ${graph.recordsOf('risk').length} in the file`,
        hint: 'Add "risk" with severities, probability and acceptable, as the risk management plan sets them.',
        records: [],
      },
    ];
  return criteriaFaults(project.fields).map(({ path, message, hint }) => ({
    place: project.yaml.place(path),
    message: `plinth.yaml: ${message}`,
    hint,
    records: [],
  }));
};

const judgeRisk = (risk: RecordOf<'risk'>, { project }: CheckContext): readonly Draft[] => {
  const classes = project.fields.risk?.severities.map((severity) => severity.class);
  const { severity } = risk.fields;
  if (!classes || classes.includes(severity)) return [];
  const near = nearestName(severity, classes);
  return [
    {
      place: placeOf(risk, 'severity'),
      message: `${risk.id} has the severity ${severity}, which plinth.yaml does not have`,
      hint: near ? `Did you mean "${near}"?` : `Use one of: ${classes.join(', ')}.`,
      records: [risk.id],
      related: [{ place: project.yaml.place(['risk', 'severities']), message: 'the severity classes' }],
    },
  ];
};

export const riskCriteriaIncomplete = defineCheck({
  code: 'risk-criteria-incomplete',
  level: 'error',
  title: 'The risk criteria have a gap or contradict themselves',
  basis: 'Regulation (EU) 2017/745 Annex I 3(a) and 3(c); ISO 14971:2019 4.4 (from memory)',
  explain:
    'The criteria under `risk` in plinth.yaml must answer for every risk: the bands rise and the last one is open, so that each probability lies in one band; each severity class has a band up to which it is acceptable; the sampling policy and the risks use the same classes. Somewhere they do not.\n\nA risk that falls into a gap is not judged at all, and in a table that looks like a risk without a fault.\n\nMend the entry that the message names, as the risk management plan has it. Where the plan has the gap, mend the plan first and have it approved.',
  examines: 'risk criteria and the risks that use them',
  subjects: ({ graph, project }): readonly ('criteria' | RecordOf<'risk'>)[] => {
    const risks = graph.recordsOf('risk').filter((risk) => risk.status !== 'retired');
    return risks.length > 0 || project.fields.risk ? ['criteria', ...risks] : [];
  },
  judge: (subject, context) =>
    subject === 'criteria' ? judgeCriteria(context) : judgeRisk(subject, context),
});

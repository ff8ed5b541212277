import { placeOf, type RecordOf } from '../records/record.ts';
import { type CheckContext, type Draft, defineCheck } from './check.ts';

/** Position in the scale from which information alone is too little: the third class. */
const firstSevereClass = 2;

const judgeRisk = (risk: RecordOf<'risk'>, { graph, project }: CheckContext): readonly Draft[] => {
  const classes = project.fields.risk?.severities.map((severity) => severity.class) ?? [];
  const controls = graph.sources(risk.id, 'controls', 'risk-control');
  if (classes.indexOf(risk.fields.severity) < firstSevereClass || controls.length === 0) return [];
  if (controls.some((control) => control.fields.option !== 'information for safety')) return [];
  const ids = controls.map((control) => control.id);
  return [
    {
      place: placeOf(risk, 'severity'),
      message: `${risk.id} of severity ${risk.fields.severity} is controlled by information only: ${ids.join(', ')}`,
      hint: 'Look for a measure in the design or a protective measure, and write down why none is possible if you find none.',
      records: [risk.id, ...ids],
      related: controls.map((control) => ({
        place: placeOf(control, 'option'),
        message: `${control.id} is information`,
      })),
    },
  ];
};

export const informationOnlyControl = defineCheck({
  code: 'information-only-control',
  level: 'warning',
  title: 'A risk is left to what users are told',
  basis: 'Regulation (EU) 2017/745 Annex I 4(a) to (c); ISO 14971:2019 7.1 (from memory)',
  explain:
    'The law gives an order: safe design first, then protective measures, and information last. A risk of the third severity class or a higher one has no other control than information.\n\nLabels are overlooked and instructions are not read in an operation. A severe harm that only a sentence stands against will happen to somebody.\n\nLook again for a shape, a dimension or a guard that does the work of the sentence. If there is none, write the reason under `option_reason`; the warning stays, to be waived by the people who answer for it.',
  awaits: ['risk-control'],
  examines: 'risks',
  subjects: ({ graph }) => graph.recordsOf('risk').filter((risk) => risk.status !== 'retired'),
  judge: judgeRisk,
});

import { probabilityOfHarm } from '../evidence/risk-estimate.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type CheckContext, type Draft, defineCheck } from './check.ts';

const inWords = (probability: number): string => String(Number(probability.toPrecision(6)));

const severityRises = (risk: RecordOf<'risk'>, { project }: CheckContext): readonly Draft[] => {
  const classes = project.fields.risk?.severities.map((each) => each.class) ?? [];
  const { severity, after } = risk.fields;
  if (after.severity === undefined || classes.indexOf(after.severity) <= classes.indexOf(severity)) return [];
  return [
    {
      place: placeOf(risk, 'after', 'severity'),
      message: `${risk.id} has the severity ${after.severity} after control, ${severity} before`,
      hint: 'Correct the severity, or describe the graver harm as a risk of its own.',
      records: [risk.id],
      related: [{ place: placeOf(risk, 'severity'), message: 'before control' }],
      data: { before: severity, after: after.severity },
    },
  ];
};

export const riskRisesAfterControl = defineCheck({
  code: 'risk-rises-after-control',
  level: 'error',
  title: 'A risk is more probable or graver after control than before',
  basis: 'Regulation (EU) 2017/745 Annex I 4',
  explain:
    'The probability of harm after control (P1 times P2) is greater than before. Or the severity stated after control is graver. Controls lower a risk; one that raises it is no control.\n\nMostly two figures were exchanged or a power of ten slipped. The acceptability of the risk is looked up from these figures, so a slip decides whether a patient bears a risk that was never accepted.\n\nCompare `before` and `after` with the analysis. If a measure really makes this harm more probable, it lowers another risk: describe that one, and name this one under `new_risks` of the control.',
  examines: 'risks',
  subjects: ({ graph }) => graph.recordsOf('risk').filter((risk) => risk.status !== 'retired'),
  judge: (risk, context) => {
    const { project } = context;
    const graver = severityRises(risk, context);
    const before = probabilityOfHarm(risk.fields.before);
    const after = probabilityOfHarm(risk.fields.after);
    // What cannot be estimated on one side cannot be compared.
    if (before === undefined || after === undefined || after <= before) return graver;
    const per = project.fields.risk?.probability.denominator;
    return [
      ...graver,
      {
        place: placeOf(risk, 'after'),
        message: `${risk.id} has the probability of harm ${inWords(after)} after control, ${inWords(before)} before${per ? ` (${per})` : ''}`,
        hint: 'Correct the figures, or describe the risk that the measure lowers.',
        records: [risk.id],
        related: [{ place: placeOf(risk, 'before'), message: 'before control' }],
        data: { before, after },
      },
    ];
  },
});

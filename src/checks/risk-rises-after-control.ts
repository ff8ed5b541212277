import { placeOf, type RecordOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

/** P1 times P2, without the noise of binary fractions. */
const probabilityOfHarm = ({ p1, p2 }: RecordOf<'risk'>['fields']['before']): number =>
  Number((p1 * p2).toPrecision(12));

const inWords = (probability: number): string => String(Number(probability.toPrecision(6)));

export const riskRisesAfterControl = defineCheck({
  code: 'risk-rises-after-control',
  level: 'error',
  title: 'A risk is more probable after control than before',
  basis: 'Regulation (EU) 2017/745 Annex I 4',
  explain:
    'The probability of harm after control (P1 times P2) is greater than before. Controls lower a risk; one that raises it is no control.\n\nMostly two figures were exchanged or a power of ten slipped. The acceptability of the risk is looked up from these figures, so a slip decides whether a patient bears a risk that was never accepted.\n\nCompare `before` and `after` with the analysis. If a measure really makes this harm more probable, it lowers another risk: describe that one, and name this one under `new_risks` of the control.',
  examines: 'risks',
  subjects: ({ graph }) => graph.recordsOf('risk').filter((risk) => risk.status !== 'retired'),
  judge: (risk, { project }) => {
    const before = probabilityOfHarm(risk.fields.before);
    const after = probabilityOfHarm(risk.fields.after);
    if (after <= before) return [];
    const per = project.fields.risk?.probability.denominator;
    return [
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

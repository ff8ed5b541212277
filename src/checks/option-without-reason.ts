import { controlOptionOrder } from '../evidence/control-option-order.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type CheckContext, defineCheck } from './check.ts';

const rank = ({ fields }: RecordOf<'risk-control'>): number => controlOptionOrder.indexOf(fields.option);

/** Risks of a control that no measure of a higher priority controls, and the measures that do so for the others. */
const higherMeasures = (control: RecordOf<'risk-control'>, { graph }: CheckContext) => {
  const risks = graph.targets(control.id, 'controls', 'risk').map((risk) => ({
    id: risk.id,
    higher: graph.sources(risk.id, 'controls', 'risk-control').filter((other) => rank(other) < rank(control)),
  }));
  return {
    alone: risks.filter(({ higher }) => higher.length === 0).map(({ id }) => id),
    higher: [...new Set(risks.flatMap(({ higher }) => higher.map((other) => other.id)))],
  };
};

export const optionWithoutReason = defineCheck({
  code: 'option-without-reason',
  level: 'warning',
  title: 'A later option of risk control was taken without a reason',
  basis: 'Regulation (EU) 2017/745 Annex I 4(a) to (c); ISO 14971:2019 7.1 (from memory)',
  explain:
    'The law gives an order: safe design and manufacture, then protective measures, then information. This control is of a later kind and has no `option_reason`. Either nothing of a higher kind stands against the risk, or something does and the record does not say what it leaves open.\n\nA reviewer who reads "warning in the instructions" asks why the shape of the device does not do it. The answer is mostly known in the room and written down nowhere.\n\nSay under `option_reason` why no measure of higher priority was possible, or what remains that the measure beside it cannot reach. If there is no reason, look for the better measure.',
  examines: 'risk controls that are not inherently safe design',
  subjects: ({ graph }) =>
    graph.recordsOf('risk-control').filter((control) => control.status !== 'retired' && rank(control) > 0),
  judge: (control, context) => {
    if ((control.fields.option_reason ?? '').trim() !== '') return [];
    const { alone, higher } = higherMeasures(control, context);
    const where =
      alone.length > 0
        ? `no measure of higher priority controls ${alone.join(', ')}`
        : `it does not say what ${higher.join(', ')} leaves open`;
    return [
      {
        place: placeOf(control, 'option'),
        message: `${control.id} "${control.title}" is of the option "${control.fields.option}" without a reason: ${where}`,
        hint: 'Add "option_reason": why no measure of higher priority was possible, or what remains beside it.',
        records: [control.id, ...(alone.length > 0 ? alone : higher)],
      },
    ];
  },
});

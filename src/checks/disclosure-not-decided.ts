import { residualRisk } from '../evidence/residual-risk.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const disclosureNotDecided = defineCheck({
  code: 'disclosure-not-decided',
  level: 'warning',
  title: 'Nobody decided whether users are told of a residual risk',
  basis:
    'Regulation (EU) 2017/745 Annex I 4 (inform users of any residual risks) and 23.4(g); ISO 14971:2019 8 (from memory)',
  explain:
    'The residual risk is outside the criteria and stands because people decided that the benefit outweighs it, but it is neither marked `disclosed: true` nor does `undisclosed_reason` say why users need not know of it. Or the instructions for use disclose a risk that is not marked.\n\nA risk that is accepted for the sake of a benefit is the one that a surgeon has to weigh.\n\nMark it and put the statement into the instructions, or give the reason.',
  examines: 'risks',
  subjects: ({ graph }) => graph.recordsOf('risk').filter((risk) => risk.status !== 'retired'),
  judge: (risk, { graph, approvals, project }): readonly Draft[] => {
    if (risk.fields.disclosed === true) return [];
    const told = graph
      .recordsOf('design-output')
      .filter(
        (output) =>
          output.status !== 'retired' && output.fields.discloses?.some((entry) => entry.risk === risk.id),
      );
    const place = placeOf(risk, risk.fields.disclosed === undefined ? 'id' : 'disclosed');
    if (told.length > 0)
      return [
        {
          place,
          message: `${told.map((output) => output.id).join(', ')} discloses ${risk.id}, which is not marked as disclosed`,
          hint: 'Add "disclosed: true" to the risk, or take the statement out of the instructions.',
          records: [risk.id, ...told.map((output) => output.id)],
        },
      ];
    const outcome = residualRisk(risk, graph, approvals, project.fields);
    return outcome.kind !== 'accepted by decision' || (risk.fields.undisclosed_reason ?? '').trim() !== ''
      ? []
      : [
          {
            place,
            message: `${risk.id} "${risk.title}" is outside the criteria and accepted by ${outcome.decision}, and nobody decided whether users are told of it`,
            hint: 'Add "disclosed: true" and the statement to the instructions, or "undisclosed_reason".',
            records: [risk.id, outcome.decision],
          },
        ];
  },
});

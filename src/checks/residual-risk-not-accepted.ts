import { residualRisk } from '../evidence/residual-risk.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const residualRiskNotAccepted = defineCheck({
  code: 'residual-risk-not-accepted',
  level: 'error',
  title: 'A residual risk is not acceptable, and no benefit-risk decision accepts it',
  basis: 'Regulation (EU) 2017/745 Annex I 1, 4 and 8; ISO 14971:2019 7.3 and 7.4 (from memory)',
  explain:
    'After all controls, severity and probability of harm lie outside what the criteria of the risk management plan accept; where the probability cannot be estimated, the severity alone does. Such a risk can only stand if responsible people have decided, with their reasons, that the benefit outweighs it. That decision is missing, says no, is not approved, or its approval no longer fits the content.\n\nThe patient bears this risk. Without a signed decision nobody has answered for it, and the tool does not decide it for you.\n\nLower the risk by further control. Where that is not possible, write a benefit-risk record that `decides` the risk and have the required roles approve it.',
  awaits: ['benefit-risk'],
  examines: 'risks',
  subjects: ({ graph, project }) =>
    project.fields.risk ? graph.recordsOf('risk').filter((risk) => risk.status !== 'retired') : [],
  judge: (risk, { graph, approvals, project }) => {
    const residual = residualRisk(risk, graph, approvals, project.fields);
    if (residual.kind !== 'not accepted') return [];
    const { estimate, gaps } = residual;
    const { severity } = estimate;
    const criteria = project.fields.risk;
    const limit =
      (estimate.kind === 'by probability'
        ? criteria?.acceptable[severity]
        : criteria?.not_estimable?.acceptable_up_to) ?? '';
    const actual =
      estimate.kind === 'by probability'
        ? `of ${severity} in band ${estimate.band}, acceptable up to ${limit}`
        : `of ${severity} whose probability cannot be estimated, acceptable then up to ${limit}`;
    const decision =
      gaps.length === 0
        ? 'no benefit-risk record decides it'
        : gaps.map(({ record, gap }) => `${record.id} ${gap}`).join(' and ');
    return [
      {
        place: placeOf(risk, 'after'),
        message: `${risk.id} has a residual risk ${actual}, and ${decision}`,
        hint:
          gaps.length === 0
            ? `Lower the risk further, or add a benefit-risk record with "decides: [${risk.id}]".`
            : `Lower the risk further, or complete the decision ${gaps.map(({ record }) => record.id).join(', ')}.`,
        records: [risk.id, ...gaps.map(({ record }) => record.id)],
        related: gaps.map(({ record, gap }) => ({
          place: placeOf(record, 'status'),
          message: `${record.id} ${gap}`,
        })),
        data:
          estimate.kind === 'by probability'
            ? { severity, band: estimate.band, acceptable_band: limit, probability: estimate.probability }
            : { severity, acceptable_severity: limit },
      },
    ];
  },
});

import { evidenceTypes } from '../evidence/evidence-types.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

type Decision = RecordOf<'benefit-risk'> | RecordOf<'risk-review'>;

/** The risks that a decision speaks of. */
const risksOf = (decision: Decision, graph: TraceGraph): readonly string[] =>
  (decision.type === 'benefit-risk'
    ? decision.fields.decides
    : (decision.fields.overall_residual_risk.considered.records ?? [])
  ).filter((id) => graph.recordOf('risk', id) !== undefined);

export const decisionOnUnprovenControl = defineCheck({
  code: 'decision-on-unproven-control',
  level: 'warning',
  title: 'A decision on residual risk counts on controls that are not shown to work',
  basis: 'ISO 14971:2019 7.2, 7.4 and 8 (from memory); Regulation (EU) 2017/745 Annex I 4 and 8',
  explain:
    'People decided that a benefit outweighs a risk, or that the overall residual risk is acceptable. The probabilities that they had before them are those after control, and for some of these risks a control is not shown: its evidence failed, does not decide, is in doubt or is still to come.\n\nThe decision was taken on another risk than the one that patients meet.\n\nSettle the evidence of the controls that the message names. Where the estimate after control changes, have the decision taken again.',
  awaits: ['risk-control', ...evidenceTypes],
  examines: 'benefit-risk decisions and risk management reviews',
  subjects: ({ graph }): readonly Decision[] =>
    [...graph.recordsOf('benefit-risk'), ...graph.recordsOf('risk-review')].filter(
      (record) => record.status !== 'retired',
    ),
  judge: (decision, { graph, standing }) => {
    if (decision.status !== 'approved') return [];
    const open = [
      ...new Map(
        risksOf(decision, graph).flatMap((risk) =>
          graph
            .sources(risk, 'controls', 'risk-control')
            .filter((control) => control.status !== 'retired')
            .flatMap((control) => {
              const own = standing.get(control.id);
              return own && own.state !== 'passed'
                ? [
                    [
                      control.id,
                      { risk, control, state: own.state, reason: own.reason, chain: own.because },
                    ] as const,
                  ]
                : [];
            }),
        ),
      ).values(),
    ];
    if (open.length === 0) return [];
    return [
      {
        place: placeOf(
          decision,
          ...(decision.type === 'benefit-risk' ? ['decision'] : ['overall_residual_risk', 'decision']),
        ),
        message: `${decision.id} decided on risks whose controls are not shown: ${open
          .map(({ risk, control, state }) => `${control.id} of ${risk} (${state})`)
          .join(', ')}`,
        hint: `Settle the evidence of ${open[0]?.control.id}${open.length > 1 ? ' and the others' : ''}, and have the decision taken again where an estimate changes.`,
        records: [...new Set([decision.id, ...open.flatMap(({ control, chain }) => [control.id, ...chain])])],
        related: open.map(({ control, reason }) => ({
          place: placeOf(control, 'shown_by'),
          message: reason,
        })),
      },
    ];
  },
});

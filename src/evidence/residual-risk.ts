import { type Approvals, requiredRoles } from '../graph/approvals.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import type { PlinthFields } from '../records/fields.ts';
import type { RecordOf } from '../records/record.ts';
import { estimateRisk, type RiskEstimate } from './risk-estimate.ts';

/** Why a benefit-risk record does not accept a risk. */
export interface DecisionGap {
  readonly record: RecordOf<'benefit-risk'>;
  /** Completes the sentence "BR-01 …". */
  readonly gap: string;
}

export type ResidualRisk =
  /** Criteria are missing or do not cover the risk. */
  | { readonly kind: 'not estimated' }
  | { readonly kind: 'acceptable'; readonly estimate: RiskEstimate }
  | { readonly kind: 'accepted by decision'; readonly estimate: RiskEstimate; readonly decision: string }
  | {
      readonly kind: 'not accepted';
      readonly estimate: RiskEstimate;
      readonly gaps: readonly DecisionGap[];
    };

/**
 * Whether the risk that remains after control is acceptable by the criteria in force or, where it is not,
 * accepted by an approved benefit-risk decision whose approvals are in force (ISO 14971:2019 7.3 and 7.4).
 */
export const residualRisk = (
  risk: RecordOf<'risk'>,
  graph: TraceGraph,
  approvals: Approvals,
  project: PlinthFields,
): ResidualRisk => {
  const estimate = project.risk && estimateRisk(risk.fields.severity, risk.fields.after, project.risk);
  if (!estimate) return { kind: 'not estimated' };
  if (estimate.acceptable) return { kind: 'acceptable', estimate };
  const gaps: DecisionGap[] = [];
  for (const record of graph.sources(risk.id, 'decides', 'benefit-risk')) {
    const gap = decisionGap(record, approvals, project);
    if (gap === undefined) return { kind: 'accepted by decision', estimate, decision: record.id };
    gaps.push({ record, gap });
  }
  return { kind: 'not accepted', estimate, gaps };
};

const decisionGap = (
  record: RecordOf<'benefit-risk'>,
  approvals: Approvals,
  project: PlinthFields,
): string | undefined => {
  if (record.fields.decision !== 'benefit outweighs risk') return `decides "${record.fields.decision}"`;
  const own = approvals.of(record.id);
  const current = own?.states.filter((state) => state.state !== 'replaced') ?? [];
  const roles = requiredRoles(project, record.type);
  const missing = own?.missingRoles ?? roles;
  if (missing.length > 0) return `lacks the approval of ${missing.join(' and ')}`;
  if (
    current.some(
      (state) => state.state === 'lapsed' && (roles.length === 0 || roles.includes(state.approval.role)),
    )
  )
    return 'rests on an approval that has lapsed';
  return record.status === 'approved' ? undefined : `has the status ${record.status}`;
};

/**
 * Risks that no criteria judge, because there are none in force, the plan that holds them could not be read, or they do
 * not cover the risk. That its controls work does not yet say that the risk is acceptable. With the reason as a sentence.
 */
export const unjudgedRisks = (graph: TraceGraph, project: PlinthFields): ReadonlyMap<string, string> =>
  new Map(
    graph
      .recordsOf('risk')
      .filter((risk) => !project.risk || !estimateRisk(risk.fields.severity, risk.fields.after, project.risk))
      .map((risk) => [
        risk.id,
        project.risk
          ? `the criteria in force do not judge ${risk.id}`
          : `there are no criteria by which ${risk.id} could be judged`,
      ]),
  );

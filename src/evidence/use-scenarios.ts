import type { TraceGraph } from '../graph/trace-graph.ts';
import type { PlinthFields } from '../records/fields.ts';
import type { RecordOf } from '../records/record.ts';

type Scenario = RecordOf<'use-scenario'>;
type Protocol = RecordOf<'validation-protocol'>;

/** Position of the class from which a task is critical where plinth.yaml says nothing: the third. */
const usualFirstClass = 2;

/** Why a task is critical: the gravest of its risks that reach the class, or the reason that a person gave. */
export type Criticality =
  | { readonly by: 'risk'; readonly risk: string; readonly severity: string; readonly from: string }
  | { readonly by: 'person'; readonly reason: string };

/**
 * Whether a use scenario is critical, and why. The severity is that of its risks, in the order of plinth.yaml; it
 * counts from `usability.critical_from` on, without that, or where it is no class of the file, from the third. Undefined where nothing makes it
 * critical. A retired risk does not count.
 */
export const criticalityOf = (
  scenario: Scenario,
  graph: TraceGraph,
  project: PlinthFields,
): Criticality | undefined => {
  const order = project.risk?.severities.map((severity) => severity.class) ?? [];
  const named = project.usability?.critical_from;
  const from =
    named !== undefined && order.includes(named) ? named : order[Math.min(usualFirstClass, order.length - 1)];
  const firstRank = from === undefined ? -1 : order.indexOf(from);
  const gravest = graph
    .targets(scenario.id, 'risks', 'risk')
    .filter((risk) => risk.status !== 'retired')
    .map((risk) => ({ risk, rank: order.indexOf(risk.fields.severity) }))
    .filter(({ rank }) => firstRank >= 0 && rank >= firstRank)
    .reduce<{ readonly risk: RecordOf<'risk'>; readonly rank: number } | undefined>(
      (best, each) => (best && best.rank >= each.rank ? best : each),
      undefined,
    );
  if (gravest && from !== undefined)
    return { by: 'risk', risk: gravest.risk.id, severity: gravest.risk.fields.severity, from };
  const reason = scenario.fields.critical_reason;
  return reason === undefined ? undefined : { by: 'person', reason };
};

/** Criticality in words that complete the sentence "The task is critical because …". */
export const criticalityWords = (criticality: Criticality): string =>
  criticality.by === 'risk'
    ? `${criticality.risk} has the severity ${criticality.severity}`
    : `a person says so: ${criticality.reason.replace(/[.]$/, '')}`;

/** Whether a protocol belongs to the summative evaluation. One that does not name its kind does. */
export const isSummative = (protocol: Protocol): boolean =>
  (protocol.fields.study ?? 'summative') === 'summative';

/** Summative protocols in force that a scenario names and that have its task. */
export const summativeStudiesOf = (scenario: Scenario, graph: TraceGraph): readonly Protocol[] =>
  graph
    .targets(scenario.id, 'evaluated_by', 'validation-protocol')
    .filter(
      (protocol) =>
        protocol.status !== 'retired' &&
        isSummative(protocol) &&
        protocol.fields.tasks.some(({ task }) => task === scenario.fields.task),
    );

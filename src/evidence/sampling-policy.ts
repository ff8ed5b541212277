import type { TraceGraph } from '../graph/trace-graph.ts';
import { verifiersOf } from '../graph/verifiers.ts';
import type { PlinthFields } from '../records/fields.ts';

export interface PolicyRequirement {
  readonly severity: string;
  readonly confidence: number;
  readonly reliability: number;
  /** The risk that sets the severity; undefined where no risk is linked and the first entry of the policy holds. */
  readonly risk?: string;
  /** Ids from the risk to the design input, for the finding. */
  readonly path: readonly string[];
}

/**
 * What the sampling policy asks of the protocols of a design input: the highest severity, before control, of the
 * risks that the input helps to control. A risk counts where the input derives from it, where it derives from one of
 * its controls, or where a control is implemented by the input or shown by a protocol that verifies it.
 */
export const requiredByPolicy = (
  graph: TraceGraph,
  project: PlinthFields,
  input: string,
): PolicyRequirement | undefined => {
  const policy = project.sampling_policy ?? [];
  const first = policy[0];
  if (!first) return undefined;
  const order = (project.risk?.severities ?? policy.map((entry) => ({ class: entry.severity }))).map(
    (entry) => entry.class,
  );
  const paths = riskPaths(graph, input);
  let best: PolicyRequirement = { ...first, path: [input] };
  let bestRank = -1;
  for (const path of paths) {
    const risk = graph.recordOf('risk', path[0] ?? '');
    if (!risk) continue;
    const { severity } = risk.fields;
    const rank = order.indexOf(severity);
    const entry = entryFor(policy, order, severity);
    if (entry && rank > bestRank) {
      bestRank = rank;
      best = { ...entry, severity, risk: risk.id, path };
    }
  }
  return best;
};

type Policy = NonNullable<PlinthFields['sampling_policy']>;

/**
 * The entry that holds for a severity: its own, else that of the next graver class, else of the gravest that has one.
 * A gap in the policy must not ask less for a graver harm.
 */
const entryFor = (policy: Policy, order: readonly string[], severity: string): Policy[number] | undefined => {
  const own = policy.find((entry) => entry.severity === severity);
  const rank = order.indexOf(severity);
  if (own || rank === -1) return own;
  const ranked = order.flatMap((name) => policy.find((entry) => entry.severity === name) ?? []);
  return ranked.find((entry) => order.indexOf(entry.severity) > rank) ?? ranked.at(-1);
};

const riskPaths = (graph: TraceGraph, input: string): readonly (readonly string[])[] => {
  const isAlive = (record: { readonly status: string }): boolean => record.status !== 'retired';
  const direct = graph
    .targets(input, 'derives_from', 'risk')
    .filter(isAlive)
    .map((risk) => [risk.id, input]);
  const viaControl = (control: string, tail: readonly string[]): string[][] =>
    graph
      .targets(control, 'controls', 'risk')
      .filter(isAlive)
      .map((risk) => [risk.id, control, ...tail]);
  const derived = graph
    .targets(input, 'derives_from', 'risk-control')
    .filter(isAlive)
    .flatMap((control) => viaControl(control.id, [input]));
  const implemented = graph
    .sources(input, 'implemented_by', 'risk-control')
    .flatMap((control) => viaControl(control.id, [input]));
  const shown = verifiersOf(graph, input).flatMap(({ id: protocol }) =>
    graph
      .sources(protocol, 'shown_by', 'risk-control')
      .flatMap((control) => viaControl(control.id, [protocol, input])),
  );
  return [...direct, ...derived, ...implemented, ...shown];
};

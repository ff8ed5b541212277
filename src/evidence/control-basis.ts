import type { TraceGraph } from '../graph/trace-graph.ts';
import type { RecordOf } from '../records/record.ts';

/**
 * What a control is carried by and what follows from it, one step each way: the inputs and outputs that put it into
 * effect, outputs that satisfy these inputs, inputs that these outputs satisfy, and inputs that derive from its risks.
 */
export const carriersOf = (control: RecordOf<'risk-control'>, graph: TraceGraph): ReadonlySet<string> => {
  const own = control.fields.implemented_by ?? [];
  const to = (id: string, field: string): readonly string[] =>
    graph.linksTo(id, field).map((link) => link.from);
  const from = (id: string, field: string): readonly string[] =>
    graph.linksFrom(id, field).map((link) => link.to);
  return new Set([
    ...own,
    ...own.flatMap((id) => [...to(id, 'satisfies'), ...from(id, 'satisfies')]),
    ...control.fields.controls.flatMap((risk) =>
      to(risk, 'derives_from').filter((id) => graph.recordOf('design-input', id)),
    ),
  ]);
};

/** Whether a record is one of some, or names one of them, itself or through the protocol that it reports. */
export const touches = (id: string, those: ReadonlySet<string>, graph: TraceGraph): boolean =>
  those.has(id) ||
  graph.linksFrom(id).some((link) => those.has(link.to)) ||
  graph.linksFrom(id, 'reports').some(({ to }) => graph.linksFrom(to).some((link) => those.has(link.to)));

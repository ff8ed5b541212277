import type { TraceGraph } from '../graph/trace-graph.ts';
import type { RecordOf } from '../records/record.ts';

export type Evaluation = RecordOf<'biological-evaluation'>;
export type ContactGroup = Evaluation['fields']['groups'][number];
export type AddressedEndpoint = Evaluation['fields']['endpoints'][number];

/** Biological evaluations that count. */
export const evaluations = (graph: TraceGraph): readonly Evaluation[] =>
  graph.recordsOf('biological-evaluation').filter((evaluation) => evaluation.status !== 'retired');

/** Whether a group touches the patient or something that reaches the patient. */
export const hasContact = (group: ContactGroup): boolean => group.tissue !== 'none';

/** Groups of all evaluations in which a material stands. */
export const groupsOf = (
  material: string,
  graph: TraceGraph,
): readonly { readonly evaluation: Evaluation; readonly group: ContactGroup; readonly index: number }[] =>
  evaluations(graph).flatMap((evaluation) =>
    evaluation.fields.groups.flatMap((group, index) =>
      group.materials.includes(material) ? [{ evaluation, group, index }] : [],
    ),
  );

/** How an endpoint was addressed for a group: none, one, or several entries. */
export const addressing = (
  evaluation: Evaluation,
  group: string,
  endpoint: string,
): readonly AddressedEndpoint[] =>
  evaluation.fields.endpoints.filter((each) => each.endpoint === endpoint && each.groups.includes(group));

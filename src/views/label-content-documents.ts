import { compareIds, type TraceGraph } from '../graph/trace-graph.ts';

/** The first line of a view block that tells what labels and instructions say. */
const viewBlock = /^ {0,3}(?:`{3,}|~{3,}) *plinth +label-content *$/m;

/** Documents that tell the particulars of labels and instructions one by one. */
export const labelContentDocuments = (graph: TraceGraph): readonly string[] =>
  graph
    .recordsOf('document')
    .filter(
      ({ status, fields, body }) =>
        status !== 'retired' && fields.for_each === undefined && viewBlock.test(body),
    )
    .map(({ id }) => id)
    .sort(compareIds);

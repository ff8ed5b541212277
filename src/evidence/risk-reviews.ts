import type { TraceGraph } from '../graph/trace-graph.ts';
import type { RecordOf } from '../records/record.ts';

/** Risk management reviews that are not retired, the latest first: it is the one that holds. */
export const currentRiskReviews = (graph: TraceGraph): readonly RecordOf<'risk-review'>[] =>
  graph
    .recordsOf('risk-review')
    .filter((review) => review.status !== 'retired')
    .toSorted((a, b) => (a.fields.date > b.fields.date ? -1 : a.fields.date < b.fields.date ? 1 : 0));

import type { TraceGraph } from '../graph/trace-graph.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

type VerificationRecord = RecordOf<'verification-record'>;

/** Records of one protocol, first carried out first. */
const recordsOfProtocol = (graph: TraceGraph, protocol: string): readonly VerificationRecord[] =>
  [...graph.sources(protocol, 'reports', 'verification-record')].sort((a, b) =>
    a.fields.executed.from < b.fields.executed.from
      ? -1
      : a.fields.executed.from > b.fields.executed.from
        ? 1
        : 0,
  );

/** Whether links of repetition connect a record, over any number of steps, with one of the others. */
const isConnected = (
  record: VerificationRecord,
  others: readonly VerificationRecord[],
  graph: TraceGraph,
): boolean => {
  const reached = new Set([record.id]);
  for (const id of reached) {
    for (const link of graph.linksFrom(id, 'retests')) reached.add(link.to);
    for (const link of graph.linksTo(id, 'retests')) reached.add(link.from);
  }
  return others.some((other) => reached.has(other.id));
};

export const retestWithoutReason = defineCheck({
  code: 'retest-without-reason',
  level: 'error',
  title: 'A test was repeated without a stated reason',
  basis: 'common practice, no source',
  explain:
    'A record repeats another one and does not say because of what, or two records report one protocol and neither says that it repeats the other. Testing until a test passes turns chance into evidence: repeat a test that a bad design passes one time in five, and it passes soon. So more than one record of a protocol always raises the question why.\n\nGive `retests` and, under `because`, the design change or deviation that justified testing again. A second sample that was planned from the start belongs to a protocol of its own, or to the same record.',
  examines: 'verification records',
  subjects: ({ graph }) =>
    graph.recordsOf('verification-record').filter((record) => record.status !== 'retired'),
  judge: (record, { graph }): readonly Draft[] => {
    const { retests, because, reports } = record.fields;
    if (retests !== undefined)
      return because !== undefined
        ? []
        : [
            {
              place: placeOf(record, 'retests'),
              message: `${record.id} repeats ${retests} and gives no reason`,
              hint: 'Name under "because" the design change or deviation that justified testing again.',
              records: [record.id, retests],
            },
          ];
    const list = recordsOfProtocol(graph, reports);
    const earlier = list.slice(
      0,
      list.findIndex((other) => other.id === record.id),
    );
    const [first] = earlier;
    if (!first || isConnected(record, earlier, graph)) return [];
    return [
      {
        place: placeOf(record, 'reports'),
        message: `${record.id} reports ${reports} as ${first.id} did before, and neither repeats the other`,
        hint: `Add "retests: ${earlier.at(-1)?.id ?? first.id}" and "because", or give the second sample a protocol of its own.`,
        records: [record.id, first.id],
        related: [{ place: placeOf(first, 'reports'), message: `${first.id} reports ${reports}` }],
      },
    ];
  },
});

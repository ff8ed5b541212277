import { findCycles } from '../graph/cycles.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

/** Links that lead from what answers up to what it answers to. */
const upward: ReadonlySet<string> = new Set([
  'derives_from',
  'satisfies',
  'verifies',
  'validates',
  'reports',
  'controls',
  'retests',
]);

export const linkCycle = defineCheck({
  code: 'link-cycle',
  level: 'error',
  title: 'Links lead back to the record that they start from',
  basis: 'ISO 13485:2016 7.3.2 (traceability of outputs to inputs)',
  explain:
    'Followed upwards, from what answers to what it answers to, these links come back to their start. Each record of the circle rests on itself in the end, so nothing outside it gives a reason for any of them, and a repetition that repeats itself repeats nothing.\n\nFind the link of the circle that points the wrong way, and remove or turn it. The message shows one shortest way round.',
  examines: 'records with upward links',
  subjects: ({ graph }) => {
    const cycles = new Map(findCycles(graph, upward).map((cycle) => [cycle[0], cycle]));
    return [...graph.records.values()]
      .filter((record) => record.links.some((link) => upward.has(link.field)))
      .map((record) => ({ record, cycle: cycles.get(record.id) ?? [] }));
  },
  judge: ({ record, cycle }, { graph }) => {
    if (cycle.length === 0 || cycle.every((id) => graph.record(id)?.status === 'retired')) return [];
    const steps = cycle.flatMap((id, index) => {
      const next = cycle[(index + 1) % cycle.length];
      return graph.linksFrom(id).find((link) => link.to === next && upward.has(link.field)) ?? [];
    });
    const [first, ...others] = steps;
    if (!first) return [];
    return [
      {
        place: placeOf(record, ...first.path),
        message: `links lead in a circle: ${[...cycle, record.id].join(' → ')}`,
        hint: 'Remove the link that points the wrong way.',
        records: cycle,
        related: others.flatMap((link) => {
          const from = graph.record(link.from);
          return from
            ? [{ place: placeOf(from, ...link.path), message: `${link.from} ${link.relation} ${link.to}` }]
            : [];
        }),
      },
    ];
  },
});

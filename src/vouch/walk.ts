import { legalRowsOf } from '../graph/legal-rows.ts';
import { compareIds, type Link, type TraceGraph } from '../graph/trace-graph.ts';

/** A record on the way from a claim, and how it is reached. */
export interface Stop {
  readonly id: string;
  /** Steps from the claim. */
  readonly depth: number;
  /** The record from which it was reached; undefined for the claim itself. */
  readonly from?: string;
  /** What links the two, seen from `from`: `is verified by`. */
  readonly relation?: string;
  /** Of a legal requirement with sub-clauses: those for which it names `from`. */
  readonly clauses?: readonly string[];
}

/** Links by which a record answers to another one: the way from a measurement up to the need. */
const answersTo: ReadonlySet<string> = new Set([
  'derives_from',
  'satisfies',
  'verifies',
  'validates',
  'reports',
  'controls',
  'decides',
  'discloses',
  'part',
]);

/** Links by which a record says that another one shows it: from there the way goes up against the link. */
const namesWhatShowsIt: ReadonlySet<string> = new Set(['evidence', 'shown_by', 'implemented_by']);

/** Everything that a record answers to, nearest first, each once, by a shortest way. */
export const walkUp = (graph: TraceGraph, id: string): readonly Stop[] => {
  const stops: Stop[] = [];
  const seen = new Set([id]);
  let near: readonly Stop[] = [{ id, depth: 0 }];
  while (near.length > 0) {
    const next: Stop[] = [];
    for (const stop of near)
      for (const { id: above, relation } of linksAbove(graph, stop.id)) {
        if (seen.has(above)) continue;
        seen.add(above);
        const clauses = clausesNaming(graph, above, stop.id);
        next.push({
          id: above,
          depth: stop.depth + 1,
          from: stop.id,
          relation,
          ...(clauses.length > 0 ? { clauses } : {}),
        });
      }
    next.sort((a, b) => compareIds(a.id, b.id));
    stops.push(...next);
    near = next;
  }
  return stops;
};

/** Sub-clauses of a legal requirement that name a record as their evidence. */
const clausesNaming = (graph: TraceGraph, requirement: string, id: string): readonly string[] => {
  const record = graph.recordOf('legal-requirement', requirement);
  if (!record?.fields.clauses) return [];
  return legalRowsOf(record)
    .filter((row) => row.evidence.some((each) => each.record === id))
    .map((row) => row.clause);
};

/** True where records of a type have links to what they answer to. */
export const mustAnswer = (type: string, graph: TraceGraph): boolean =>
  graph.types.get(type)?.links.some((link) => answersTo.has(link.field)) ?? false;

const linksAbove = (
  graph: TraceGraph,
  id: string,
): readonly { readonly id: string; readonly relation: string }[] =>
  [
    ...graph
      .linksFrom(id)
      .filter((link) => answersTo.has(link.field))
      .map((link) => ({ id: link.to, relation: link.relation })),
    ...graph
      .linksTo(id)
      .filter((link) => namesWhatShowsIt.has(link.field))
      .map((link) => ({ id: link.from, relation: link.inverse })),
  ].filter((each) => graph.record(each.id)?.status !== 'retired');

/** What an auditor looks at below a record besides what its standing rests on: by field and direction. */
const alsoBelow: readonly {
  readonly field: string;
  readonly direction: 'in' | 'out';
  readonly types: readonly string[];
}[] = [
  { field: 'satisfies', direction: 'in', types: ['design-input'] },
  { field: 'implemented_by', direction: 'out', types: ['risk-control'] },
  { field: 'decides', direction: 'in', types: ['risk'] },
  { field: 'discloses', direction: 'in', types: ['risk'] },
  { field: 'evidence', direction: 'out', types: ['legal-requirement', 'material'] },
  { field: 'part', direction: 'in', types: ['design-output'] },
  { field: 'uses', direction: 'out', types: ['verification-protocol', 'validation-protocol', 'analysis'] },
  { field: 'equipment', direction: 'out', types: ['test-method'] },
  { field: 'tested', direction: 'out', types: ['verification-record', 'validation-record'] },
  { field: 'tested', direction: 'in', types: ['design-output'] },
  { field: 'equipment', direction: 'out', types: ['verification-record', 'validation-record'] },
  { field: 'exclusions', direction: 'out', types: ['verification-record', 'validation-record'] },
  { field: 'against', direction: 'in', types: ['verification-record', 'validation-record'] },
  { field: 'retests', direction: 'in', types: ['verification-record'] },
  { field: 'retests', direction: 'out', types: ['verification-record'] },
  { field: 'because', direction: 'out', types: ['verification-record'] },
  { field: 'decisions', direction: 'in', types: ['verification-record', 'validation-record'] },
  { field: 'reviewed', direction: 'in', types: ['verification-record', 'validation-record', 'analysis'] },
];

/** Links to what lies below a record: what its standing rests on first, then what accompanies it. */
const linksBelow = (
  graph: TraceGraph,
  id: string,
): readonly { readonly link: Link; readonly isIn: boolean }[] => {
  const record = graph.record(id);
  const type = graph.types.get(record?.type ?? '');
  const rules = [
    ...(type?.standing?.shown_by ?? []).map(({ link, direction, types }) => ({
      field: link,
      direction,
      ends: types,
    })),
    ...alsoBelow
      .filter(({ types }) => types.includes(record?.type ?? ''))
      .map(({ field, direction }) => ({ field, direction, ends: undefined })),
  ];
  return rules.flatMap(({ field, direction, ends }) =>
    [...(direction === 'in' ? graph.linksTo(id, field) : graph.linksFrom(id, field))]
      .filter((link) => {
        const other = graph.record(direction === 'in' ? link.from : link.to);
        return (
          other !== undefined &&
          other.status !== 'retired' &&
          (ends === undefined || ends.includes(other.type))
        );
      })
      .map((link) => ({ link, isIn: direction === 'in' })),
  );
};

/** Types below which an auditor does not go on: they have chains of their own. */
const endsAt: ReadonlySet<string> = new Set([
  'design-output',
  'equipment',
  'design-review',
  'design-change',
  'deviation',
  'material',
  'benefit-risk',
]);

/**
 * Everything that shows a record, each once, in the order of reading: a step is followed by what lies below it. What
 * shows the claim comes before what accompanies it.
 */
export const walkDown = (graph: TraceGraph, id: string): readonly Stop[] => {
  const stops: Stop[] = [];
  const seen = new Set([id]);
  const visit = (at: string, depth: number): void => {
    if (depth > 0 && endsAt.has(graph.record(at)?.type ?? '')) return;
    const found: Stop[] = [];
    for (const { link, isIn } of linksBelow(graph, at)) {
      const other = isIn ? link.from : link.to;
      if (seen.has(other)) continue;
      seen.add(other);
      found.push({ id: other, depth: depth + 1, from: at, relation: isIn ? link.inverse : link.relation });
    }
    for (const stop of found) {
      stops.push(stop);
      visit(stop.id, depth + 1);
    }
  };
  visit(id, 0);
  return stops;
};

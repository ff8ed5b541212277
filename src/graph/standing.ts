import type { StandingRule, StandingSource } from '../records/schema-set.ts';
import type { Approvals } from './approvals.ts';
import { strongComponents } from './strong-components.ts';
import { compareIds, type TraceGraph } from './trace-graph.ts';

/** How far something is shown. A chain stands as its weakest part. */
export type StandingState = 'failed' | 'in doubt' | 'unplanned' | 'planned' | 'passed';

const weakestFirst: readonly StandingState[] = ['failed', 'in doubt', 'unplanned', 'planned', 'passed'];

export type Verdict = 'pass' | 'fail' | 'undecided';

export interface Standing {
  readonly state: StandingState;
  /** Why, for a person. */
  readonly reason: string;
  /** The shortest chain of ids, from the record down to what decides. */
  readonly because: readonly string[];
  /** Records with a verdict of their own on which it rests, in order of id; results that were repeated are not among them. */
  readonly results: readonly string[];
}

export interface StandingInputs {
  readonly graph: TraceGraph;
  readonly approvals: Approvals;
  /** Verdict of a record that carries data of its own; undefined where there is none. */
  readonly verdict: (id: string) => Verdict | undefined;
  /** Records whose passing cannot be relied on, with the reason as a sentence. */
  readonly doubts?: ReadonlyMap<string, string>;
}

/** A standing whose chain is a linked list: copied chains would take the square of a long one's length. */
interface Part {
  readonly state: StandingState;
  readonly reason: string;
  readonly id: string;
  readonly length: number;
  readonly next?: Part;
  /** Ids at the end of the chain, after `id`. */
  readonly tail?: readonly string[];
}

const chainOf = (part: Part): readonly string[] => {
  const ids: string[] = [];
  for (let at: Part | undefined = part; at; at = at.next) ids.push(at.id, ...(at.tail ?? []));
  return ids;
};

const standingOf = (part: Part, resultsOf: () => readonly string[]): Standing => ({
  state: part.state,
  reason: part.reason,
  get because() {
    return chainOf(part);
  },
  get results() {
    return resultsOf();
  },
});

/**
 * Standing of every record whose type has a standing rule, from the rules in the schemas. A link between two records
 * of one circle shows nothing: the circle is `unplanned` unless something outside it is weaker.
 */
export const assessStanding = ({
  graph,
  approvals,
  verdict,
  doubts = new Map(),
}: StandingInputs): ReadonlyMap<string, Standing> => {
  const ruleOf = (id: string): StandingRule | undefined =>
    graph.types.get(graph.record(id)?.type ?? '')?.standing;
  const sourcesOf = new Map<string, readonly (readonly string[])[]>();
  for (const id of graph.records.keys())
    sourcesOf.set(
      id,
      (ruleOf(id)?.shown_by ?? []).map((source) => decidingRecords(graph, id, source)),
    );
  const parts = new Map<string, Part>();
  for (const group of strongComponents(graph.records.keys(), (id) => (sourcesOf.get(id) ?? []).flat())) {
    const circle = new Set(group);
    for (const id of group) {
      const rule = ruleOf(id);
      parts.set(
        id,
        rule ? withDoubt(id, byRule(id, rule, circle)) : leaf('unplanned', 'has no standing', id),
      );
    }
  }

  function byRule(id: string, rule: StandingRule, circle: ReadonlySet<string>): Part {
    const found: Part[] = rule.verdict ? [ownVerdict(id)] : [];
    for (const [index, source] of (rule.shown_by ?? []).entries()) {
      const deciding = sourcesOf.get(id)?.[index] ?? [];
      if (deciding.length === 0 && !source.optional) found.push(nothingFound(id, source));
      for (const other of deciding) {
        const part = circle.has(other)
          ? leaf('unplanned', 'is part of a circle of links', other)
          : (parts.get(other) ?? leaf('unplanned', 'has no standing', other));
        found.push({ state: part.state, reason: part.reason, id, length: part.length + 1, next: part });
      }
    }
    return weakest(found) ?? leaf('unplanned', 'nothing shows it', id);
  }

  function ownVerdict(id: string): Part {
    switch (verdict(id)) {
      case 'pass': {
        // A result counts once people stand behind it.
        const status = graph.record(id)?.status;
        return status === 'approved'
          ? leaf('passed', `${id} passed`, id)
          : leaf('planned', `${id} passed, but is ${status === 'draft' ? 'a draft' : status}`, id);
      }
      case 'fail':
        return leaf('failed', `${id} failed`, id);
      case 'undecided':
        return leaf('in doubt', `the data of ${id} do not decide`, id);
      default:
        return leaf('planned', `${id} has no verdict`, id);
    }
  }

  /** A passed record whose approval has lapsed, or on which an error stands, shows nothing for certain. */
  function withDoubt(id: string, part: Part): Part {
    if (part.state !== 'passed') return part;
    const changed = approvals.of(id)?.changed ?? [];
    const doubt = doubts.get(id);
    if (changed.length === 0) return doubt === undefined ? part : leaf('in doubt', doubt, id);
    const tail = changed.filter((other) => other !== id);
    const reason = `${changed.join(', ')} changed after ${id} was approved`;
    return { state: 'in doubt', reason, id, length: 1 + tail.length, tail };
  }

  /** What a record rests on, as far down as the rules go. */
  const resultsBelow = (id: string): readonly string[] => {
    const seen = new Set([id]);
    for (const at of seen) for (const other of (sourcesOf.get(at) ?? []).flat()) seen.add(other);
    return [...seen].filter((at) => ruleOf(at)?.verdict === true).sort(compareIds);
  };

  const standings = new Map<string, Standing>();
  for (const id of graph.records.keys()) {
    const part = ruleOf(id) ? parts.get(id) : undefined;
    if (part)
      standings.set(
        id,
        standingOf(part, () => resultsBelow(id)),
      );
  }
  return standings;
};

const leaf = (state: StandingState, reason: string, id: string): Part => ({ state, reason, id, length: 1 });

const nothingFound = (id: string, source: StandingSource): Part =>
  leaf(
    source.pending ?? 'unplanned',
    source.pending === 'planned'
      ? `${id} has not been carried out`
      : `nothing ${source.direction === 'in' ? 'answers' : 'shows'} ${id}`,
    id,
  );

/** Records, not retired, that a source of a standing rule rests on. */
const decidingRecords = (graph: TraceGraph, id: string, source: StandingSource): readonly string[] => {
  const links = source.direction === 'in' ? graph.linksTo(id, source.link) : graph.linksFrom(id, source.link);
  const ids = [...new Set(links.map((link) => (source.direction === 'in' ? link.from : link.to)))].filter(
    (other) => {
      const record = graph.record(other);
      return record !== undefined && record.status !== 'retired' && source.types.includes(record.type);
    },
  );
  if (source.need === 'all') return ids;
  // Only an approved repetition for the same record replaces a result: a failure can't be talked away from elsewhere.
  const among = new Set(ids);
  const latest = ids.filter(
    (other) =>
      !graph
        .linksTo(other, 'retests')
        .some(({ from }) => from !== other && among.has(from) && graph.record(from)?.status === 'approved'),
  );
  // Records that repeat each other in a circle: none is the latest, so all count.
  return latest.length > 0 ? latest : ids;
};

const weakest = (parts: readonly Part[]): Part | undefined => {
  const rank = (part: Part): number => weakestFirst.indexOf(part.state);
  return parts.reduce<Part | undefined>((found, part) => {
    if (!found) return part;
    if (rank(part) !== rank(found)) return rank(part) < rank(found) ? part : found;
    return part.length < found.length ? part : found;
  }, undefined);
};

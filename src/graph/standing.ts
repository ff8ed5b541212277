import type { StandingRule, StandingSource } from '../records/schema-set.ts';
import type { Approvals } from './approvals.ts';
import type { TraceGraph } from './trace-graph.ts';

/** How far something is shown. Weakest last in `weakestFirst` reversed: a chain stands as its weakest part. */
export type StandingState = 'failed' | 'in doubt' | 'unplanned' | 'planned' | 'passed';

const weakestFirst: readonly StandingState[] = ['failed', 'in doubt', 'unplanned', 'planned', 'passed'];

export type Verdict = 'pass' | 'fail' | 'undecided';

export interface Standing {
  readonly state: StandingState;
  /** Why, for a person. */
  readonly reason: string;
  /** The shortest chain of ids, from the record down to what decides. */
  readonly because: readonly string[];
}

export interface StandingInputs {
  readonly graph: TraceGraph;
  readonly approvals: Approvals;
  /** Verdict of a record that carries data of its own; undefined where there is none. */
  readonly verdict: (id: string) => Verdict | undefined;
}

/** Standing of every record whose type has a standing rule, from the rules in the schemas. */
export const assessStanding = ({
  graph,
  approvals,
  verdict,
}: StandingInputs): ReadonlyMap<string, Standing> => {
  const known = new Map<string, Standing>();
  const underWay = new Set<string>();

  const of = (id: string): Standing => {
    const cached = known.get(id);
    if (cached) return cached;
    // A cycle is a finding of its own; here it must only not hang.
    if (underWay.has(id)) return { state: 'unplanned', reason: 'is part of a cycle of links', because: [id] };
    underWay.add(id);
    const rule = graph.types.get(graph.record(id)?.type ?? '')?.standing;
    const standing = withDoubt(
      id,
      rule ? byRule(id, rule) : { state: 'unplanned', reason: 'has no standing', because: [id] },
    );
    underWay.delete(id);
    known.set(id, standing);
    return standing;
  };

  const byRule = (id: string, rule: StandingRule): Standing => {
    const parts: Standing[] = [];
    if (rule.verdict) parts.push(ownVerdict(id));
    for (const source of rule.shown_by ?? []) parts.push(...bySource(id, source));
    return weakest(parts) ?? { state: 'unplanned', reason: 'nothing shows it', because: [id] };
  };

  const ownVerdict = (id: string): Standing => {
    switch (verdict(id)) {
      case 'pass':
        return { state: 'passed', reason: `${id} passed`, because: [id] };
      case 'fail':
        return { state: 'failed', reason: `${id} failed`, because: [id] };
      case 'undecided':
        return { state: 'in doubt', reason: `the data of ${id} do not decide`, because: [id] };
      default:
        return { state: 'planned', reason: `${id} has no verdict`, because: [id] };
    }
  };

  const bySource = (id: string, source: StandingSource): readonly Standing[] => {
    const links =
      source.direction === 'in' ? graph.linksTo(id, source.link) : graph.linksFrom(id, source.link);
    const ids = [...new Set(links.map((link) => (source.direction === 'in' ? link.from : link.to)))].filter(
      (other) => {
        const record = graph.record(other);
        return record !== undefined && record.status !== 'retired' && source.types.includes(record.type);
      },
    );
    const deciding =
      source.need === 'latest' ? ids.filter((other) => graph.linksTo(other, 'retests').length === 0) : ids;
    if (deciding.length === 0)
      return source.optional
        ? []
        : [
            {
              state: source.pending ?? 'unplanned',
              reason:
                source.pending === 'planned'
                  ? `${id} has not been carried out`
                  : `nothing ${source.direction === 'in' ? 'answers' : 'shows'} ${id}`,
              because: [id],
            },
          ];
    return deciding.map(of).map((standing) => ({ ...standing, because: [id, ...standing.because] }));
  };

  /** A passed record whose approval has lapsed no longer shows anything for certain. */
  const withDoubt = (id: string, standing: Standing): Standing => {
    if (standing.state !== 'passed') return standing;
    const own = approvals.of(id);
    if (!own || own.changed.length === 0) return standing;
    return {
      state: 'in doubt',
      reason: `${own.changed.join(', ')} changed after ${id} was approved`,
      because: [id, ...own.changed.filter((other) => other !== id)],
    };
  };

  for (const record of graph.records.values()) if (graph.types.get(record.type)?.standing) of(record.id);
  return known;
};

const weakest = (parts: readonly Standing[]): Standing | undefined => {
  const rank = (standing: Standing): number => weakestFirst.indexOf(standing.state);
  return parts.reduce<Standing | undefined>((found, part) => {
    if (!found) return part;
    if (rank(part) !== rank(found)) return rank(part) < rank(found) ? part : found;
    return part.because.length < found.because.length ? part : found;
  }, undefined);
};

import { type LegalRow, legalRows } from '../graph/legal-rows.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import type { ClauseRow, ClauseTable } from '../regulation/clause-tables.ts';
import { compareEditions } from '../regulation/compare-editions.ts';

/** What the file says of a clause: the row that answers it, and records that name it besides. */
export interface ClauseUse {
  readonly answer?: LegalRow;
  /** Evidence of the row, then labels and instructions that carry the clause as a particular. */
  readonly records: readonly string[];
}

/** A clause that differs between two editions, with what of the technical file hangs on it. */
export interface ClauseEffect extends ClauseUse {
  readonly change: 'added' | 'gone' | 'changed';
  readonly before?: ClauseRow;
  readonly after?: ClauseRow;
}

/** Two editions of a clause table, and what of the technical file the differences touch. */
export interface EditionEffect {
  readonly before: ClauseTable;
  readonly after: ClauseTable;
  /** In the order of the later edition; clauses that are gone come last, in that of the earlier one. */
  readonly effects: readonly ClauseEffect[];
  readonly same: number;
  /** Legal requirements with a clause that differs, each once, in order of the clauses. */
  readonly requirements: readonly string[];
}

const usesOf = (graph: TraceGraph, table: string): ((clause: string) => ClauseUse) => {
  const answers = new Map<string, LegalRow>();
  for (const row of legalRows(graph))
    if (row.table === table && !answers.has(row.clause)) answers.set(row.clause, row);
  const carriers = graph.recordsOf('design-output').filter((output) => output.status !== 'retired');
  return (clause) => {
    const answer = answers.get(clause);
    const particulars =
      // Particulars of labels are those of Annex I.
      table === 'eu-mdr-annex-1'
        ? carriers.filter(({ fields }) => fields.particulars?.some((each) => each.clause === clause))
        : [];
    return {
      ...(answer ? { answer } : {}),
      records: [
        ...new Set([
          ...(answer?.evidence.map(({ record }) => record) ?? []),
          ...particulars.map(({ id }) => id),
        ]),
      ],
    };
  };
};

/** Compares two editions of a table and gathers the records that hang on what differs. */
export const editionEffect = (before: ClauseTable, after: ClauseTable, graph: TraceGraph): EditionEffect => {
  const { added, gone, changed, same } = compareEditions(before, after);
  const use = usesOf(graph, before.key);
  const isAdded = new Set(added);
  const pairs = new Map(changed.map((pair) => [pair.after, pair.before]));
  const effects = [
    ...after.rows.flatMap((row): readonly ClauseEffect[] => {
      if (isAdded.has(row)) return [{ change: 'added', after: row, ...use(row.clause) }];
      const earlier = pairs.get(row);
      return earlier ? [{ change: 'changed', before: earlier, after: row, ...use(row.clause) }] : [];
    }),
    ...gone.map((row): ClauseEffect => ({ change: 'gone', before: row, ...use(row.clause) })),
  ];
  return {
    before,
    after,
    effects,
    same,
    requirements: [...new Set(effects.flatMap(({ answer }) => (answer ? [answer.record.id] : [])))],
  };
};

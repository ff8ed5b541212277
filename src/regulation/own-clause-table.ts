import type { ClauseLevel, ClauseRow, ClauseTable, ClauseTableKind } from './clause-tables.ts';

/** A clause table as people write one down: levels and most parents follow from the numbers. */
export interface WrittenClauseTable {
  readonly key: string;
  readonly edition: string;
  readonly title: string;
  readonly source: string;
  readonly kind?: ClauseTableKind;
  readonly short?: string;
  /** Whether clauses of the source are left out. */
  readonly extract?: boolean;
  /** How all rows are known, in one sentence. */
  readonly provenance: string;
  readonly rows: readonly {
    readonly clause: string;
    readonly title: string;
    readonly parent?: string;
    readonly note?: string;
  }[];
}

/** The number without its last part: `23.3(h)` stands below `23.3`, `10.4.1` below `10.4`. */
const parentByNumber = (clause: string): string | undefined =>
  /^(.+)\([^()]+\)$/.exec(clause)?.[1] ?? /^(.+)\.[^.()]+$/.exec(clause)?.[1];

const levels: readonly ClauseLevel[] = ['requirement', 'sub', 'subsub', 'subsubsub'];

/**
 * Makes a table of what a technical file brings. A parent that follows from the number is used only where the table
 * has it; one that is written is taken at its word, for `clauseTableFaults` to look for.
 */
export const ownClauseTable = (written: WrittenClauseTable, file: string): ClauseTable => {
  const known = new Set(written.rows.map((row) => row.clause));
  const byClause = new Map<string, ClauseRow>();
  const rows = written.rows.map(({ clause, title, parent, note }): ClauseRow => {
    const derived = parentByNumber(clause);
    const above = parent ?? (derived !== undefined && known.has(derived) ? derived : undefined);
    const head = above === undefined ? undefined : byClause.get(above)?.level;
    const row: ClauseRow = {
      clause,
      title,
      level: levelBelow(head, clause),
      ...(above === undefined ? {} : { parent: above }),
      provenance: 'own',
      ...(note === undefined ? {} : { note }),
    };
    byClause.set(clause, row);
    return row;
  });
  const count = (level: ClauseLevel): number => rows.filter((row) => row.level === level).length;
  return {
    key: written.key,
    short: written.short ?? written.key,
    kind: written.kind ?? 'law',
    title: written.title,
    source: written.source,
    edition: written.edition,
    file,
    ...(written.extract === undefined ? {} : { extract: written.extract }),
    counts: {
      ...Object.fromEntries(
        [...levels, 'point' as const, 'subpoint' as const].map((level) => [level, count(level)]),
      ),
      total: rows.length,
    },
    provenance: { own: written.provenance },
    rows,
    byClause,
  };
};

const levelBelow = (head: ClauseLevel | undefined, clause: string): ClauseLevel => {
  if (head === undefined) return 'requirement';
  if (head === 'point' || head === 'subpoint') return 'subpoint';
  if (clause.endsWith(')')) return 'point';
  return levels[levels.indexOf(head) + 1] ?? 'point';
};

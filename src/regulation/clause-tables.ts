import euMdrAnnex1 from './eu-mdr-annex-1.json' with { type: 'json' };

/** `requirement` is the top number (10), `sub` the second (10.4), `subsub` the third (10.4.1), `point` a letter. */
export type ClauseLevel = 'requirement' | 'sub' | 'subsub' | 'point';

export interface ClauseRow {
  /** Number as printed, without its full stop: `23.3(h)`. */
  readonly clause: string;
  /** In our own words, never the text of the law. */
  readonly title: string;
  readonly level: ClauseLevel;
  readonly parent?: string;
  /** Key of `ClauseTable.provenance`: how the row is known. */
  readonly provenance: string;
  /** What to compare with the consolidated text before relying on the row. */
  readonly note?: string;
}

/** A dated table of clauses. Law moves, so a technical file names the edition that it works to. */
export interface ClauseTable {
  readonly key: string;
  readonly title: string;
  readonly source: string;
  /** ISO date of the publication that the rows were taken from. */
  readonly edition: string;
  readonly counts: Readonly<Record<ClauseLevel | 'total', number>>;
  readonly provenance: Readonly<Record<string, string>>;
  /** In the order of the law. */
  readonly rows: readonly ClauseRow[];
  readonly byClause: ReadonlyMap<string, ClauseRow>;
}

interface TableFile {
  readonly meta: Omit<ClauseTable, 'rows' | 'byClause'>;
  readonly rows: readonly ClauseRow[];
}

const makeTable = ({ meta, rows }: TableFile): ClauseTable => ({
  key: meta.key,
  title: meta.title,
  source: meta.source,
  edition: meta.edition,
  counts: meta.counts,
  provenance: meta.provenance,
  rows,
  byClause: new Map(rows.map((row) => [row.clause, row])),
});

/** All tables that the tool ships. */
export const clauseTables: readonly ClauseTable[] = [makeTable(euMdrAnnex1 as TableFile)];

/** The table with a key such as `eu-mdr-annex-1`; undefined where the tool ships none. */
export const clauseTable = (key: string): ClauseTable | undefined =>
  clauseTables.find((table) => table.key === key);

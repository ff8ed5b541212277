import euMdrAnnex1 from './eu-mdr-annex-1.json' with { type: 'json' };
import euMdrAnnex2 from './eu-mdr-annex-2.json' with { type: 'json' };
import euMdrAnnex3 from './eu-mdr-annex-3.json' with { type: 'json' };
import euMdrAnnex4 from './eu-mdr-annex-4.json' with { type: 'json' };
import imdrfToc from './imdrf-nivd-toc.json' with { type: 'json' };
import iso13485 from './iso-13485.json' with { type: 'json' };
import iso14971 from './iso-14971.json' with { type: 'json' };
import usCfr820 from './us-cfr-820.json' with { type: 'json' };
import usPremarketContents from './us-premarket-contents.json' with { type: 'json' };

/**
 * `requirement` is the top number (10), `sub` the second (10.4), `subsub` the third (10.4.1), `subsubsub` the fourth;
 * `point` is a letter below any of them, `subpoint` what is counted below a letter.
 */
export type ClauseLevel = 'requirement' | 'sub' | 'subsub' | 'subsubsub' | 'point' | 'subpoint';

export interface ClauseRow {
  /** Number as printed, without its full stop: `23.3(h)`. */
  readonly clause: string;
  /** In our own words, never the text of the law or standard. */
  readonly title: string;
  readonly level: ClauseLevel;
  readonly parent?: string;
  /** Key of `ClauseTable.provenance`: how the row is known. `memory` for rows that nobody compared. */
  readonly provenance: string;
  /** What to compare with the text in force before relying on the row. */
  readonly note?: string;
}

export type ClauseTableKind = 'law' | 'standard' | 'table of contents';

/** A dated table of clauses. Law moves, so a technical file names the edition that it works to. */
export interface ClauseTable {
  readonly key: string;
  /** Put into the ids of records that answer the table: `13485` in GR-13485-7.3. Empty for Annex I. */
  readonly short: string;
  readonly kind: ClauseTableKind;
  readonly title: string;
  readonly source: string;
  /** ISO date of the publication that the rows were taken from, or its year and month. */
  readonly edition: string;
  /** File of the technical file that the table came with; undefined for tables of the tool. */
  readonly file?: string;
  /** Whether the table leaves out clauses that its source has. */
  readonly extract?: boolean;
  readonly counts: Readonly<Partial<Record<ClauseLevel, number>> & { total: number }>;
  readonly provenance: Readonly<Record<string, string>>;
  /** In the order of the law. */
  readonly rows: readonly ClauseRow[];
  readonly byClause: ReadonlyMap<string, ClauseRow>;
}

interface TableFile {
  readonly meta: Omit<ClauseTable, 'rows' | 'byClause' | 'file'>;
  readonly rows: readonly ClauseRow[];
}

const makeTable = ({ meta, rows }: TableFile): ClauseTable => ({
  key: meta.key,
  short: meta.short,
  kind: meta.kind,
  title: meta.title,
  source: meta.source,
  edition: meta.edition,
  ...(meta.extract === undefined ? {} : { extract: meta.extract }),
  counts: meta.counts,
  provenance: meta.provenance,
  rows,
  byClause: new Map(rows.map((row) => [row.clause, row])),
});

/** All tables that the tool ships. */
export const shippedClauseTables: readonly ClauseTable[] = [
  euMdrAnnex1,
  euMdrAnnex2,
  euMdrAnnex3,
  euMdrAnnex4,
  imdrfToc,
  iso13485,
  iso14971,
  usCfr820,
  usPremarketContents,
].map((file) => makeTable(file as TableFile));

/** Whether nobody compared the row with a text: it is shown as such, and no error rests on it alone. */
export const isFromMemory = (row: ClauseRow): boolean => row.provenance === 'memory';

/** Whether a clause that the table does not have may stand in its source all the same: no error rests on its absence. */
export const mayLackClauses = (table: ClauseTable): boolean =>
  table.extract === true || table.rows.some(isFromMemory);

/** The rows below a clause at any depth, in the order of the table. */
export const rowsBelow = (table: ClauseTable, clause: string): readonly ClauseRow[] =>
  table.rows.filter((row) => row.clause !== clause && topmost(table, row, clause));

const topmost = (table: ClauseTable, row: ClauseRow, clause: string): boolean => {
  let at: ClauseRow | undefined = row;
  // A table of a technical file may be faulty; a chain longer than its rows goes in a circle.
  for (let steps = 0; at?.parent !== undefined && steps < table.rows.length; steps += 1) {
    if (at.parent === clause) return true;
    at = table.byClause.get(at.parent);
  }
  return false;
};

/** The tables at hand: those of the tool, and those that came with a technical file. */
export interface ClauseTables {
  /** By key, then by edition, the oldest first. */
  readonly all: readonly ClauseTable[];
  /** Each key once. */
  readonly keys: readonly string[];
  /** Editions of a table, the oldest first. */
  editionsOf(key: string): readonly ClauseTable[];
  edition(key: string, edition: string): ClauseTable | undefined;
  /** The edition that the technical file works to; where it names none that is at hand, the one of the tool. */
  inUse(key: string): ClauseTable | undefined;
}

/** Edition by key, as a technical file names it. */
export type EditionsInUse = readonly { readonly table: string; readonly edition: string }[];

/** Gathers the tables. A table of the technical file with key and edition of one of the tool is left out. */
export const gatherClauseTables = (
  own: readonly ClauseTable[] = [],
  named: EditionsInUse = [],
): ClauseTables => {
  const all: ClauseTable[] = [...shippedClauseTables];
  for (const table of own)
    if (!all.some((each) => each.key === table.key && each.edition === table.edition)) all.push(table);
  const keys = [...new Set(all.map((table) => table.key))].sort();
  const byEdition = (a: ClauseTable, b: ClauseTable): number => (a.edition < b.edition ? -1 : 1);
  const editionsOf = (key: string): readonly ClauseTable[] =>
    all.filter((table) => table.key === key).sort(byEdition);
  const edition = (key: string, wanted: string): ClauseTable | undefined =>
    all.find((table) => table.key === key && table.edition === wanted);
  const inUse = new Map(
    keys.map((key) => {
      const asked = named.find((each) => each.table === key);
      const editions = editionsOf(key);
      return [
        key,
        (asked && edition(key, asked.edition)) ??
          editions.find((table) => table.file === undefined) ??
          editions.at(-1),
      ];
    }),
  );
  return {
    all: keys.flatMap(editionsOf),
    keys,
    editionsOf,
    edition,
    inUse: (key) => inUse.get(key),
  };
};

import type { Place } from '../findings/finding.ts';
import type { LegalRequirementFields } from '../records/fields.ts';
import type { RecordOf } from '../records/record.ts';
import type { TraceGraph } from './trace-graph.ts';

/** What a person decided on a clause; a proposal is no decision. */
export type Applicability = LegalRequirementFields['applicable'];

/** One clause as a legal requirement answers it: the clause of the record itself, or a row of its sub-clauses. */
export interface LegalRow {
  readonly record: RecordOf<'legal-requirement'>;
  readonly table: string;
  readonly clause: string;
  /** Where the row stands in the front matter: `[]` for the clause of the record, else `['clauses', index]`. */
  readonly path: readonly (string | number)[];
  readonly applicable: Applicability;
  readonly reason?: string;
  readonly solution?: string;
  readonly method: readonly string[];
  readonly standards: readonly {
    readonly standard: string;
    readonly extent?: 'full' | 'part';
    readonly clauses?: string;
  }[];
  readonly evidence: readonly { readonly record: string; readonly location?: string }[];
  readonly note?: string;
}

type Written = Pick<
  LegalRequirementFields,
  'clause' | 'applicable' | 'reason' | 'solution' | 'method' | 'standards' | 'evidence' | 'note'
>;

/** All clauses that a record answers: its own first, then its sub-clauses in the order of the file. */
export const legalRowsOf = (record: RecordOf<'legal-requirement'>): readonly LegalRow[] => {
  const known = rowsOfRecords.get(record) ?? gatherRows(record);
  rowsOfRecords.set(record, known);
  return known;
};

/** Twenty checks and views read the rows, of records that do not change. */
const rowsOfRecords = new WeakMap<RecordOf<'legal-requirement'>, readonly LegalRow[]>();

const gatherRows = (record: RecordOf<'legal-requirement'>): readonly LegalRow[] => {
  const row = (written: Written, path: LegalRow['path']): LegalRow => ({
    record,
    table: record.fields.table,
    clause: written.clause,
    path,
    applicable: written.applicable,
    ...(written.reason === undefined ? {} : { reason: written.reason }),
    ...(written.solution === undefined ? {} : { solution: written.solution }),
    method: written.method ?? [],
    standards: written.standards ?? [],
    evidence: (written.evidence ?? []).map((each) => (typeof each === 'string' ? { record: each } : each)),
    ...(written.note === undefined ? {} : { note: written.note }),
  });
  return [
    row(record.fields, []),
    ...(record.fields.clauses ?? []).map((written, index) => row(written, ['clauses', index])),
  ];
};

/** All clauses that the file answers, by records that are not retired. */
export const legalRows = (graph: TraceGraph): readonly LegalRow[] =>
  graph
    .recordsOf('legal-requirement')
    .filter((record) => record.status !== 'retired')
    .flatMap(legalRowsOf);

/** Clauses of one table that faulty rows and records answer, as far as their numbers can be read. */
export interface UnreadClauses {
  readonly clauses: readonly string[];
  /** Whether a faulty row or record may answer any clause of this requirement. */
  mayAnswer(head: string): boolean;
}

const asWritten = (value: unknown): string | undefined =>
  typeof value === 'string' || typeof value === 'number' ? String(value) : undefined;

/** What is said of these clauses cannot be read, but that there is no row for them would be wrong. */
export const unreadClauses = (graph: TraceGraph, table: string): UnreadClauses => {
  const unread = [...graph.records.values()]
    .filter((record) => record.type === 'legal-requirement' && !record.sound && record.status !== 'retired')
    .filter(({ fields }) => (asWritten(fields['table']) ?? table) === table)
    .map(({ fields, soundPart }) => {
      const rows: readonly unknown[] = Array.isArray(fields['clauses']) ? fields['clauses'] : [];
      const numbers = rows.map((row) => asWritten((row as { readonly clause?: unknown } | null)?.clause));
      return { head: asWritten(fields['clause']), numbers, isPart: soundPart !== undefined };
    });
  return {
    clauses: unread.flatMap(({ numbers }) => numbers.flatMap((number) => number ?? [])),
    mayAnswer: (head) =>
      unread.some(
        (each) =>
          (each.head === undefined || each.head === head) &&
          (!each.isPart || each.numbers.includes(undefined)),
      ),
  };
};

/** Place of the first of the fields that the row holds; of its clause where it holds none of them. */
export const placeOfRow = (row: LegalRow, ...fields: readonly (keyof Written)[]): Place => {
  const written = writtenRow(row);
  return row.record.yaml.place([
    ...row.path,
    fields.find((field) => written?.[field] !== undefined) ?? 'clause',
  ]);
};

/** The row as it stands in the front matter: a list that it lacks reads as an empty one in `LegalRow`. */
const writtenRow = ({ record, path: [list, index] }: LegalRow): Partial<Written> | undefined =>
  list === undefined ? record.fields : record.fields.clauses?.[Number(index)];

/** Whether a person has decided on the row, and not only a proposal stands. */
export const isDecided = (row: LegalRow): boolean => typeof row.applicable === 'boolean';

/** What was decided, as readers see it. */
export const applicabilityWords = (applicable: Applicability): string =>
  applicable === true ? 'yes' : applicable === false ? 'no' : `not decided (${applicable})`;

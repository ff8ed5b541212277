import type { DataFiles } from '../evidence/evaluate.ts';
import type { EvidenceResult } from '../evidence/result.ts';
import type { TechnicalRecord } from '../records/record.ts';
import { type DataTable, readTable } from '../records/table.ts';

/** A row of a raw-data file as it is written there. */
export interface RawRow {
  /** Line of the file, from 1. */
  readonly line: number;
  readonly cells: readonly string[];
}

/** The raw-data file behind a result. */
export interface RawData {
  readonly record: string;
  readonly file: string;
  /** SHA-256 of the bytes as they are now. */
  readonly digest: string;
  /** What the record says it is, where it says so. */
  readonly statedDigest?: string;
  /** Rows below the heading; undefined where the file cannot be read as a table. */
  readonly rows?: number;
  readonly columns: readonly string[];
  readonly first: readonly RawRow[];
  readonly last: readonly RawRow[];
}

/** Rows at either end that a walk shows. */
export const rowsAtEitherEnd = 3;

const rowsOf = (table: DataTable, from: number, to: number): readonly RawRow[] =>
  Array.from({ length: Math.max(0, to - from) }, (_, index) => ({
    line: table.columns[0]?.cells[from + index]?.line ?? 0,
    cells: table.columns.map((column) => column.cells[from + index]?.text ?? ''),
  }));

/** The raw-data file that a result was computed from, with the rows at its ends; undefined where there is none. */
export const rawDataOf = (
  record: TechnicalRecord,
  result: EvidenceResult | undefined,
  files: DataFiles,
): RawData | undefined => {
  const { dataFile: file, dataDigest: digest } = result ?? {};
  const source = file === undefined ? undefined : files.get(file);
  if (file === undefined || digest === undefined || !source) return undefined;
  const stated = (record.fields['data'] as { readonly sha256?: string } | undefined)?.sha256;
  const outcome = readTable(file, source.bytes);
  const table = 'table' in outcome ? outcome.table : undefined;
  const firsts = Math.min(rowsAtEitherEnd, table?.rows ?? 0);
  return {
    record: record.id,
    file,
    digest,
    ...(stated === undefined ? {} : { statedDigest: stated }),
    ...(table ? { rows: table.rows } : {}),
    columns: (table?.columns ?? []).map(({ name, unit }) =>
      unit === undefined ? name : `${name} [${unit}]`,
    ),
    first: table ? rowsOf(table, 0, firsts) : [],
    last: table ? rowsOf(table, Math.max(firsts, table.rows - rowsAtEitherEnd), table.rows) : [],
  };
};

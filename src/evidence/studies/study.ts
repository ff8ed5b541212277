import type { RecordOf } from '../../records/record.ts';
import type { DataTable } from '../../records/table.ts';
import type { CharacteristicEvidence } from '../result.ts';

export interface StudyInput {
  readonly testMethod: RecordOf<'test-method'>;
  readonly table: DataTable;
}

export type StudyOutcome =
  | { readonly ok: true; readonly characteristic: CharacteristicEvidence }
  | { readonly ok: false; readonly message: string };

/** A study of a measurement, named in `study.kind` of a test method. */
export interface Study {
  readonly name: string;
  readonly title: string;
  readonly basis: string;
  readonly explain: string;
  readonly columns: readonly string[];
  readonly evaluate: (input: StudyInput) => StudyOutcome;
}

/** Cells of the named columns, row by row; undefined where a column is missing. */
export const columnsOf = (
  table: DataTable,
  names: readonly string[],
): readonly (readonly string[])[] | undefined => {
  const columns = names.map((name) => table.columns.find((column) => column.name === name));
  if (columns.some((column) => column === undefined)) return undefined;
  return Array.from({ length: table.rows }, (_, row) =>
    columns.map((column) => column?.cells[row]?.text ?? ''),
  );
};

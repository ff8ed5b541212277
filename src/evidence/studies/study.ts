import type { RecordOf } from '../../records/record.ts';
import type { Cell, DataTable } from '../../records/table.ts';
import type { CharacteristicEvidence } from '../result.ts';

export interface StudyInput {
  readonly testMethod: RecordOf<'test-method'>;
  readonly table: DataTable;
}

/** A cell that a study can't use. */
export interface CellProblem {
  readonly cell: Cell;
  readonly message: string;
  readonly hint: string;
}

export type StudyOutcome =
  | { readonly ok: true; readonly characteristic: CharacteristicEvidence }
  | { readonly ok: false; readonly message: string; readonly cells?: readonly CellProblem[] };

/** A study of a measurement, named in `study.kind` of a test method. */
export interface Study {
  readonly name: string;
  readonly title: string;
  readonly basis: string;
  readonly explain: string;
  readonly columns: readonly string[];
  readonly evaluate: (input: StudyInput) => StudyOutcome;
}

/** Blank cells: a row without its part or its call tells nothing, and must not be counted as if it did. */
export const blankCells = (rows: readonly (readonly Cell[])[], names: readonly string[]): CellProblem[] =>
  rows.flatMap((row) =>
    row.flatMap((cell, index) =>
      cell.text === ''
        ? [
            {
              cell,
              message: `row ${cell.line}, column "${names[index]}": the cell is empty`,
              hint: 'Enter the value: a study needs every reading of its design.',
            },
          ]
        : [],
    ),
  );

/** Cells of the named columns, row by row; undefined where a column is missing. */
export const columnsOf = (
  table: DataTable,
  names: readonly string[],
): readonly (readonly Cell[])[] | undefined => {
  const columns = names.map((name) => table.columns.find((column) => column.name === name));
  if (columns.some((column) => column === undefined)) return undefined;
  return Array.from({ length: table.rows }, (_, row) =>
    columns.flatMap((column) => column?.cells[row] ?? []),
  );
};

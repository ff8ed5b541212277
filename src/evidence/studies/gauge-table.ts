import { readNumber } from '../../records/table.ts';
import { unitConverter } from '../../records/units.ts';
import type { GaugeReading } from '../../statistics/gauge-components.ts';
import { blankCells, type CellProblem, columnsOf, type StudyInput } from './study.ts';

/** Columns of a gauge study: who measured what, and what was read. */
export const gaugeColumns = ['part', 'operator', 'reading'];

export type GaugeTable =
  | { readonly ok: true; readonly readings: readonly GaugeReading[]; readonly unit: string }
  | { readonly ok: false; readonly message: string; readonly cells?: readonly CellProblem[] };

/** The readings of a gauge study in the unit of the test method, or what stands in the way. */
export const readGaugeTable = ({ testMethod, table }: StudyInput): GaugeTable => {
  const rows = columnsOf(table, gaugeColumns);
  if (!rows) return { ok: false, message: `${table.file} needs the columns part, operator and reading` };
  const numbers = numbersIn({ testMethod, table }, 'reading');
  if (!numbers.ok) return numbers;
  const cells = [...blankCells(rows, gaugeColumns), ...numbers.cells];
  if (cells.length > 0) return { ok: false, message: 'some readings of the study cannot be read', cells };
  return {
    ok: true,
    unit: numbers.unit,
    readings: rows.map(([part, operator], index) => ({
      part: part?.text ?? '',
      operator: operator?.text ?? '',
      value: numbers.values[index] ?? Number.NaN,
    })),
  };
};

/** The numbers of a column in the unit of the test method; blank cells are left to `blankCells`. */
export const numbersIn = (
  { testMethod, table }: StudyInput,
  name: string,
):
  | {
      readonly ok: true;
      readonly values: readonly number[];
      readonly unit: string;
      readonly cells: readonly CellProblem[];
    }
  | { readonly ok: false; readonly message: string } => {
  const column = table.columns.find((each) => each.name === name);
  const from = column?.unit;
  const { unit } = testMethod.fields;
  const convert =
    from === undefined || unit === undefined ? (value: number) => value : unitConverter(from, unit);
  if (!convert)
    return {
      ok: false,
      message: `the ${name === 'reading' ? 'readings are' : `column "${name}" is`} in ${from}, which cannot be converted to ${unit}, the unit of the test method`,
    };
  const cells: CellProblem[] = [];
  const values = (column?.cells ?? []).map((cell) => {
    const number = readNumber(cell.text);
    if (number.kind !== 'number' && number.kind !== 'blank')
      cells.push({
        cell,
        message: `row ${cell.line}, column "${name}": ${number.kind === 'wrong' ? number.reason : `"${cell.text}" is beyond the range of the instrument`}`,
        hint: number.kind === 'wrong' ? number.hint : 'A study of a measurement needs the reading itself.',
      });
    return number.kind === 'number' ? convert(number.value) : Number.NaN;
  });
  return { ok: true, values, unit: unit ?? from ?? '1', cells };
};

import type { Finding } from '../findings/finding.ts';
import { nearestName } from '../records/nearest-name.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type Cell, type DataColumn, type DataTable, readNumber } from '../records/table.ts';
import { isKnownUnit, unitCode, unitConverter } from '../records/units.ts';
import { evidenceFinding } from './evidence-findings.ts';
import { sameCharacteristic } from './limit-comparison.ts';
import { decimalsOf } from './number-text.ts';
import type { AcceptanceLimits } from './result.ts';

export type DataRecord = RecordOf<'verification-record'> | RecordOf<'validation-record'>;

/** One reading of one unit. */
export interface UnitReading {
  readonly unit: string;
  readonly lot?: string;
  /** What the group column says; absent where the record names no group column. */
  readonly group?: string;
  readonly cell: Cell;
  /** In the unit of the limits. Absent for words. */
  readonly value?: number;
  /** For readings at the end of the range: the value is a bound. */
  readonly bound?: 'below' | 'above';
  /** For words such as pass and no. */
  readonly word?: 'pass' | 'fail' | 'not applicable';
}

export interface Readings {
  readonly list: readonly UnitReading[];
  readonly decimals: number;
  readonly findings: readonly Finding[];
}

/** Rows of the data with their unit and lot, the excluded units set apart. */
export interface Rows {
  readonly kept: readonly number[];
  readonly unitOf: (row: number) => string;
  readonly lotOf: (row: number) => string | undefined;
  readonly groupOf: (row: number) => string | undefined;
  readonly excluded: readonly string[];
  readonly findings: readonly Finding[];
}

const words: Readonly<Record<string, UnitReading['word']>> = {
  pass: 'pass',
  passed: 'pass',
  yes: 'pass',
  ok: 'pass',
  conforms: 'pass',
  fail: 'fail',
  failed: 'fail',
  no: 'fail',
  'not applicable': 'not applicable',
  'n/a': 'not applicable',
};

const columnNamed = (table: DataTable, name: string): DataColumn | undefined =>
  table.columns.find((column) => column.name === name);

const missingColumn = (
  record: DataRecord,
  table: DataTable,
  name: string,
  path: readonly (string | number)[],
): Finding => {
  const names = table.columns.map((column) => column.name);
  const near = nearestName(name, names);
  return evidenceFinding(
    'data-column-missing',
    placeOf(record, ...path),
    `${table.file} has no column "${name}"`,
    [record.id],
    near ? `Did you mean "${near}"?` : `The columns are: ${names.join(', ')}.`,
  );
};

/** Sorts the rows by what the record excludes. */
export const rowsOf = (record: DataRecord, table: DataTable): Rows => {
  const findings: Finding[] = [];
  const { data, exclusions = [] } = record.fields;
  const find = (name: string | undefined, field: string): DataColumn | undefined => {
    if (name === undefined) return undefined;
    const column = columnNamed(table, name);
    if (!column) findings.push(missingColumn(record, table, name, ['data', field]));
    return column;
  };
  const unitColumn = find(data.unit_id, 'unit_id');
  const lotColumn = find(data.lot, 'lot');
  const groupColumn = find(data.group, 'group');
  const lineOf = (row: number): number => table.columns[0]?.cells[row]?.line ?? row + 2;
  const unitOf = (row: number): string => unitColumn?.cells[row]?.text || `row ${lineOf(row)}`;
  for (const cell of unitColumn?.cells ?? [])
    if (cell.text === '')
      findings.push(
        evidenceFinding(
          'data-cell-blank',
          { file: table.file, line: cell.line, column: cell.column },
          `row ${cell.line}, column "${unitColumn?.name}": the unit has no name, so its readings could be counted twice or as a unit of their own`,
          [record.id],
          'Enter the name of the unit in every row.',
        ),
      );
  const all = Array.from({ length: table.rows }, (_, row) => row);
  const present = new Set(all.map(unitOf));
  const excluded = new Set(exclusions.map((exclusion) => exclusion.unit));
  for (const [index, { unit }] of exclusions.entries())
    if (!present.has(unit))
      findings.push(
        evidenceFinding(
          'exclusion-unknown-unit',
          placeOf(record, 'exclusions', index, 'unit'),
          `${record.id} excludes the unit ${unit}, which ${table.file} does not hold`,
          [record.id],
          'Correct the name of the unit, or restore its row: raw data are never removed.',
        ),
      );
  return {
    kept: all.filter((row) => !excluded.has(unitOf(row))),
    unitOf,
    lotOf: (row) => lotColumn?.cells[row]?.text,
    groupOf: (row) => groupColumn?.cells[row]?.text,
    excluded: [...excluded],
    findings,
  };
};

/** Readings of one characteristic, converted to the unit of its limits. Whatever can't be read is a finding with row and column. */
export const readingsOf = (
  record: DataRecord,
  table: DataTable,
  rows: Rows,
  limits: AcceptanceLimits,
): Readings => {
  const findings: Finding[] = [];
  const none = (): Readings => ({ list: [], decimals: 0, findings });
  const index = record.fields.data.columns.findIndex((each) =>
    sameCharacteristic(each.characteristic, limits.characteristic),
  );
  const mapping = record.fields.data.columns[index];
  if (!mapping) {
    findings.push(
      evidenceFinding(
        'data-column-missing',
        placeOf(record, 'data', 'columns'),
        `${record.id} names no column for "${limits.characteristic}", which its protocol asks for`,
        [record.id],
        'Add the characteristic and its column under data.columns.',
      ),
    );
    return none();
  }
  const column = columnNamed(table, mapping.column);
  if (!column) {
    findings.push(missingColumn(record, table, mapping.column, ['data', 'columns', index, 'column']));
    return none();
  }
  const at = (cell: Cell): { file: string; line: number; column: number } => ({
    file: table.file,
    line: cell.line,
    column: cell.column,
  });
  const unit = mapping.unit ?? column.unit;
  const decimal = record.fields.data.decimal ?? '.';
  const isNumeric = limits.lower !== undefined || limits.upper !== undefined;
  let convert = (value: number): number => value;
  if (
    mapping.unit !== undefined &&
    column.unit !== undefined &&
    unitCode(mapping.unit) !== unitCode(column.unit)
  ) {
    findings.push(
      evidenceFinding(
        'data-unit-contradicting',
        placeOf(record, 'data', 'columns', index, 'unit'),
        `${record.id} says ${mapping.unit}, the heading of the column "${column.name}" says ${column.unit}`,
        [record.id],
        'Find out in which unit the readings were taken, and say so in one of the two places.',
      ),
    );
    return none();
  }
  if (isNumeric) {
    // Among words, a cell that cannot be read is told by its row; only a number lacks a unit.
    const holdsNumber = (row: number): boolean =>
      ['number', 'below', 'above'].includes(readNumber(column.cells[row]?.text ?? '', decimal).kind);
    if (unit === undefined && limits.unit !== '1' && rows.kept.some(holdsNumber)) {
      findings.push(
        evidenceFinding(
          'data-unit-missing',
          placeOf(record, 'data', 'columns', index),
          `the column "${column.name}" has no unit`,
          [record.id],
          `Write the heading as "${column.name} [${limits.unit}]", or add "unit" here.`,
        ),
      );
      return none();
    }
    const converter = unitConverter(unit ?? '1', limits.unit);
    if (!converter && unit !== undefined) {
      const known = isKnownUnit(unit);
      findings.push(
        evidenceFinding(
          'data-unit-not-convertible',
          placeOf(record, 'data', 'columns', index),
          known
            ? `${unit} cannot be converted to ${limits.unit}, the unit of the acceptance limit`
            : `unknown unit "${unit}" in the column "${column.name}"`,
          [record.id],
          'Correct the unit of the column or of the limit.',
        ),
      );
      return none();
    }
    if (converter) convert = converter;
  }
  let decimals = 0;
  const list: UnitReading[] = [];
  for (const row of rows.kept) {
    const cell = column.cells[row];
    if (!cell) continue;
    const lot = rows.lotOf(row);
    const group = rows.groupOf(row);
    const base = {
      unit: rows.unitOf(row),
      cell,
      ...(lot ? { lot } : {}),
      ...(group === undefined ? {} : { group }),
    };
    const word = wordOf(cell.text);
    if (word) {
      list.push({ ...base, word });
      continue;
    }
    const reading = readNumber(cell.text, decimal);
    if (reading.kind === 'blank')
      findings.push(
        evidenceFinding(
          'data-cell-blank',
          at(cell),
          `row ${cell.line}, column "${column.name}": no reading for ${base.unit}`,
          [record.id],
          'Enter the reading, or exclude the unit with a reason and a deviation.',
        ),
      );
    else if (reading.kind === 'wrong')
      findings.push(
        evidenceFinding(
          'data-cell-wrong',
          at(cell),
          `row ${cell.line}, column "${column.name}": ${reading.reason}`,
          [record.id],
          reading.hint,
        ),
      );
    else if (!isNumeric)
      findings.push(
        evidenceFinding(
          'data-cell-wrong',
          at(cell),
          `row ${cell.line}, column "${column.name}": "${cell.text}" is neither pass nor fail`,
          [record.id],
          'Write pass or fail: the acceptance has a criterion, not a limit.',
        ),
      );
    else {
      decimals = Math.max(decimals, decimalsOf(cell.text));
      list.push({
        ...base,
        value: convert(reading.value),
        ...(reading.kind === 'number' ? {} : { bound: reading.kind }),
      });
    }
  }
  // A unit a thousand times as large needs three decimals more, so that 52 µm is printed as 0.052 mm.
  const scale = Math.abs(convert(1) - convert(0));
  const shift = scale > 0 && Number.isFinite(scale) ? Math.round(-Math.log10(scale)) : 0;
  return { list, decimals: Math.min(Math.max(decimals + shift, 0), 6), findings };
};

const wordOf = (text: string): UnitReading['word'] => {
  const key = text.trim().toLowerCase();
  return Object.hasOwn(words, key) ? words[key] : undefined;
};

/** The readings of one unit, gathered. */
export interface UnitGroup {
  readonly unit: string;
  readonly lot?: string;
  readonly readings: readonly UnitReading[];
}

export const byUnit = (readings: readonly UnitReading[]): readonly UnitGroup[] => {
  const groups = new Map<string, UnitReading[]>();
  for (const reading of readings) {
    const known = groups.get(reading.unit);
    if (known) known.push(reading);
    else groups.set(reading.unit, [reading]);
  }
  return [...groups].map(([unit, list]) => ({
    unit,
    readings: list,
    ...(list[0]?.lot ? { lot: list[0].lot } : {}),
  }));
};

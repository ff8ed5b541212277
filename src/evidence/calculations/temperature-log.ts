import { isRealDate } from '../../records/calendar.ts';
import type { Cell, DataColumn, DataTable } from '../../records/table.ts';
import { unitConverter } from '../../records/units.ts';
import type { TemperatureReading } from '../../statistics/temperature-history.ts';
import type { InputProblem } from './calculation.ts';

/** A logger's file: times in days, temperatures in °C, relative humidity in per cent where there is a column for it. */
export interface TemperatureLog {
  readonly readings: readonly TemperatureReading[];
  readonly humidities?: readonly number[];
}

const moment = /^(\d{4}-\d{2}-\d{2})(?:[T ](\d{2}):(\d{2})(?::(\d{2})(?:\.\d+)?)?)?(Z|[+-]\d{2}:?\d{2})?$/;

/** Days since 1970 of an ISO moment such as `2026-01-12 08:30`; undefined where it is none. */
const daysOf = (text: string): number | undefined => {
  const match = moment.exec(text.trim());
  const [, date = '', hours = '0', minutes = '0', seconds = '0', zone] = match ?? [];
  if (!match || !isRealDate(date)) return undefined;
  const [h, m, s] = [hours, minutes, seconds].map(Number);
  if (h === undefined || m === undefined || s === undefined || h > 23 || m > 59 || s > 59) return undefined;
  const days = Date.parse(`${date}T00:00:00Z`) / 86_400_000 + (h + (m + s / 60) / 60) / 24;
  if (zone === undefined || zone === 'Z') return days;
  const [offsetHours, offsetMinutes] = [zone.slice(1, 3), zone.slice(-2)].map(Number);
  const offset = ((offsetHours ?? 0) + (offsetMinutes ?? 0) / 60) / 24;
  return zone.startsWith('-') ? days + offset : days - offset;
};

const numberPattern = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?$/;

/** A number as written with the decimal sign of the file; undefined where the text is none. */
const numberOf = (text: string, decimal: string): number | undefined => {
  const trimmed = text.trim().replace('\u2212', '-');
  if (decimal === ',' && trimmed.includes('.')) return undefined;
  const pointed = decimal === ',' ? trimmed.replace(',', '.') : trimmed;
  return numberPattern.test(pointed) ? Number(pointed) : undefined;
};

/**
 * Reads the columns that `data` of the record names (`time`, `temperature` and `relative_humidity`; columns of these names
 * unless given), with the sign of decimals that it gives. Times are moments such as 2026-01-12 08:30, all with or all without a zone, or numbers with a unit of time
 * in the heading.
 */
export const readTemperatureLog = (
  table: DataTable,
  names: Readonly<Record<string, unknown>>,
  problems: InputProblem[],
): TemperatureLog | undefined => {
  const refuse: Refuse = (message, cell) => {
    problems.push({ path: [], message, ...(cell ? { cell } : {}) });
    return undefined;
  };
  const columnOf = (role: string): DataColumn | undefined => {
    const name = typeof names[role] === 'string' ? names[role] : role.replaceAll('_', ' ');
    return table.columns.find((column) => column.name === name);
  };
  const needed = (role: string): DataColumn | undefined =>
    columnOf(role) ??
    refuse(
      `${table.file} has no column "${String(names[role] ?? role)}"; it has: ${table.columns.map((column) => column.name).join(', ')}`,
    );
  const decimal = names['decimal'] === ',' ? ',' : '.';
  const time = needed('time');
  const temperature = needed('temperature');
  if (!time || !temperature) return undefined;
  const times = readTimes(time, decimal, table.file, refuse);
  const degrees = readNumbers(temperature, { target: 'Cel', decimal }, table.file, refuse);
  const humidity = columnOf('relative_humidity');
  if (!humidity && names['relative_humidity'] !== undefined) needed('relative_humidity');
  const humidities = humidity
    ? readNumbers(humidity, { target: '%', decimal }, table.file, refuse)
    : undefined;
  if (!times || !degrees || problems.length > 0) return undefined;
  return {
    readings: times.map((each, index) => ({ time: each, temperature: degrees[index] ?? Number.NaN })),
    ...(humidities ? { humidities } : {}),
  };
};

type Refuse = (message: string, cell?: Cell) => undefined;

const atCell = (cell: Cell, column: string): string => `row ${cell.line}, column "${column}"`;

const readTimes = (
  column: DataColumn,
  decimal: string,
  file: string,
  refuse: Refuse,
): readonly number[] | undefined => {
  if (column.unit !== undefined) return readNumbers(column, { target: 'd', decimal }, file, refuse);
  const zoned = (cell: Cell): boolean => moment.exec(cell.text.trim())?.[5] !== undefined;
  const [first] = column.cells;
  const times: number[] = [];
  for (const cell of column.cells) {
    const days = daysOf(cell.text);
    if (days === undefined)
      return refuse(
        `${atCell(cell, column.name)}: "${cell.text}" is no moment such as 2026-01-12 08:30; times in numbers need a unit in the heading, such as time [h]`,
        cell,
      );
    if (first && zoned(cell) !== zoned(first))
      return refuse(`${atCell(cell, column.name)}: some times have a zone and some have none`, cell);
    times.push(days);
  }
  return times;
};

const readNumbers = (
  column: DataColumn,
  { target, decimal }: { readonly target: string; readonly decimal: string },
  file: string,
  refuse: Refuse,
): readonly number[] | undefined => {
  const convert = unitConverter(column.unit ?? target, target);
  if (!convert)
    return refuse(
      `the column "${column.name}" of ${file} is in ${column.unit ?? target}, which cannot be converted to ${target}`,
    );
  const numbers: number[] = [];
  for (const cell of column.cells) {
    const value = numberOf(cell.text, decimal);
    if (value === undefined)
      return refuse(
        `${atCell(cell, column.name)}: ${cell.text === '' ? 'the cell is empty' : `"${cell.text}" is not a number`}`,
        cell,
      );
    numbers.push(convert(value));
  }
  return numbers;
};

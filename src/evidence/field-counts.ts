import type { Place } from '../findings/finding.ts';
import { fileDigest } from '../graph/digest.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type DataTable, readNumber, readTable } from '../records/table.ts';
import { type DataFiles, resolveDataPath } from './evaluate.ts';
import type { RiskCriteria } from './risk-estimate.ts';

/** Uses and events of one period. */
export interface PeriodCount {
  readonly name: string;
  readonly uses: number;
  readonly events: number;
}

/** One column of events of one record, as it was counted. */
export interface CountedColumn {
  readonly column: string;
  /** Place of the column among those of the record. */
  readonly index: number;
  readonly risk: RecordOf<'risk'>;
  readonly counts: 'situation' | 'harm';
  readonly estimate: 'before' | 'after';
  readonly periods: readonly PeriodCount[];
}

export interface FieldProblem {
  readonly place: Place;
  readonly message: string;
  readonly hint: string;
}

/** What one record of field data holds. */
export interface FieldCounts {
  readonly record: RecordOf<'field-data'>;
  readonly dataFile?: string;
  readonly dataDigest?: string;
  readonly problems: readonly FieldProblem[];
  /** Empty where the data cannot be used. */
  readonly columns: readonly CountedColumn[];
  /** The periods in the order of the file, with the line of each; empty where the data cannot be used. */
  readonly periods: readonly { readonly name: string; readonly place: Place }[];
}

/** Reads the data of a record. Counts are never corrected for what nobody reports. */
export const readFieldCounts = (
  record: RecordOf<'field-data'>,
  graph: TraceGraph,
  files: DataFiles,
  criteria: RiskCriteria | undefined,
): FieldCounts => {
  const base = { record, columns: [], periods: [] };
  const { data } = record.fields;
  const path = resolveDataPath(record, data.file);
  const source = path === undefined ? undefined : files.get(path);
  if (path === undefined || !source)
    return {
      ...base,
      problems: [
        {
          place: placeOf(record, 'data', 'file'),
          message:
            path === undefined
              ? `the path "${data.file}" leads out of the technical file`
              : `the data file ${path} is missing`,
          hint: 'Put the file in place, or correct the path: it starts at the folder of the record.',
        },
      ],
    };
  const found = { ...base, dataFile: path, dataDigest: fileDigest(source.bytes) };
  const outcome = readTable(path, source.bytes);
  if ('problem' in outcome) return { ...found, problems: [{ hint: 'Mend the file.', ...outcome.problem }] };
  const read = readPeriods(record, outcome.table);
  const problems = [...read.problems, ...denominatorProblems(record, criteria)];
  if (problems.length > 0) return { ...found, problems };
  const columns = data.columns.flatMap(
    ({ column, risk: id, counts, estimate = 'after' }, index): readonly CountedColumn[] => {
      const risk = graph.recordOf('risk', id);
      // An unknown risk is the finding of another check.
      if (!risk) return [];
      const periods = read.periods.map(({ name, uses, events }) => ({
        name,
        uses,
        events: events[index] ?? 0,
      }));
      return [{ column, index, risk, counts, estimate, periods }];
    },
  );
  return {
    ...found,
    problems: [],
    columns,
    periods: read.periods.map(({ name, place }) => ({ name, place })),
  };
};

/** What one count of the uses is where the record does not say. */
const usualDenominator = 'per use';

/** A rate per use says nothing of a probability per year: the two must be of the same. */
const denominatorProblems = (
  record: RecordOf<'field-data'>,
  criteria: RiskCriteria | undefined,
): readonly FieldProblem[] => {
  const own = record.fields.data.denominator ?? usualDenominator;
  const asked = criteria?.probability.denominator;
  if (asked === undefined || asked.trim().toLowerCase() === own.trim().toLowerCase()) return [];
  const isStated = record.fields.data.denominator !== undefined;
  return [
    {
      place: placeOf(record, 'data', ...(isStated ? ['denominator'] : ['uses'])),
      message: `the counts are ${own}, and the probabilities of the risk criteria are ${asked}`,
      hint: `Count in the denominator of the criteria, and say so with "denominator: ${asked}".`,
    },
  ];
};

/** Order of names in which numbers count as numbers: M2 before M10, 2026-Q4 before 2027-Q1. */
const compareNaturally = (a: string, b: string): number => {
  const pieces = (text: string): readonly string[] => text.match(/\d+|\D+/g) ?? [];
  const [left, right] = [pieces(a), pieces(b)];
  for (const [index, piece] of left.entries()) {
    const other = right[index];
    if (other === undefined) return 1;
    const areNumbers = /^\d/.test(piece) && /^\d/.test(other);
    const order = areNumbers ? Number(piece) - Number(other) : piece < other ? -1 : piece > other ? 1 : 0;
    if (order !== 0) return order;
  }
  return left.length - right.length;
};

interface ReadPeriod {
  readonly name: string;
  readonly place: Place;
  readonly uses: number;
  /** By column of events. */
  readonly events: readonly number[];
}

const readPeriods = (
  record: RecordOf<'field-data'>,
  table: DataTable,
): { readonly periods: readonly ReadPeriod[]; readonly problems: readonly FieldProblem[] } => {
  const { data } = record.fields;
  const problems: FieldProblem[] = [];
  const columnNamed = (name: string, ...path: readonly (string | number)[]) => {
    const column = table.columns.find((each) => each.name === name);
    if (!column)
      problems.push({
        place: placeOf(record, 'data', ...path),
        message: `${table.file} has no column "${name}"`,
        hint: `Its columns are: ${table.columns.map((each) => each.name).join(', ')}.`,
      });
    return column;
  };
  const names = columnNamed(data.period, 'period');
  const uses = columnNamed(data.uses, 'uses');
  const events = data.columns.map(({ column }, index) => columnNamed(column, 'columns', index, 'column'));
  if (table.rows === 0)
    problems.push({
      place: { file: table.file, line: 1, column: 1 },
      message: 'the file has a heading and no period',
      hint: 'Add a row for each period, in order of time.',
    });
  // The units in use have the controls: what they show is the risk that remains.
  for (const [index, { estimate }] of data.columns.entries())
    if (record.fields.device.which === 'own' && estimate === 'before')
      problems.push({
        place: placeOf(record, 'data', 'columns', index, 'estimate'),
        message: 'data of the device itself are held against the estimate before control',
        hint: 'Leave "estimate" out: the units in use have the controls.',
      });
  if (problems.length > 0) return { periods: [], problems };
  const count = (column: typeof uses, row: number, smallest: 0 | 1): number => {
    const cell = column?.cells[row];
    const number = readNumber(cell?.text ?? '');
    const value = number.kind === 'number' ? number.value : Number.NaN;
    if (!(Number.isSafeInteger(value) && value >= smallest))
      problems.push({
        place: { file: table.file, line: cell?.line ?? 1, column: cell?.column ?? 1 },
        message: `"${cell?.text ?? ''}" under "${column?.name ?? ''}" is not a whole number from ${smallest}`,
        hint: 'Write how many there were in the period, without signs between thousands.',
      });
    return value;
  };
  const seen = new Set<string>();
  const periods = Array.from({ length: table.rows }, (_, row): ReadPeriod => {
    const cell = names?.cells[row];
    const name = cell?.text.trim() ?? '';
    const place = { file: table.file, line: cell?.line ?? 1, column: cell?.column ?? 1 };
    if (name === '' || seen.has(name))
      problems.push({
        place,
        message: name === '' ? 'a period has no name' : `the period ${name} stands twice`,
        hint: 'Give each period one row with a name of its own.',
      });
    const before = [...seen].at(-1);
    if (before !== undefined && compareNaturally(before, name) > 0)
      problems.push({
        place,
        message: `the period ${name} stands after ${before}`,
        hint: 'Put the rows into the order of time; a trend is looked for along them.',
      });
    seen.add(name);
    const used = count(uses, row, 1);
    const counted = events.map((column) => count(column, row, 0));
    for (const [index, number] of counted.entries())
      if (number > used)
        problems.push({
          place,
          message: `${name} has ${number} events under "${data.columns[index]?.column}" in ${used} uses`,
          hint: 'Correct the number of uses or of events.',
        });
    return { name, place, uses: used, events: counted };
  });
  return { periods, problems };
};

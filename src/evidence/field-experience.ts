import type { Place } from '../findings/finding.ts';
import { sha256Hex } from '../graph/digest.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import type { PlinthFields } from '../records/fields.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type DataTable, readNumber, readTable } from '../records/table.ts';
import { exposureNeeded, type PoissonRate, poissonRate } from '../statistics/poisson-rate.ts';
import { type PoissonTrend, poissonTrend } from '../statistics/poisson-trend.ts';
import { type DataFiles, resolveDataPath } from './evaluate.ts';
import { estimateRisk, type RiskCriteria } from './risk-estimate.ts';

/** Uses and events of one period. */
export interface PeriodCount {
  readonly name: string;
  readonly uses: number;
  readonly events: number;
}

/**
 * What the counts say of the band that is claimed for the probability of harm. `supported`: the upper bound lies
 * within it. `contradicted`: the lower bound lies above it. `not yet shown`: neither; more uses would have to be seen.
 */
export type ClaimOutcome = 'supported' | 'not yet shown' | 'contradicted' | 'no estimate';

/** A threshold of the surveillance plan that a period has reached. */
export interface ReachedThreshold {
  readonly period: string;
  /** Completes "in 2027-Q1 there were …". */
  readonly words: string;
}

/** The counts of one column, held against the estimate of its risk. */
export interface RiskExperience extends PoissonRate {
  readonly column: string;
  /** Place of the column among those of the record. */
  readonly index: number;
  readonly risk: RecordOf<'risk'>;
  readonly counts: 'situation' | 'harm';
  readonly estimate: 'before' | 'after';
  readonly periods: readonly PeriodCount[];
  readonly events: number;
  readonly uses: number;
  readonly band?: string;
  /** Events per use at the upper end of the band; absent for the band that has none. */
  readonly edge?: number;
  readonly outcome: ClaimOutcome;
  /** Uses that would have to be seen without a further event until the band is supported. */
  readonly usesNeeded?: number;
  /** Absent with fewer than three periods. */
  readonly trend?: PoissonTrend;
  readonly reached: readonly ReachedThreshold[];
}

export interface FieldProblem {
  readonly place: Place;
  readonly message: string;
  readonly hint: string;
}

/** What one record of field data says. */
export interface FieldExperience {
  readonly record: RecordOf<'field-data'>;
  readonly confidence: number;
  readonly dataFile?: string;
  readonly dataDigest?: string;
  readonly problems: readonly FieldProblem[];
  /** Empty where the data cannot be used. */
  readonly risks: readonly RiskExperience[];
}

/** Where the record names no plan that exists. */
const usualConfidence = 0.95;

const fewestPeriodsForTrend = 3;

/** Reads the data of a record and holds them against the estimates. Counts are never corrected for what nobody reports. */
export const fieldExperience = (
  record: RecordOf<'field-data'>,
  graph: TraceGraph,
  files: DataFiles,
  project: PlinthFields,
): FieldExperience => {
  const plan = graph.recordOf('surveillance-plan', record.fields.plan);
  const confidence = plan?.fields.confidence ?? usualConfidence;
  const base = { record, confidence };
  const { data } = record.fields;
  const path = resolveDataPath(record, data.file);
  const source = path === undefined ? undefined : files.get(path);
  if (path === undefined || !source)
    return {
      ...base,
      risks: [],
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
  const found = { ...base, dataFile: path, dataDigest: sha256Hex(source.bytes) };
  const outcome = readTable(path, source.bytes);
  if ('problem' in outcome)
    return {
      ...found,
      risks: [],
      problems: [{ hint: 'Mend the file.', ...outcome.problem }],
    };
  const read = readPeriods(record, outcome.table);
  if (read.problems.length > 0) return { ...found, risks: [], problems: read.problems };
  const risks = data.columns.flatMap((column, index): readonly RiskExperience[] => {
    const risk = graph.recordOf('risk', column.risk);
    // An unknown risk is the finding of another check.
    if (!risk) return [];
    const periods = read.periods.map(({ name, uses, events }) => ({
      name,
      uses,
      events: events[index] ?? 0,
    }));
    return [judgeColumn({ column, index, risk, periods, confidence, plan, criteria: project.risk })];
  });
  return { ...found, problems: [], risks };
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
    if (name === '' || seen.has(name))
      problems.push({
        place: { file: table.file, line: cell?.line ?? 1, column: cell?.column ?? 1 },
        message: name === '' ? 'a period has no name' : `the period ${name} stands twice`,
        hint: 'Give each period one row with a name of its own.',
      });
    const before = [...seen].at(-1);
    if (before !== undefined && compareNaturally(before, name) > 0)
      problems.push({
        place: { file: table.file, line: cell?.line ?? 1, column: cell?.column ?? 1 },
        message: `the period ${name} stands after ${before}`,
        hint: 'Put the rows into the order of time; a trend is looked for along them.',
      });
    seen.add(name);
    const used = count(uses, row, 1);
    const counted = events.map((column) => count(column, row, 0));
    for (const [index, number] of counted.entries())
      if (number > used)
        problems.push({
          place: { file: table.file, line: cell?.line ?? 1, column: cell?.column ?? 1 },
          message: `${name} has ${number} events under "${data.columns[index]?.column}" in ${used} uses`,
          hint: 'Correct the number of uses or of events.',
        });
    return { name, uses: used, events: counted };
  });
  return { periods, problems };
};

interface ColumnInput {
  readonly column: RecordOf<'field-data'>['fields']['data']['columns'][number];
  readonly index: number;
  readonly risk: RecordOf<'risk'>;
  readonly periods: readonly PeriodCount[];
  readonly confidence: number;
  readonly plan: RecordOf<'surveillance-plan'> | undefined;
  readonly criteria: RiskCriteria | undefined;
}

const judgeColumn = ({
  column,
  index,
  risk,
  periods,
  confidence,
  plan,
  criteria,
}: ColumnInput): RiskExperience => {
  const { counts, estimate = 'after' } = column;
  const events = periods.reduce((sum, each) => sum + each.events, 0);
  const uses = periods.reduce((sum, each) => sum + each.uses, 0);
  const rate = poissonRate({ events, exposure: uses, confidence });
  const claim = claimOf(risk, counts, estimate, criteria);
  const outcome: ClaimOutcome = !claim
    ? 'no estimate'
    : claim.edge === undefined || rate.upper < claim.edge
      ? 'supported'
      : rate.lower > claim.edge
        ? 'contradicted'
        : 'not yet shown';
  return {
    ...rate,
    column: column.column,
    index,
    risk,
    counts,
    estimate,
    periods,
    events,
    uses,
    ...(claim ? { band: claim.band } : {}),
    ...(claim?.edge === undefined ? {} : { edge: claim.edge }),
    outcome,
    ...(outcome === 'not yet shown' && claim?.edge !== undefined
      ? { usesNeeded: Math.ceil(exposureNeeded({ events, rate: claim.edge, confidence })) }
      : {}),
    ...(periods.length >= fewestPeriodsForTrend
      ? { trend: poissonTrend(periods.map((each) => ({ events: each.events, exposure: each.uses }))) }
      : {}),
    reached: thresholdsReached(plan, risk.id, counts, periods),
  };
};

/**
 * The band that is claimed, and its upper end as events per use. Bands are of the probability of harm, P1 times P2;
 * where situations are counted, the end is divided by P2, which the counts say nothing of.
 */
const claimOf = (
  risk: RecordOf<'risk'>,
  counts: 'situation' | 'harm',
  when: 'before' | 'after',
  criteria: RiskCriteria | undefined,
): { readonly band: string; readonly edge?: number } | undefined => {
  const estimate = criteria && estimateRisk(risk.fields.severity, risk.fields[when], criteria);
  const { p2 } = risk.fields[when];
  if (estimate?.kind !== 'by probability' || p2 === undefined) return undefined;
  const below = criteria?.probability.bands.find((each) => each.band === estimate.band)?.below;
  const edge = below === undefined ? undefined : counts === 'harm' ? below : below / p2;
  // A situation that leads to the harm so rarely may occur at every use.
  return { band: estimate.band, ...(edge === undefined || !(edge <= 1) ? {} : { edge }) };
};

const thresholdsReached = (
  plan: RecordOf<'surveillance-plan'> | undefined,
  risk: string,
  counts: 'situation' | 'harm',
  periods: readonly PeriodCount[],
): readonly ReachedThreshold[] =>
  (plan?.fields.thresholds ?? [])
    .filter((threshold) => threshold.risk === risk && threshold.counts === counts)
    .flatMap(({ events, rate }) =>
      periods.flatMap((period): readonly ReachedThreshold[] => [
        ...(events !== undefined && period.events >= events
          ? [{ period: period.name, words: `${period.events} events, the threshold is ${events}` }]
          : []),
        ...(rate !== undefined && period.events / period.uses > rate
          ? [
              {
                period: period.name,
                words: `${period.events} events in ${period.uses} uses, the threshold is ${rate} per use`,
              },
            ]
          : []),
      ]),
    );

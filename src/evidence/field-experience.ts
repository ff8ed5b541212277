import type { TraceGraph } from '../graph/trace-graph.ts';
import type { RecordOf } from '../records/record.ts';
import { exposureNeeded, type PoissonRate, poissonRate } from '../statistics/poisson-rate.ts';
import { type PoissonTrend, poissonTrend } from '../statistics/poisson-trend.ts';
import type { CountedColumn, FieldCounts, PeriodCount } from './field-counts.ts';
import { estimateRisk, type RiskCriteria } from './risk-estimate.ts';

/**
 * What the counts say of what is claimed. `supported`: the upper bound of the rate lies within it. `contradicted`: the
 * lower bound lies above it. `not yet shown`: neither; more uses would have to be seen. `closed`: a later record says
 * why counting starts anew, so these counts speak of an earlier state and are held against nothing.
 */
export type ClaimOutcome = 'supported' | 'not yet shown' | 'contradicted' | 'no estimate' | 'closed';

/** What a rate is held against. */
export interface Claim {
  /** `P1 0.0004` or `band O3`. */
  readonly words: string;
  /** Events per use up to which the claim holds; absent for the band that has no end. */
  readonly edge?: number;
}

/** A threshold of the surveillance plan that a period has reached. */
export interface ReachedThreshold {
  readonly period: string;
  /** Completes "in 2027-Q1 there were …". */
  readonly words: string;
}

/** One column of one record in a series. */
export interface SeriesPart {
  readonly record: RecordOf<'field-data'>;
  readonly counted: CountedColumn;
  readonly reached: readonly ReachedThreshold[];
}

/**
 * Counts of one kind of event of one risk with one device, over all records that go on counting them, held against the
 * estimate of the risk. Year by year each record alone could stay silent where all of them together do not.
 */
export interface FieldSeries extends PoissonRate {
  readonly column: string;
  readonly risk: RecordOf<'risk'>;
  readonly counts: 'situation' | 'harm';
  readonly estimate: 'before' | 'after';
  /** In order of time; the last one is where findings on the whole series stand. */
  readonly parts: readonly SeriesPart[];
  readonly last: SeriesPart;
  readonly confidence: number;
  readonly periods: readonly PeriodCount[];
  readonly events: number;
  readonly uses: number;
  readonly claim?: Claim;
  readonly outcome: ClaimOutcome;
  /** Uses that would have to be seen without a further event until the claim is supported. */
  readonly usesNeeded?: number;
  /** Absent with fewer than three periods. */
  readonly trend?: PoissonTrend;
}

/** Where the record names no plan that exists. */
const usualConfidence = 0.95;

const fewestPeriodsForTrend = 3;

/** Names differ only by letter case and blanks: the same. */
const plain = (text: string): string => text.trim().replace(/\s+/g, ' ').toLowerCase();

const deviceOf = ({ fields: { device } }: RecordOf<'field-data'>): string =>
  device.which === 'own' ? 'own' : `comparable ${plain(device.description ?? '')}`;

/** What two columns have in common that go on counting the same. */
const seriesKey = (
  record: RecordOf<'field-data'>,
  { risk, counts, estimate, column }: CountedColumn,
): string => JSON.stringify([deviceOf(record), risk.id, counts, estimate, plain(column)]);

interface OpenSeries {
  readonly members: { readonly record: RecordOf<'field-data'>; readonly counted: CountedColumn }[];
  isClosed: boolean;
}

/**
 * Joins the columns of all records into series, in the order of their periods. Two columns go together when device,
 * risk, kind of event, estimate and heading are the same; a record that says why counts start anew closes the series
 * before it.
 */
export const fieldSeries = (
  counts: readonly FieldCounts[],
  graph: TraceGraph,
  criteria: RiskCriteria | undefined,
): readonly FieldSeries[] => {
  const inOrder = counts.toSorted((a, b) => {
    const [left, right] = [a.record.fields.period.from, b.record.fields.period.from];
    return left < right ? -1 : left > right ? 1 : a.record.id < b.record.id ? -1 : 1;
  });
  const all: OpenSeries[] = [];
  const open = new Map<string, OpenSeries>();
  for (const { record, columns } of inOrder)
    for (const counted of columns) {
      const key = seriesKey(record, counted);
      const before = open.get(key);
      if (before && record.fields.starts_anew === undefined) before.members.push({ record, counted });
      else {
        if (before) before.isClosed = true;
        const series = { members: [{ record, counted }], isClosed: false };
        open.set(key, series);
        all.push(series);
      }
    }
  return all.flatMap((series) => judgeSeries(series, graph, criteria) ?? []);
};

const judgeSeries = (
  { members, isClosed }: OpenSeries,
  graph: TraceGraph,
  criteria: RiskCriteria | undefined,
): FieldSeries | undefined => {
  const planOf = (record: RecordOf<'field-data'>) => graph.recordOf('surveillance-plan', record.fields.plan);
  const parts = members.map(
    ({ record, counted }): SeriesPart => ({
      record,
      counted,
      reached: thresholdsReached(planOf(record), counted),
    }),
  );
  const last = parts.at(-1);
  if (!last) return undefined;
  const { column, risk, counts, estimate } = last.counted;
  const confidence = planOf(last.record)?.fields.confidence ?? usualConfidence;
  const periods = parts.flatMap((part) => part.counted.periods);
  const events = periods.reduce((sum, each) => sum + each.events, 0);
  const uses = periods.reduce((sum, each) => sum + each.uses, 0);
  const rate = poissonRate({ events, exposure: uses, confidence });
  const claim = claimOf(risk, counts, estimate, criteria);
  const outcome: ClaimOutcome = isClosed ? 'closed' : outcomeOf(rate, claim);
  return {
    ...rate,
    column,
    risk,
    counts,
    estimate,
    parts,
    last,
    confidence,
    periods,
    events,
    uses,
    ...(claim ? { claim } : {}),
    outcome,
    ...(outcome === 'not yet shown' && claim?.edge !== undefined && claim.edge > 0
      ? { usesNeeded: Math.ceil(exposureNeeded({ events, rate: claim.edge, confidence })) }
      : {}),
    ...(!isClosed && periods.length >= fewestPeriodsForTrend
      ? { trend: poissonTrend(periods.map((each) => ({ events: each.events, exposure: each.uses }))) }
      : {}),
  };
};

const outcomeOf = (rate: PoissonRate, claim: Claim | undefined): ClaimOutcome => {
  if (!claim) return 'no estimate';
  if (claim.edge === undefined || rate.upper < claim.edge) return 'supported';
  return rate.lower > claim.edge ? 'contradicted' : 'not yet shown';
};

/**
 * What the risk claims of the events that are counted. P1 is the probability of the hazardous situation, so situations
 * are held against P1 itself; harms are held against the end of the band of P1 times P2, by which people accepted the
 * risk.
 */
const claimOf = (
  risk: RecordOf<'risk'>,
  counts: 'situation' | 'harm',
  when: 'before' | 'after',
  criteria: RiskCriteria | undefined,
): Claim | undefined => {
  const { p1 } = risk.fields[when];
  if (counts === 'situation')
    return p1 === undefined
      ? undefined
      : { words: `P1 ${risk.yaml.written([when, 'p1']) ?? String(p1)}`, edge: p1 };
  const estimate = criteria && estimateRisk(risk.fields.severity, risk.fields[when], criteria);
  if (estimate?.kind !== 'by probability') return undefined;
  const below = criteria?.probability.bands.find((each) => each.band === estimate.band)?.below;
  return { words: `band ${estimate.band}`, ...(below === undefined ? {} : { edge: below }) };
};

const eventsText = (count: number): string => `${count} ${count === 1 ? 'event' : 'events'}`;

const thresholdsReached = (
  plan: RecordOf<'surveillance-plan'> | undefined,
  { risk, counts, periods }: CountedColumn,
): readonly ReachedThreshold[] =>
  (plan?.fields.thresholds ?? [])
    .filter((threshold) => threshold.risk === risk.id && threshold.counts === counts)
    .flatMap(({ events, rate }) =>
      periods.flatMap((period): readonly ReachedThreshold[] => [
        ...(events !== undefined && period.events >= events
          ? [{ period: period.name, words: `${eventsText(period.events)}, the threshold is ${events}` }]
          : []),
        ...(rate !== undefined && period.events / period.uses > rate
          ? [
              {
                period: period.name,
                words: `${eventsText(period.events)} in ${period.uses} uses, the threshold is ${rate}`,
              },
            ]
          : []),
      ]),
    );

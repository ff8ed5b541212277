import type { TraceGraph } from '../graph/trace-graph.ts';
import type { Project } from '../records/project.ts';
import { printedNumber } from '../statistics/number-notation.ts';
import type { DataFiles } from './evaluate.ts';
import { type FieldCounts, readFieldCounts } from './field-counts.ts';
import { type FieldSeries, fieldSeries, type SeriesPart } from './field-experience.ts';

interface FileParts {
  readonly graph: TraceGraph;
  readonly files: DataFiles;
  readonly project: Project;
}

/** What the records of field data that are not retired hold. */
export const fieldCounts = ({ graph, files, project }: FileParts): readonly FieldCounts[] =>
  graph
    .recordsOf('field-data')
    .filter((record) => record.status !== 'retired')
    .map((record) => readFieldCounts(record, graph, files, project.fields.risk));

/** Each risk that events were counted of, over all records that go on counting them. */
export const countedRisks = (parts: FileParts): readonly FieldSeries[] =>
  fieldSeries(fieldCounts(parts), parts.graph, parts.project.fields.risk);

/** Whether people have looked at the risk again because of these data. */
export const wasLookedAtAgain = ({ record, counted }: SeriesPart): boolean =>
  record.fields.assessed?.risks?.includes(counted.risk.id) ?? false;

/** A rate or an estimate for a message: two digits that count. */
export const rateText = (rate: number): string => {
  const rounded = Number(rate.toPrecision(2));
  return rounded === 0 || rounded >= 0.0001 ? String(rounded) : printedNumber(rate.toExponential(1));
};

import type { TraceGraph } from '../graph/trace-graph.ts';
import type { Project } from '../records/project.ts';
import type { DataFiles } from './evaluate.ts';
import { type FieldExperience, fieldExperience, type RiskExperience } from './field-experience.ts';

interface FileParts {
  readonly graph: TraceGraph;
  readonly files: DataFiles;
  readonly project: Project;
}

/** What the records of field data that are not retired say. */
export const fieldExperiences = ({ graph, files, project }: FileParts): readonly FieldExperience[] =>
  graph
    .recordsOf('field-data')
    .filter((record) => record.status !== 'retired')
    .map((record) => fieldExperience(record, graph, files, project.fields));

/** A risk that events were counted of, with the record that tells of it. */
export interface CountedRisk {
  readonly experience: FieldExperience;
  readonly counted: RiskExperience;
}

export const countedRisks = (parts: FileParts): readonly CountedRisk[] =>
  fieldExperiences(parts).flatMap((experience) =>
    experience.risks.map((counted) => ({ experience, counted })),
  );

/** Whether people have looked at the risk again because of these data. */
export const wasLookedAtAgain = ({ experience, counted }: CountedRisk): boolean =>
  experience.record.fields.assessed?.risks?.includes(counted.risk.id) ?? false;

/** A rate or an estimate for a message: two digits that count. */
export const rateText = (rate: number): string =>
  rate === 0 ? '0' : rate >= 0.001 ? String(Number(rate.toPrecision(2))) : rate.toExponential(1);

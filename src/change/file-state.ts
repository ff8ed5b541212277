import type { DataFiles } from '../evidence/evaluate.ts';
import type { EvidenceResult } from '../evidence/result.ts';
import type { Approvals } from '../graph/approvals.ts';
import type { Standing } from '../graph/standing.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import type { Project } from '../records/project.ts';

/** One state of a technical file, as far as two states are compared. */
export interface FileState {
  readonly project: Project;
  readonly graph: TraceGraph;
  readonly approvals: Approvals;
  readonly evidence: ReadonlyMap<string, EvidenceResult>;
  readonly standing: ReadonlyMap<string, Standing>;
  readonly files: DataFiles;
}

import type { Block } from '../document/model.ts';
import type { DataFiles } from '../evidence/evaluate.ts';
import type { EvidenceResult } from '../evidence/result.ts';
import type { Finding } from '../findings/finding.ts';
import type { WaivedFinding } from '../findings/waivers.ts';
import type { Approvals } from '../graph/approvals.ts';
import type { RecordHistories } from '../graph/record-history.ts';
import type { Standing } from '../graph/standing.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import type { Project } from '../records/project.ts';
import type { RecordOf, TechnicalRecord } from '../records/record.ts';
import type { ClauseTables } from '../regulation/clause-tables.ts';
import type { RecordPlace } from './record-places.ts';

/** What a view may draw from. */
export interface ViewContext {
  readonly graph: TraceGraph;
  readonly project: Project;
  readonly evidence: ReadonlyMap<string, EvidenceResult>;
  readonly standing: ReadonlyMap<string, Standing>;
  readonly approvals: Approvals;
  /** What the checks found. What is found while documents are compiled is told by `documentFindings`. */
  readonly findings: readonly Finding[];
  /** What is found in documents, but for what is waived; nothing while that is not known yet. */
  readonly documentFindings: () => readonly Finding[];
  readonly waived: readonly WaivedFinding[];
  readonly asOf: string;
  /** Bytes of the technical file by path, for views that read data themselves. */
  readonly files: DataFiles;
  /** Clause tables of the tool and of the technical file. */
  readonly clauseTables: ClauseTables;
  /** The document in which the view block stands. */
  readonly document: RecordOf<'document'>;
  /** The record that a document with `for_each` is written for. */
  readonly each?: TechnicalRecord;
  /** States of records by commit, or why they are not known; undefined where nobody looked. */
  readonly histories?: RecordHistories;
  /** Level of the heading above the view block, 0 where there is none. */
  readonly enclosingLevel: number;
  /** The document that shows a record; undefined where none does, or where that is not known yet. */
  readonly placeOf: (id: string) => RecordPlace | undefined;
  /** A record's body as blocks, its highest heading at the given level. */
  readonly bodyOf: (record: TechnicalRecord, topHeadingLevel: number) => readonly Block[];
}

/** Something in the block's YAML that its schema can't catch, with the field it is about. */
export interface ViewProblem {
  readonly path: readonly (string | number)[];
  readonly message: string;
  readonly hint: string;
}

export interface ViewOutcome {
  readonly blocks: readonly Block[];
  readonly problems?: readonly ViewProblem[];
}

/** The code behind a view block. The block's YAML has been validated against `schemas/views/NAME.schema.json`. */
export interface View {
  readonly name: string;
  readonly draw: (body: Readonly<Record<string, unknown>>, context: ViewContext) => ViewOutcome;
  /**
   * Whether it names records to tell how they stand, and not what they say: an index, a page to sign on. Of the places
   * where a record is shown, such a one counts last.
   */
  readonly namesOnly?: true;
}

/** Options that several views share. */
export interface CommonOptions {
  readonly caption?: string;
  readonly anchor?: string;
  readonly where?: { readonly status?: readonly string[] };
}

/** Whether a record is to be shown: its status is among those asked for, or it is not retired. */
export const isShown = (record: TechnicalRecord, { where }: CommonOptions): boolean =>
  where?.status ? where.status.includes(record.status) : record.status !== 'retired';

/** Caption and anchor for a table, where the block gives them. */
export const captionOf = ({
  caption,
  anchor,
}: CommonOptions): { readonly caption?: string; readonly anchor?: string } => ({
  ...(caption === undefined ? {} : { caption }),
  ...(anchor === undefined ? {} : { anchor }),
});

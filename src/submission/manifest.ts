import type { RecordOf } from '../records/record.ts';
import { isFromMemory } from '../regulation/clause-tables.ts';
import type { FolderPlan, PlannedFile } from './folder-plan.ts';
import type { RowState, SubmissionTable } from './submission-rows.ts';

/** Name of the manifest; a folder without it is none of ours and is never replaced. */
export const manifestName = 'manifest.json';

/** What the manifest calls itself. */
export const manifestForm = 'plinth-submission';

/** A file of the folder as it was written. */
export interface ManifestFile {
  readonly path: string;
  readonly bytes: number;
  readonly sha256: string;
  readonly document?: string;
  readonly number?: string;
  readonly revision?: string;
  readonly status?: string;
  /** The record that a document with `for_each` was written for. */
  readonly each?: string;
  /** Path in the technical file. */
  readonly source?: string;
}

interface ManifestRow {
  readonly table: string;
  readonly clause: string;
  readonly title: string;
  readonly known: string;
  readonly state: RowState;
  /** The row above whose entry holds for this one. */
  readonly as?: string;
  readonly files?: readonly string[];
  readonly records?: readonly string[];
  readonly reason?: string;
}

/** Version 1 of the manifest. A field may be added; none changes its meaning without a new number. */
export interface Manifest {
  readonly form: typeof manifestForm;
  readonly version: 1;
  readonly submission: {
    readonly id: string;
    readonly title: string;
    readonly status: string;
    readonly to: string;
  };
  readonly asOf: string;
  readonly contentDigest: string;
  readonly tool: string;
  readonly tables: readonly { readonly key: string; readonly title: string; readonly edition: string }[];
  readonly rows: readonly ManifestRow[];
  readonly files: readonly ManifestFile[];
}

/** What is known of a file before it is written. */
export const fileFacts = (planned: PlannedFile): Omit<ManifestFile, 'path' | 'bytes' | 'sha256'> => {
  if (planned.kind === 'file') return { source: planned.source };
  const { document, each } = planned.copy;
  return {
    document: document.id,
    number: document.fields.number ?? document.id,
    revision: document.fields.revision,
    status: document.status,
    ...(each ? { each: each.id } : {}),
  };
};

export interface ManifestInputs {
  readonly submission: RecordOf<'submission'>;
  readonly tables: readonly SubmissionTable[];
  readonly plan: FolderPlan;
  readonly files: readonly ManifestFile[];
  /** Paths that a planned file was written to: one for each form of a document. */
  readonly pathsOf: (planned: PlannedFile) => readonly string[];
  readonly asOf: string;
  readonly contentDigest: string;
  readonly toolVersion: string;
}

/** The manifest of a submission folder: rows, files with their digests, what is missing. */
export const manifestOf = (inputs: ManifestInputs): Manifest => {
  const { submission, tables, plan, files, pathsOf } = inputs;
  return {
    form: manifestForm,
    version: 1,
    submission: {
      id: submission.id,
      title: submission.title,
      status: submission.status,
      to: submission.fields.body,
    },
    asOf: inputs.asOf,
    contentDigest: inputs.contentDigest,
    tool: `plinth ${inputs.toolVersion}`,
    tables: tables.map(({ table: { key, title, edition } }) => ({ key, title, edition })),
    rows: tables.flatMap(({ table, rows }) =>
      rows.map(({ row, state, entry, isOwn }): ManifestRow => {
        const content = isOwn ? (entry?.written.content ?? []) : [];
        const records = content.flatMap((each) => each.record ?? []);
        return {
          table: table.key,
          clause: row.clause,
          title: row.title,
          known: isFromMemory(row) ? 'from memory' : row.provenance,
          state,
          ...(entry && !isOwn ? { as: entry.written.clause } : {}),
          ...(content.length > 0
            ? { files: content.flatMap((each) => plan.filesOf(each)).flatMap(pathsOf) }
            : {}),
          ...(records.length > 0 ? { records } : {}),
          ...(isOwn && entry?.written.empty !== undefined ? { reason: entry.written.empty } : {}),
        };
      }),
    ),
    files,
  };
};

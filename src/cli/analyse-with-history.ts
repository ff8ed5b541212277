import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { approvalSignatures, commitsToCheck, type Signatures } from '../graph/approval-signatures.ts';
import type { Approvals } from '../graph/approvals.ts';
import { digestsLookedFor } from '../graph/past-content.ts';
import {
  type CommitFacts,
  type FileHistory,
  type PastFile,
  type RecordHistories,
  type RecordState,
  recordHistories,
} from '../graph/record-history.ts';
import { type Commit, openRepository, type Repository } from '../host/git.ts';
import { type Analysis, analyse, type Inputs } from '../pipeline.ts';
import type { SourceFile } from '../records/source-file.ts';
import { Refusal } from './refusal.ts';

/** A document with this view asks for the history of its records. */
const historyView = 'plinth revision-history';

export interface HistoryOptions {
  readonly folder: string;
  /** File of allowed signers, where the user named one. */
  readonly signers?: string;
  /** Id of the commit whose state is analysed; without it, the folder on the disk. */
  readonly commit?: string;
}

/**
 * Analyses a technical file, and again with what git knows where that is of use: the content that was approved, where
 * approvals have lapsed, so that findings can show what changed since; and signatures, where plinth.yaml asks for them.
 */
export const analyseWithHistory = (inputs: Inputs, options: HistoryOptions): Analysis => {
  const analysis = analyse(inputs);
  const lapsed = [...digestsLookedFor(analysis.approvals).keys()];
  const isSigned = analysis.project.fields.signatures !== undefined;
  const isTold = analysis.graph.recordsOf('document').some((document) => document.body.includes(historyView));
  if (lapsed.length === 0 && !isSigned && !isTold) return analysis;
  const opened = openRepository(options.folder);
  if (!opened.ok) {
    const { reason } = opened;
    return analyse({
      ...inputs,
      ...(isSigned ? { signatures: { checked: false, reason } } : {}),
      ...(isTold ? { histories: { known: false, reason } } : {}),
    });
  }
  const history = markdownHistory(opened.repository, options.commit);
  const past = lapsed.length === 0 ? [] : history.files.filter((file) => holdsOneOf(file, lapsed));
  const histories =
    isSigned || isTold ? recordHistories(history, analysis.schemas) : new Map<string, never>();
  return analyse({
    ...inputs,
    past: past.flatMap(({ path, bytes }): readonly SourceFile[] => (bytes ? [{ path, bytes }] : [])),
    ...(isTold
      ? { histories: { known: true, of: (id) => histories.get(id) ?? [], cutAt: history.cutAt } }
      : {}),
    ...(isSigned
      ? {
          signatures: signaturesOf(analysis.approvals, histories, history.cutAt, opened.repository, options),
        }
      : {}),
  });
};

/** What git knows of the records of an analysed folder; read only where the analysis has not asked for it already. */
export const historiesOf = (folder: string, { histories, schemas }: Analysis): RecordHistories => {
  if (histories) return histories;
  const opened = openRepository(folder);
  if (!opened.ok) return { known: false, reason: opened.reason };
  const history = markdownHistory(opened.repository);
  const states = recordHistories(history, schemas);
  return { known: true, of: (id) => states.get(id) ?? [], cutAt: history.cutAt };
};

const factsOf = ({ id, committed, author, subject, parents }: Commit): CommitFacts => ({
  id,
  date: committed.slice(0, 10),
  author,
  subject,
  isMerge: parents.length > 1,
});

/** Every state of every Markdown file that a commit left, oldest first; up to a commit, where one is named. */
export const markdownHistory = (repository: Repository, commit?: string): FileHistory => {
  const history = repository.history(commit);
  const changes = [...history]
    .reverse()
    .flatMap(({ commit, changes: list }) =>
      list
        .filter(({ path }) => path.endsWith('.md'))
        .map((change) => ({ commit: factsOf(commit), ...change })),
    );
  const objects = repository.readObjects(changes.flatMap(({ after }) => after ?? []));
  return {
    files: changes.map(({ commit, path, after }): PastFile => {
      const bytes = after === undefined ? undefined : objects.get(after);
      return { commit, path, ...(bytes ? { bytes } : {}) };
    }),
    cutAt: new Set(
      repository.isShallow
        ? history.filter(({ commit }) => commit.parents.length === 0).map(({ commit }) => commit.id)
        : [],
    ),
  };
};

/** Whether the start of a file may hold the line `id: …` of one of the ids; what is read for good decides. */
const holdsOneOf = ({ bytes }: PastFile, ids: readonly string[]): boolean => {
  const start = new TextDecoder().decode(bytes?.subarray(0, 2000));
  return ids.some((id) => start.includes(id));
};

const signaturesOf = (
  approvals: Approvals,
  histories: ReadonlyMap<string, readonly RecordState[]>,
  cutAt: ReadonlySet<string>,
  repository: Repository,
  { signers }: HistoryOptions,
): Signatures => {
  const file = signers ?? repository.allowedSigners();
  if (file === undefined)
    return { checked: false, reason: 'no file of allowed signers was named (--signers)' };
  if (!existsSync(file)) {
    if (signers !== undefined)
      throw new Refusal(`there is no file "${signers}"`, 'Name the file of allowed signers: --signers FILE.');
    return { checked: false, reason: 'the file of allowed signers that git is set to use does not exist' };
  }
  const commits = commitsToCheck(approvals, histories);
  return approvalSignatures(
    approvals,
    histories,
    new Map(commits.map((id) => [id, repository.signatureOf(id, resolve(file))])),
    cutAt,
  );
};

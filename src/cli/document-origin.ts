import { sha256Hex } from '../graph/digest.ts';
import { openRepository, type Repository } from '../host/git.ts';
import { type Analysis, analyse, type Inputs } from '../pipeline.ts';
import { readReview } from '../returned/read-review.ts';
import { contentDigest } from '../views/compile-document.ts';
import { wordsProperty } from '../writers/docx/properties.ts';
import { wordsOf } from '../writers/docx/write-docx.ts';
import { documentRecord } from './document-record.ts';
import { documentsOf } from './documents.ts';
import { houseDigestEntry, houseDigestNow } from './house-styles.ts';
import type { ReturnedFile } from './returned-file.ts';

/** Whether a fact about the file in hand is as one would wish. */
export type Answer = 'yes' | 'no' | 'unknown';

/** What is known of a Word file in hand. */
export interface DocumentOriginReport {
  readonly file: string;
  /** Record id, number and revision, as the file says. */
  readonly record?: string;
  readonly document?: string;
  /** Its words are those that were written: nobody edited it since. */
  readonly unedited: Answer;
  /** The technical file is in the state that the document was compiled from. */
  readonly currentState: Answer;
  /** Compiled now, the document would say the same. */
  readonly currentText: Answer;
  /** It was written in the house style as it is now. Missing where it was written in none, and none is named now. */
  readonly currentHouseStyle?: Answer;
  /** The commit whose technical file has the state that the document was compiled from. */
  readonly commit?: { readonly id: string; readonly date: string };
  /** Commits that were looked through without finding that state. */
  readonly searched?: number;
  readonly comments: number;
  readonly changes: number;
  readonly properties: ReadonlyMap<string, string>;
}

/** Commits looked through for the state of a document; each takes a few tenths of a second. */
const mostCommits = 100;

const digestAt = (repository: Repository, commit: string, inputs: Inputs): string =>
  contentDigest(analyse({ ...inputs, ...repository.readFolder(commit) }, []));

/** Looks for the commit with a content digest: the one that the file names first, then the newest ones. */
const commitWith = (
  digest: string,
  named: string | undefined,
  repository: Repository,
  inputs: Inputs,
): Pick<DocumentOriginReport, 'commit' | 'searched'> => {
  const first = named === undefined ? undefined : repository.resolve(named);
  const rest = repository
    .history()
    .map((entry) => entry.commit)
    .slice(0, mostCommits);
  const candidates = [...(first ? [first] : []), ...rest.filter((commit) => commit.id !== first?.id)];
  for (const commit of candidates)
    if (digestAt(repository, commit.id, inputs) === digest)
      return { commit: { id: commit.id, date: commit.committed.slice(0, 10) } };
  return { searched: candidates.length };
};

/** Compares a Word file with the technical file and its history. */
export const documentOrigin = async (
  returned: ReturnedFile,
  folder: string,
  analysis: Analysis,
  inputs: Inputs,
): Promise<DocumentOriginReport> => {
  const { properties } = returned;
  const words = sha256Hex(
    wordsOf(
      returned.package.part('word/document.xml') ?? '',
      returned.package.part('word/footnotes.xml') ?? '',
    ),
  );
  const written = properties.get(wordsProperty);
  const content = properties.get('Content digest');
  const text = properties.get('Text digest');
  const record = properties.get('Record');
  const marks = readReview(returned.package);
  const isCurrent = content !== undefined && content === contentDigest(analysis);
  const source = record === undefined ? undefined : documentRecord(analysis.graph, record);
  const compiled = source
    ? (await documentsOf(analysis, source.id)).find(({ document }) => document.id === record)
    : undefined;
  const textNow = compiled?.document.provenance.find((entry) => entry.name === 'Text digest')?.value;
  const houseWritten = properties.get(houseDigestEntry);
  const houseNow = houseDigestNow(
    record === undefined ? undefined : analysis.graph.recordOf('document', record),
    analysis,
    folder,
  );
  const opened = openRepository(folder);
  const named = properties.get('Git revision')?.match(/^[0-9a-f]{40,64}/)?.[0];
  const found =
    isCurrent || content === undefined || !opened.ok
      ? {}
      : commitWith(content, named, opened.repository, inputs);
  const answer = (known: boolean, isSo: boolean): Answer => (known ? (isSo ? 'yes' : 'no') : 'unknown');
  return {
    file: returned.name,
    ...(record === undefined ? {} : { record }),
    ...(properties.has('Document') ? { document: properties.get('Document') ?? '' } : {}),
    unedited: answer(written !== undefined, written === words),
    currentState: answer(content !== undefined, isCurrent),
    currentText: answer(text !== undefined && textNow !== undefined, text === textNow),
    ...(houseWritten === undefined && houseNow === undefined
      ? {}
      : { currentHouseStyle: answer(true, houseWritten === houseNow) }),
    ...found,
    comments: marks.filter((mark) => mark.kind === 'comment').length,
    changes: marks.filter((mark) => mark.kind === 'change').length,
    properties,
  };
};

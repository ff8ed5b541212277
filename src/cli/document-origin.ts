import { sha256Hex } from '../graph/digest.ts';
import { openRepository, type Repository } from '../host/git.ts';
import { type Analysis, analyse, type Inputs } from '../pipeline.ts';
import { readReview } from '../returned/read-review.ts';
import { contentDigest } from '../views/compile-document.ts';
import { makerProperty, productProperty, wordsProperty } from '../writers/docx/properties.ts';
import { readEntities } from '../writers/docx/running-text.ts';
import { type SeenKind, seenDigests, seenProperties } from '../writers/docx/seen-parts.ts';
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
  /** What a reader sees of it is what was written: nobody edited it since. */
  readonly unedited: Answer;
  /** The same for each thing that was compared; `unknown` where the file carries no digest of it. */
  readonly compared: Readonly<Partial<Record<'words' | SeenKind, Answer>>>;
  /** The program that saved it last, where that was another one. */
  readonly savedBy?: string;
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
  /** Maker and product that the file names, where they are not those of the technical file, with these. */
  readonly otherNames?: readonly {
    readonly what: 'maker' | 'product';
    readonly named: string;
    readonly here: string;
  }[];
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

/**
 * What a reader sees of the file, held against the digests that it carries. Programs that show no drawings leave them
 * out as they save, and the pictures in their place remain; so drawings that are gone are no edit.
 */
const compareSeen = ({ package: parts, properties }: ReturnedFile): DocumentOriginReport['compared'] => {
  const body = parts.part('word/document.xml') ?? '';
  const answer = (name: string, digest: string): Answer =>
    properties.has(name) ? (properties.get(name) === digest ? 'yes' : 'no') : 'unknown';
  const { drawings, ...seen } = seenDigests(parts, sha256Hex);
  const words = sha256Hex(wordsOf(body, parts.part('word/footnotes.xml') ?? ''));
  const isRecent = properties.has(seenProperties.pictures);
  return {
    words: answer(wordsProperty, words),
    ...Object.fromEntries(
      Object.entries(seen).map(([kind, digest]) => [kind, answer(seenProperties[kind as SeenKind], digest)]),
    ),
    ...(drawings === undefined
      ? {}
      : {
          drawings:
            isRecent && !properties.has(seenProperties.drawings)
              ? 'no'
              : answer(seenProperties.drawings, drawings),
        }),
  };
};

/** The name of the program in the file's own words; undefined where it is ours. */
const savedBy = (parts: ReturnedFile['package']): string | undefined => {
  const [, name = ''] =
    /<Application>([^<]{1,200})<\/Application>/.exec(parts.part('docProps/app.xml') ?? '') ?? [];
  return name === '' || name === 'Plinth' ? undefined : name.replace(/[/$].*$/, '');
};

/**
 * Names in the file that are not those of the technical file: it may be the document of another device. Files of earlier
 * versions tell the maker alone.
 */
const otherNames = (
  { package: parts, properties }: ReturnedFile,
  { project }: Analysis,
): Pick<DocumentOriginReport, 'otherNames'> => {
  const { maker, name, code } = project.fields.device;
  const [, company] = /<Company>([^<]{1,300})<\/Company>/.exec(parts.part('docProps/app.xml') ?? '') ?? [];
  const names = [
    {
      what: 'maker' as const,
      named:
        properties.get(makerProperty) ??
        (properties.has(wordsProperty) && company ? readEntities(company) : ''),
      here: maker,
    },
    {
      what: 'product' as const,
      named: properties.get(productProperty) ?? '',
      here: code ? `${name} ${code}` : name,
    },
  ].filter(({ named, here }) => named !== '' && named !== here.trim());
  return names.length === 0 ? {} : { otherNames: names };
};

const altogether = (compared: DocumentOriginReport['compared']): Answer => {
  const answers = Object.values(compared);
  return answers.includes('no') ? 'no' : answers.includes('unknown') ? 'unknown' : 'yes';
};

/** Compares a Word file with the technical file and its history. */
export const documentOrigin = async (
  returned: ReturnedFile,
  folder: string,
  analysis: Analysis,
  inputs: Inputs,
): Promise<DocumentOriginReport> => {
  const { properties } = returned;
  const content = properties.get('Content digest');
  const text = properties.get('Text digest');
  const record = properties.get('Record');
  // First, for it refuses what is not XML.
  const marks = readReview(returned.package);
  const compared = compareSeen(returned);
  const program = savedBy(returned.package);
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
    unedited: altogether(compared),
    compared,
    ...(program === undefined ? {} : { savedBy: program }),
    currentState: answer(content !== undefined, isCurrent),
    currentText: answer(text !== undefined && textNow !== undefined, text === textNow),
    ...(houseWritten === undefined && houseNow === undefined
      ? {}
      : { currentHouseStyle: answer(true, houseWritten === houseNow) }),
    ...found,
    ...otherNames(returned, analysis),
    comments: marks.filter((mark) => mark.kind === 'comment').length,
    changes: marks.filter((mark) => mark.kind === 'change').length,
    properties,
  };
};

import type { TraceGraph } from '../graph/trace-graph.ts';
import type { Verifier } from '../graph/verifiers.ts';
import { type NearCopy, nearCopiesIn } from '../records/near-copies.ts';
import { holdsWording } from '../records/plain-words.ts';
import { proseOnly } from '../records/prose.ts';
import { isOfType, type RecordOf, type TechnicalRecord } from '../records/record.ts';
import { type RecordText, recordTexts } from '../records/record-texts.ts';

export type Claim = RecordOf<'claim'>;

/** Claims that count. */
export const claims = (graph: TraceGraph): readonly Claim[] =>
  graph.recordsOf('claim').filter((claim) => claim.status !== 'retired');

/** Material that users are given besides label and instructions. */
export const userMaterial = (graph: TraceGraph): readonly RecordOf<'document'>[] =>
  graph
    .recordsOf('document')
    .filter((document) => document.status !== 'retired' && document.fields.kind !== undefined);

/** Labels, packaging and instructions for use. */
export const labelling = (graph: TraceGraph): readonly RecordOf<'design-output'>[] =>
  graph
    .recordsOf('design-output')
    .filter(
      ({ status, fields }) =>
        status !== 'retired' &&
        (fields.kind === 'label' || fields.kind === 'packaging' || fields.kind === 'instructions for use'),
    );

/** A record with one of its texts. */
export interface UserText {
  readonly record: TechnicalRecord;
  readonly text: RecordText;
}

/** The texts of a document or output, and of the document that holds the words of an output. */
export const userTextsOf = (record: TechnicalRecord, graph: TraceGraph): readonly UserText[] => {
  const wording = isOfType(record, 'design-output') ? record.fields.wording : undefined;
  const document = graph.recordOf('document', wording ?? '');
  return [record, ...(document && document.status !== 'retired' ? [document] : [])].flatMap((each) =>
    recordTexts(each)
      // What a record says of itself is no statement to users.
      .filter(
        ({ path }) => path === undefined || ['particulars', 'states', 'discloses'].includes(String(path[0])),
      )
      .map((text) => ({ record: each, text })),
  );
};

const mark = /:claim\[\s{0,5}([A-Za-z0-9.-]{1,40})\s{0,5}\]/g;

/** Claims that the body of a document takes in by `:claim[CM-01]`. */
export const claimMarksIn = (
  body: string,
): readonly { readonly id: string; readonly offset: number; readonly length: number }[] =>
  [...proseOnly(body).matchAll(mark)].map((match) => ({
    id: match[1] ?? '',
    offset: match.index,
    length: match[0].length,
  }));

/** Whether a text makes the statement, by a mark or word for word. */
const makesStatement = (claim: Claim, { record, text }: UserText): boolean =>
  (text.path === undefined && claimMarksIn(record.body).some(({ id }) => id === claim.id)) ||
  holdsWording(text.text, claim.fields.wording);

/** Whether a document or output makes the statement of a claim. */
export const states = (record: TechnicalRecord, claim: Claim, graph: TraceGraph): boolean =>
  userTextsOf(record, graph).some((text) => makesStatement(claim, text));

/** The protocol or analysis by which a record of evidence was accepted; undefined where it has no verdict. */
export const verifierBehind = (id: string, graph: TraceGraph): Verifier | undefined =>
  graph.recordOf('verification-protocol', id) ??
  graph.recordOf('validation-protocol', id) ??
  graph.recordOf('analysis', id) ??
  graph.targets(id, 'reports', 'verification-protocol')[0] ??
  graph.targets(id, 'reports', 'validation-protocol')[0];

/**
 * Passages that are nearly the statement. In what users read, a passage that shares seven of ten words with a claim means
 * the same thing, so less is asked for than of the wordings of plinth.yaml, which are looked for in all records.
 */
export const nearStatementsIn = (claim: Claim): ((text: string) => readonly NearCopy[]) =>
  nearCopiesIn(claim.fields.wording, (length) => length * 0.7);

import type { Block } from '../document/model.ts';
import { findTargets } from '../document/numbering.ts';
import type { Finding } from '../findings/finding.ts';
import type { Approvals } from '../graph/approvals.ts';
import { compareIds, type TraceGraph } from '../graph/trace-graph.ts';
import { placeOf, type RecordOf, type TechnicalRecord } from '../records/record.ts';
import { contentOf } from '../submission/submission-rows.ts';
import { documentFinding } from './document-findings.ts';

/** Records about the handing in itself: they are written around the documents, and always later. */
const aboutDocuments: ReadonlySet<string> = new Set(['document', 'submission', 'authority-question']);

/** More ids than this in one message are counted. */
const mostNamed = 4;

/** Day on which the last of the approvals in force was given; undefined where there is none. */
const lastApproved = (id: string, approvals: Approvals): string | undefined =>
  (approvals.of(id)?.states ?? [])
    .filter(({ state }) => state === 'in force')
    .map(({ approval }) => approval.date)
    .sort()
    .at(-1);

/**
 * Documents that a submission hands in and that were approved before a record which they show: nobody who approved the
 * document has seen that record in it.
 *
 * @param each the record that a document with `for_each` is written for, whose approvals stand on its cover
 */
export const olderThanShown = (
  record: RecordOf<'document'>,
  each: TechnicalRecord | undefined,
  blocks: readonly Block[],
  { graph, approvals }: { readonly graph: TraceGraph; readonly approvals: Approvals },
): readonly Finding[] => {
  const handedIn = graph
    .recordsOf('submission')
    .filter((submission) => submission.status !== 'retired')
    .flatMap((submission) => {
      const found = contentOf(submission).find(
        ({ content }) =>
          content.document === record.id &&
          (!each || content.for === undefined || content.for.includes(each.id)),
      );
      return found ? [{ submission, path: found.path }] : [];
    });
  const own = lastApproved((each ?? record).id, approvals);
  if (handedIn.length === 0 || own === undefined) return [];
  const later = [...findTargets({ blocks }).recordIds]
    .filter((id) => id !== each?.id)
    .flatMap((id) => {
      const shown = graph.record(id);
      const day = lastApproved(id, approvals);
      return shown && !aboutDocuments.has(shown.type) && day !== undefined && day > own ? [{ id, day }] : [];
    })
    .sort((a, b) => compareIds(a.id, b.id));
  if (later.length === 0) return [];
  const name = each ? `${record.id} for ${each.id}` : record.id;
  const named = later.slice(0, mostNamed).map(({ id, day }) => `${id} of ${day}`);
  const more = later.length - named.length;
  return handedIn.map(({ submission, path }) =>
    documentFinding(
      'document-older-than-records',
      placeOf(submission, ...path, 'document'),
      `${submission.id} hands in ${name}, which was approved on ${own} and shows what was approved later: ${named.join(', ')}${more > 0 ? ` and ${more} more` : ''}`,
      [submission.id, record.id, ...later.map(({ id }) => id)],
      `Have ${(each ?? record).id} approved again, by somebody who has read it as it is now.`,
    ),
  );
};

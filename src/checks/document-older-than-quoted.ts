import { compareIds } from '../graph/trace-graph.ts';
import { takenIn } from '../records/prose.ts';
import { placeInBody, placeOf } from '../records/record.ts';
import { type CheckContext, type Draft, defineCheck } from './check.ts';

/** Day on which the last of the approvals in force was given; undefined where there is none. */
const lastApproved = (id: string, { approvals }: CheckContext): string | undefined =>
  (approvals.of(id)?.states ?? [])
    .filter(({ state }) => state === 'in force')
    .map(({ approval }) => approval.date)
    .sort()
    .at(-1);

export const documentOlderThanQuoted = defineCheck({
  code: 'document-older-than-quoted',
  level: 'warning',
  title: 'A document quotes a result that was approved after it',
  basis: 'ISO 13485:2016 4.2.4 a) (approval before issue); common practice for the order of the dates',
  explain:
    'A sentence of an approved document takes in a number or verdict (`:value[VR-09B/lower_bound]`), and the record that it comes from was approved on a later day than the document. The number in the sentence is the present one; whoever approved the document has not read it there.\n\nA conclusion that was drawn from one number may not follow from another. The approval of a document does not lapse with every result that it quotes, for a report would then be signed again with each reading; so the days are compared.\n\nRead the document as it is now (`plinth build --only ID`), mend what no longer follows, and have it approved again. Documents that are written for each record bear the approvals of that record and are left out; what a document to be handed in shows in its tables is compared when it is built.',
  examines: 'approved documents that quote results',
  subjects: (context) =>
    context.graph.recordsOf('document').flatMap((document) => {
      const own = lastApproved(document.id, context);
      const quoted = takenIn(document.body, 'value').map(({ label, offset }) => ({
        id: (label.split('/')[0] ?? '').trim(),
        offset,
      }));
      return own === undefined ||
        document.status !== 'approved' ||
        document.fields.for_each !== undefined ||
        quoted.length === 0
        ? []
        : [{ document, own, quoted }];
    }),
  judge: ({ document, own, quoted }, context): readonly Draft[] => {
    const later = new Map<string, { readonly day: string; readonly offset: number }>();
    for (const { id, offset } of quoted) {
      const day = lastApproved(id, context);
      if (day !== undefined && day > own && !later.has(id)) later.set(id, { day, offset });
    }
    const ids = [...later.keys()].sort(compareIds);
    const [first] = [...later.values()];
    if (!first) return [];
    return [
      {
        place: placeInBody(document, first.offset),
        message: `${document.id} was approved on ${own} and quotes what was approved later: ${ids.map((id) => `${id} on ${later.get(id)?.day}`).join(', ')}`,
        hint: `Have ${document.id} approved again, by somebody who has read it as it is now.`,
        records: [document.id, ...ids],
        related: ids.flatMap((id) => {
          const record = context.graph.record(id);
          return record ? [{ place: placeOf(record, 'approvals'), message: `${id} was approved later` }] : [];
        }),
        data: { approved: own, later: ids },
      },
    ];
  },
});

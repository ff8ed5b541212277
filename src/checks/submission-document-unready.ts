import { placeOf } from '../records/record.ts';
import { contentOf } from '../submission/submission-rows.ts';
import { type Draft, defineCheck } from './check.ts';

export const submissionDocumentUnready = defineCheck({
  code: 'submission-document-unready',
  level: 'error',
  title: 'A document to be handed in is a draft, or its approval has lapsed',
  basis: 'ISO 13485:2016 4.2.4 (review and approval before issue)',
  explain:
    'A submission hands in a document that is a draft, in review or retired, or whose approval no longer covers its text. In a submission that is not approved yet it is a warning: the documents may still be on their way.\n\nWhat an authority gets is what the maker stands by. A draft among approved documents is found at the first page, and puts the rest in doubt.\n\nHave the document approved, or take it out of the row and say under `empty` why.',
  examines: 'documents that submissions hand in',
  subjects: ({ graph }) =>
    graph
      .recordsOf('submission')
      .filter((submission) => submission.status !== 'retired')
      .flatMap((submission) => {
        const seen = new Set<string>();
        return contentOf(submission).flatMap(({ content, path }) => {
          const document =
            content.document === undefined ? undefined : graph.recordOf('document', content.document);
          if (!document || seen.has(document.id)) return [];
          seen.add(document.id);
          return [{ submission, document, path }];
        });
      }),
  judge: ({ submission, document, path }, { approvals }): readonly Draft[] => {
    const state = approvals.of(document.id);
    const lapsed = state?.changed ?? [];
    const why =
      document.status !== 'approved'
        ? `is ${document.status === 'draft' ? 'a draft' : document.status}`
        : lapsed.length > 0
          ? `was approved in another content: ${lapsed.join(', ')} changed`
          : (state?.states.length ?? 0) === 0
            ? 'bears no approval'
            : undefined;
    if (why === undefined) return [];
    const isBinding = submission.status === 'approved' || submission.fields.handed_in !== undefined;
    return [
      {
        place: placeOf(submission, ...path, 'document'),
        message: `${submission.id} hands in ${document.id}, which ${why}`,
        hint: `Have ${document.id} approved, or take it out and say under "empty" why.`,
        records: [submission.id, document.id, ...lapsed.filter((id) => id !== document.id)],
        related: [{ place: placeOf(document, 'status'), message: `${document.id} ${why}` }],
        ...(isBinding ? {} : { level: 'warning' as const }),
      },
    ];
  },
});

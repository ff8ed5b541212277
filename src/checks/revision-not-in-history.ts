import { isRealDate } from '../records/calendar.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const revisionNotInHistory = defineCheck({
  code: 'revision-not-in-history',
  level: 'warning',
  title: 'The revision history of a document does not lead to its revision',
  basis: 'ISO 13485:2016 4.2.4 (changes and the current revision status of documents are identified)',
  explain:
    'A document lists its revisions, and the last of them is not the one that it is at; or a later revision has an earlier date than the one before it.\n\nWho reads a revision history wants to know what is new since the copy on the desk. A list that ends one revision early says that nothing is.\n\nAdd the entry that is missing, with its day and what changed, or correct the revision or the date. The oldest revision comes first.',
  examines: 'documents with a revision history',
  subjects: ({ graph }) =>
    graph
      .recordsOf('document')
      .filter((document) => document.status !== 'retired' && (document.fields.revisions ?? []).length > 0),
  judge: (document): readonly Draft[] => {
    const { revision: current, revisions = [] } = document.fields;
    const last = revisions.at(-1);
    const backwards = revisions.flatMap(({ revision, date }, index): readonly Draft[] => {
      const before = revisions[index - 1];
      if (!before || date >= before.date || !isRealDate(date) || !isRealDate(before.date)) return [];
      return [
        {
          place: placeOf(document, 'revisions', index, 'date'),
          message: `${document.id}: revision ${revision} of ${date} is older than revision ${before.revision} of ${before.date}, which stands before it`,
          hint: 'Correct one of the two dates, or put the oldest revision first.',
          records: [document.id],
          related: [
            { place: placeOf(document, 'revisions', index - 1, 'date'), message: `dated ${before.date}` },
          ],
        },
      ];
    });
    if (last === undefined || last.revision === current) return backwards;
    return [
      {
        place: placeOf(document, 'revision'),
        message: revisions.some(({ revision }) => revision === current)
          ? `${document.id} is at revision ${current}, and its revision history goes on to ${last.revision}`
          : `${document.id} is at revision ${current}, of which its revision history says nothing`,
        hint: 'Add an entry under "revisions" with the day and what changed, or correct the revision.',
        records: [document.id],
        related: [
          {
            place: placeOf(document, 'revisions', revisions.length - 1, 'revision'),
            message: 'the last entry',
          },
        ],
        data: { revision: current },
      },
      ...backwards,
    ];
  },
});

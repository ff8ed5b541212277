import { placeInBody, type RecordOf } from '../records/record.ts';
import { declarationItems } from '../submission/declaration.ts';
import { type Draft, defineCheck } from './check.ts';

/** Where a document draws the declaration. */
const block = /^```plinth declaration\b/m;

export const declarationItemMissing = defineCheck<RecordOf<'document'>>({
  code: 'declaration-item-missing',
  level: 'error',
  title: 'The draft of the declaration of conformity lacks a part',
  basis: 'Regulation (EU) 2017/745 Annex IV',
  explain:
    'A document draws the draft of the EU declaration of conformity. For one of the parts that Annex IV lists, the technical file has neither a value nor a reason why it is left out. In a document that is in review it is a warning; in a draft the document itself marks what is missing.\n\nA declaration with a hole is not one. Whoever signs it takes the responsibility for what it leaves out as well.\n\nAdd the value where the finding says, or name the part under `declaration.left_out` in plinth.yaml with the reason. Whether a part may be left out is for the person who signs to decide, by the law itself.',
  awaits: ['classification', 'design-output'],
  awaitsAnywhere: true,
  awaitsProject: true,
  examines: 'documents that draw the declaration, but for drafts',
  subjects: ({ graph }) =>
    graph
      .recordsOf('document')
      .filter(({ status, body }) => (status === 'in review' || status === 'approved') && block.test(body)),
  judge: (document, context): readonly Draft[] =>
    declarationItems(context).flatMap(({ clause, values }) =>
      values.flatMap((value) =>
        value.kind === 'missing'
          ? [
              {
                place: placeInBody(document, document.body.search(block), 3),
                message: `${document.id}: item ${clause} of the declaration lacks the ${value.name.charAt(0).toLowerCase()}${value.name.slice(1)}`,
                hint: value.hint,
                records: [document.id],
                ...(document.status === 'approved' ? {} : { level: 'warning' as const }),
                data: { item: clause, part: value.part },
              },
            ]
          : [],
      ),
    ),
});

import { cell, nothing, notice, text } from './cells.ts';
import { type CommonOptions, captionOf, type View } from './view.ts';

const escaped = (term: string): string => term.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** Whether a text uses a term, as a word of its own, in whatever case and number. */
const uses = (textOfDocument: string, term: string): boolean =>
  new RegExp(`(?<![\\p{L}\\p{N}])${escaped(term)}(?:e?s)?(?![\\p{L}\\p{N}])`, 'iu').test(textOfDocument);

const draw: View['draw'] = (body, { project, document }) => {
  const { all = false, ...common } = body as CommonOptions & { readonly all?: boolean };
  const terms = (project.fields.terms ?? []).filter(({ term }) => all || uses(document.body, term));
  if (terms.length === 0)
    return {
      blocks: [
        notice(
          (project.fields.terms ?? []).length === 0
            ? 'plinth.yaml defines no terms.'
            : 'This document uses none of the terms of plinth.yaml.',
        ),
      ],
    };
  return {
    blocks: [
      {
        kind: 'table',
        ...captionOf(common),
        columns: [
          { title: 'Term', width: 22 },
          { title: 'Meaning', width: 58 },
          { title: 'Source', width: 20 },
        ],
        rows: terms
          .toSorted((a, b) => (a.term.toLowerCase() < b.term.toLowerCase() ? -1 : 1))
          .map(({ term, meaning, source }) => ({
            cells: [
              cell(text(term, { bold: true })),
              cell(text(meaning)),
              cell(source === undefined ? nothing('this file') : text(source)),
            ],
          })),
        description: 'Terms of this document and what they mean here.',
      },
    ],
  };
};

/** Terms and their meaning, defined once for all documents. */
export const termsView: View = { name: 'terms', draw };

import type { Block } from '../document/model.ts';
import type { RecordOf } from '../records/record.ts';
import { cell, text } from './cells.ts';

/** What changed from revision to revision of a document, as its last section; nothing where it does not say. */
export const documentRevisions = ({ fields }: RecordOf<'document'>): readonly Block[] => {
  const { revisions = [] } = fields;
  if (revisions.length === 0) return [];
  return [
    { kind: 'heading', level: 1, children: [text('Revision history')] },
    {
      kind: 'table',
      columns: [
        { title: 'Revision', width: 12 },
        { title: 'Date', width: 16 },
        { title: 'Change', width: 72 },
      ],
      rows: revisions.map(({ revision, date, change }) => ({
        cells: [cell(text(revision)), cell(text(date)), cell(text(change))],
      })),
      description: 'Revisions of the document, oldest first: when, and what changed.',
    },
  ];
};

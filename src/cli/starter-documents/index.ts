import { conformityDocuments } from './conformity-documents.ts';
import { designDocuments } from './design-documents.ts';
import { gatheringDocuments } from './gathering-documents.ts';
import { riskDocuments } from './risk-documents.ts';
import { starterRecord } from './starter-document.ts';

/**
 * The deliverables that `plinth start` lays down, by path, as templates to edit: each says what it is for, draws what it
 * can from records, and marks where a person must write.
 */
export const starterDocuments: ReadonlyMap<string, string> = new Map(
  [...designDocuments, ...riskDocuments, ...conformityDocuments, ...gatheringDocuments].map(
    (document, index) => {
      const id = `DOC-${String(index + 1).padStart(2, '0')}`;
      return [`documents/${id}.md`, starterRecord(id, document)];
    },
  ),
);

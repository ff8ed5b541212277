import { documentText } from '../document/document-text.ts';
import type { Document } from '../document/model.ts';

/** The words of a compiled document. */
export interface CompiledText {
  readonly title: string;
  readonly revision: string;
  readonly text: string;
}

/** Texts of compiled documents by id. Provenance, which names digests and dates, is not part of a text. */
export const documentTexts = (documents: readonly Document[]): ReadonlyMap<string, CompiledText> =>
  new Map(
    documents.map((document) => [
      document.id,
      { title: document.title, revision: document.revision, text: documentText(document) },
    ]),
  );

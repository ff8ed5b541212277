import { documentText } from '../../document/document-text.ts';
import type { Document } from '../../document/model.ts';

/** The document as plain text. */
export const writeText = (
  document: Document,
  _options: { readonly width: number; readonly colour: boolean },
): string => `${document.title}\n\n${documentText(document)}\n`;

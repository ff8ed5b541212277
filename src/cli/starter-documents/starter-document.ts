/** A deliverable that `plinth start` lays down: a text to edit, which says what it is for and where a person must write. */
export interface StarterDocument {
  readonly title: string;
  /** Further lines of the front matter. */
  readonly settings?: string;
  /** Markdown with view blocks. */
  readonly body: string;
}

/** The record of a starter document. */
export const starterRecord = (id: string, { title, settings = '', body }: StarterDocument): string => `---
id: ${id}
type: document
title: ${title}
status: draft
revision: "1"
${settings}---
${body}`;

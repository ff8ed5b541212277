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
# What changed from revision to revision, the oldest first. Take away the marks to use it; it becomes the last section.
# revisions:
#   - { revision: "1", date: 2026-01-31, change: First issue. }
${settings}---
${body}`;

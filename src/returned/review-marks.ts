/** What reviewers left in a Word file: comments and tracked changes, each with the record beside which it stands. */

/** How the record of a mark was found: it stands within the record's text, in its table row, or after it. */
export type Nearness = 'within' | 'row' | 'after' | 'none';

/** A paragraph of the document as it was sent: deletions included, insertions left out. */
export interface FlowParagraph {
  readonly text: string;
  /** `contents`: an entry of a list of contents, tables or figures. `part`: a title that no source has, as that of the origin. */
  readonly form: 'text' | 'heading' | 'caption' | 'contents' | 'part';
  /** Of a heading, from 1. */
  readonly level?: number;
  /** Bookmark of the record, for example `rec_VP_09A`; undefined before the first record. */
  readonly bookmark?: string;
  readonly nearness: Nearness;
  /** Texts of the cells of its table row, where it stands in one. */
  readonly row?: readonly string[];
}

export interface MarkPlace {
  /** Bookmark of the record, for example `rec_VP_09A`; undefined before the first record. */
  readonly bookmark?: string;
  readonly nearness: Nearness;
  /** Text of the paragraph in which the mark starts: as the document was sent. */
  readonly paragraph: string;
  /** The paragraphs of the part, and the place of this one among them; undefined for a mark that no text refers to. */
  readonly flow?: { readonly paragraphs: readonly FlowParagraph[]; readonly index: number };
}

export interface ReviewerNote {
  readonly author: string;
  /** As the file has it, for example `2026-11-12T09:30:00Z`; undefined where it has none. */
  readonly date?: string;
  readonly text: string;
}

export interface ReviewerComment extends ReviewerNote {
  readonly kind: 'comment';
  readonly place: MarkPlace;
  /** The words that the comment is on; empty where it is on a point. */
  readonly passage: string;
  readonly resolved: boolean;
  readonly replies: readonly ReviewerNote[];
}

/** What a tracked change did. */
export type ChangeKind =
  | 'inserted'
  | 'deleted'
  | 'moved away'
  | 'moved here'
  | 'formatted'
  | 'row inserted'
  | 'row deleted';

export interface TrackedChange extends ReviewerNote {
  readonly kind: 'change';
  readonly change: ChangeKind;
  readonly place: MarkPlace;
}

export type ReviewMark = ReviewerComment | TrackedChange;

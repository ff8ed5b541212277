/** What reviewers left in a Word file: comments and tracked changes, each with the record beside which it stands. */

/** How the record of a mark was found: it stands within the record's text, in its table row, or after it. */
export type Nearness = 'within' | 'row' | 'after' | 'none';

export interface MarkPlace {
  /** Bookmark of the record, for example `rec_VP_09A`; undefined before the first record. */
  readonly bookmark?: string;
  readonly nearness: Nearness;
  /** Text of the paragraph in which the mark starts, deletions included, insertions left out: as the document was sent. */
  readonly paragraph: string;
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

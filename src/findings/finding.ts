/** What a check reports about the content of a technical file. Never thrown, always collected. */

/** SARIF 2.1.0 levels without `none`. */
export type Level = 'error' | 'warning' | 'note';

/** A place in a file. Lines and columns start at 1; columns count UTF-16 code units. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly endLine?: number;
  readonly endColumn?: number;
}

export interface RelatedPlace {
  readonly place: Place;
  readonly message: string;
}

export interface Finding {
  /** Kebab-case, says what is wrong. For ever: never renamed, never reused. */
  readonly code: string;
  readonly level: Level;
  readonly place: Place;
  /** One phrase, lower case, no full stop: the record, the actual and the expected value. */
  readonly message: string;
  /** What to do, as an imperative sentence. */
  readonly hint?: string;
  /** The records that the finding is about, the first one mainly. */
  readonly records: readonly string[];
  readonly related: readonly RelatedPlace[];
  /** The facts as values, for machines. */
  readonly data?: Readonly<Record<string, string | number | boolean | readonly string[]>>;
}

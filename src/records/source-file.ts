/** A file of the technical file as the host hands it over. Paths use `/` and are relative to the root. */
export interface SourceFile {
  readonly path: string;
  readonly bytes: Uint8Array;
}

/** A file that the host would not read, and why. */
export interface RefusedFile {
  readonly path: string;
  readonly reason: 'too-large' | 'outside-root' | 'unreadable' | 'not-a-file';
  /** What the user should know: the size, the target of a link, the system's message. */
  readonly detail: string;
}

/** Largest Markdown, YAML or CSV file that is read, in bytes. A record is prose; 5 MB is a misplaced export. */
export const largestFileBytes = 5 * 1024 * 1024;

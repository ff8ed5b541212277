import type { Level } from './finding.ts';

/** The page that `plinth explain CODE` prints. */
export interface Explanation {
  /** One line, no full stop. */
  readonly title: string;
  readonly level: Level;
  /** Markdown: what it means, why it matters, what to do. */
  readonly explain: string;
}

import { compareIds } from '../graph/trace-graph.ts';
import type { CompiledText } from './document-texts.ts';

/** A document whose text, as compiled, differs. */
export interface DocumentToIssue {
  readonly id: string;
  readonly title: string;
  readonly kind: 'added' | 'removed' | 'changed';
  /** Revision in the later state, or the last one it had. */
  readonly revision: string;
  /** The text differs but the document still carries the revision under which it may have been issued. */
  readonly needsRevision: boolean;
}

/** Documents to issue again: their compiled text differs, whether by their own words or by what they draw from records. */
export const documentsToIssue = (
  before: ReadonlyMap<string, CompiledText>,
  after: ReadonlyMap<string, CompiledText>,
): readonly DocumentToIssue[] =>
  [...new Set([...before.keys(), ...after.keys()])]
    .sort(compareIds)
    .flatMap((id): readonly DocumentToIssue[] => {
      const old = before.get(id);
      const now = after.get(id);
      if (old && now && old.text === now.text && old.revision === now.revision) return [];
      const { title, revision } = (now ?? old) as CompiledText;
      return [
        {
          id,
          title,
          kind: old ? (now ? 'changed' : 'removed') : 'added',
          revision,
          needsRevision: old !== undefined && now !== undefined && old.revision === now.revision,
        },
      ];
    });

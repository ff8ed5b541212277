import { diffArrays, diffWordsWithSpace } from 'diff';

/** A run of words that both texts have, or only one of them. */
export interface WordRun {
  readonly kind: 'same' | 'added' | 'removed';
  readonly text: string;
}

/** A paragraph of a body that differs. */
export interface ParagraphChange {
  /** Line of the later text, from 1; where something was removed, the line before which it stood. */
  readonly line: number;
  readonly runs: readonly WordRun[];
}

/** Beyond this many edits two paragraphs have too little in common to be compared word by word. */
const mostEdits = 400;

const wordRuns = (before: string, after: string): readonly WordRun[] => {
  const pieces = diffWordsWithSpace(before, after, { maxEditLength: mostEdits });
  if (pieces === undefined)
    return [
      { kind: 'removed', text: before },
      { kind: 'added', text: after },
    ];
  return pieces.map(({ value, added, removed }) => ({
    kind: added ? 'added' : removed ? 'removed' : 'same',
    text: value,
  }));
};

/**
 * The lines of two texts that differ, word by word where a line was changed rather than replaced. A line is a
 * paragraph in Markdown as people write it here. Blanks at line ends and blank lines count for nothing, as in the digest.
 */
export const compareWords = (before: string, after: string): readonly ParagraphChange[] => {
  const left = linesOf(before);
  const right = linesOf(after);
  const pieces = diffArrays(
    left.map((each) => each.text),
    right.map((each) => each.text),
  );
  const changes: ParagraphChange[] = [];
  let at = 0;
  const lineAt = (index: number): number => right[index]?.line ?? (right.at(-1)?.line ?? 0) + 1;
  for (let index = 0; index < pieces.length; index += 1) {
    const piece = pieces[index];
    if (!piece) continue;
    const next = pieces[index + 1];
    if (piece.removed && next?.added) {
      // Lines that were replaced, paired in order; what is left over on either side stands alone.
      const most = Math.max(piece.value.length, next.value.length);
      for (let pair = 0; pair < most; pair += 1) {
        const old = piece.value[pair];
        const now = next.value[pair];
        changes.push({
          line: lineAt(at + Math.min(pair, next.value.length)),
          runs:
            old === undefined
              ? [{ kind: 'added', text: now ?? '' }]
              : now === undefined
                ? [{ kind: 'removed', text: old }]
                : wordRuns(old, now),
        });
      }
      at += next.value.length;
      index += 1;
    } else if (piece.removed)
      for (const text of piece.value) changes.push({ line: lineAt(at), runs: [{ kind: 'removed', text }] });
    else {
      if (piece.added)
        for (const [offset, text] of piece.value.entries())
          changes.push({ line: lineAt(at + offset), runs: [{ kind: 'added', text }] });
      at += piece.value.length;
    }
  }
  return changes;
};

const linesOf = (text: string): readonly { readonly text: string; readonly line: number }[] =>
  text
    .split('\n')
    .map((line, index) => ({ text: line.trimEnd(), line: index + 1 }))
    .filter((each) => each.text !== '');

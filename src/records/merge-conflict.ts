/** A text in which git left a conflict, as one of the two sides has it. */
export interface ConflictedText {
  /** The text with the first side; marks and the other side are empty lines, so that every line keeps its number. */
  readonly text: string;
  /** Line of the first mark, counted from 1. */
  readonly line: number;
}

/** Finds marks of a merge that was not finished: seven signs at the start of a line. Undefined where there are none. */
export const findMergeConflict = (text: string): ConflictedText | undefined => {
  if (!/^<{7}(?: |$)/m.test(text) || !/^>{7}(?: |$)/m.test(text)) return undefined;
  const lines = text.split('\n');
  let side: 'none' | 'first' | 'other' = 'none';
  let first: number | undefined;
  const kept = lines.map((line, index) => {
    if (/^<{7}(?: |\r?$)/.test(line)) {
      first ??= index + 1;
      side = 'first';
      return '';
    }
    if (side !== 'none' && /^(?:={7}|\|{7}.*)\r?$/.test(line)) {
      side = 'other';
      return '';
    }
    if (side !== 'none' && /^>{7}(?: |\r?$)/.test(line)) {
      side = 'none';
      return '';
    }
    return side === 'other' ? '' : line;
  });
  return first === undefined ? undefined : { text: kept.join('\n'), line: first };
};

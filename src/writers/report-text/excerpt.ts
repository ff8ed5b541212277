import stringWidth from 'string-width';
import { printable } from './printable.ts';

export interface Excerpt {
  readonly line: string;
  /** Blanks and marks that stand below the place. */
  readonly before: string;
  readonly marks: string;
}

/** A line of a file cut to `room` columns around a place, which is given in UTF-16 code units from 1. */
export const excerptOf = (
  source: string,
  column: number,
  endColumn: number | undefined,
  room: number,
): Excerpt => {
  const from = column > room - 10 ? Math.max(0, column - 20) : 0;
  const lead = from > 0 ? '…' : '';
  const until = from + room - 2;
  const cut = source.slice(from, until);
  const start = Math.max(0, column - 1 - from);
  const marked = source.slice(column - 1, Math.min((endColumn ?? column + 1) - 1, until));
  return {
    line: `${lead}${printable(cut)}${source.length > until ? '…' : ''}`,
    before: ' '.repeat(stringWidth(lead + printable(cut.slice(0, start)))),
    marks: '~'.repeat(Math.max(1, stringWidth(printable(marked)))),
  };
};

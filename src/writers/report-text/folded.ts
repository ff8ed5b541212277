import stringWidth from 'string-width';
import { printable } from './printable.ts';

/** Lines of a text, broken at blanks so that none is wider than `width` columns, where words allow; all but the first are set in by two more. */
export const folded = (text: string, width: number, indent = ''): readonly string[] => {
  const lines: string[] = [];
  let line = indent;
  let isEmpty = true;
  for (const word of printable(text).split(/\s+/)) {
    if (!isEmpty && stringWidth(line) + 1 + stringWidth(word) > width) {
      lines.push(line);
      line = `${indent}  `;
      isEmpty = true;
    }
    line += isEmpty ? word : ` ${word}`;
    isEmpty = false;
  }
  return [...lines, line];
};

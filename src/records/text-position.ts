import type { Place } from '../findings/finding.ts';

/** Place of an offset in a text, with the line that the text starts at in its file. */
export const placeAt = (file: string, text: string, offset: number, firstLine = 1, length = 0): Place => {
  let line = firstLine;
  let lineStart = 0;
  for (let next = text.indexOf('\n'); next !== -1 && next < offset; next = text.indexOf('\n', next + 1)) {
    line += 1;
    lineStart = next + 1;
  }
  const column = offset - lineStart + 1;
  return length > 0 && !text.slice(offset, offset + length).includes('\n')
    ? { file, line, column, endLine: line, endColumn: column + length }
    : { file, line, column };
};

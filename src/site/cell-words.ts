/** A piece of a cell in a data file: plain words, a line break, or a list whose first item says what it is. */
export type Piece = string | 0 | readonly [string, string, string];

export type RowData = readonly (readonly Piece[])[];

/** Lines of a cell as one: a semicolon stands where a line ends without a sign of its own. */
export const onOneLine = (lines: readonly string[]): string =>
  lines
    .map((line) => line.trim())
    .filter((line) => line !== '')
    .reduce(
      (whole, line) => (whole === '' ? line : `${whole}${/[.,;:!?]$/.test(whole) ? ' ' : '; '}${line}`),
      '',
    );

/** The words of a cell. */
export const wordsOfCell = (pieces: readonly Piece[]): string => {
  const lines = [''];
  for (const piece of pieces)
    if (piece === 0) lines.push('');
    else
      lines[lines.length - 1] += typeof piece === 'string' ? piece : piece[0] === 't' ? piece[2] : piece[1];
  return onOneLine(lines);
};

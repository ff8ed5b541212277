/** Breaks text at blanks so that no line is longer than `width`, where words allow. */
export const wrap = (text: string, width: number, indent = '', firstIndent = indent): string => {
  const lines: string[] = [];
  let line = firstIndent;
  let empty = true;
  for (const word of text.split(/\s+/).filter((each) => each !== '')) {
    if (!empty && line.length + 1 + word.length > width) {
      lines.push(line);
      line = indent;
      empty = true;
    }
    line += empty ? word : ` ${word}`;
    empty = false;
  }
  return [...lines, line].join('\n');
};

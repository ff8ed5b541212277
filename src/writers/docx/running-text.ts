/** Marks of a WordprocessingML part that matter for its running text. Word and LibreOffice both use the prefix `w`. */
const marks = /<w:(p|t|delText|tab|br|cr|fldChar)(?=[\s/>])([^>]*?)(\/?)>|<\/w:(p|t|delText)>|([^<]+)/g;

const entities: Readonly<Record<string, string>> = {
  '&lt;': '<',
  '&gt;': '>',
  '&quot;': '"',
  '&apos;': "'",
  '&amp;': '&',
};

/**
 * The words of a document part: a line for each paragraph that has any, blanks collapsed. Results of fields (page
 * numbers, contents list, numbers of tables) are left out, for any word processor may work them out anew; deleted text
 * under tracked changes is kept, so that a tracked change always shows.
 */
export function runningText(xml: string): string {
  const lines: string[] = [];
  let line = '';
  let fieldDepth = 0;
  let isText = false;
  for (const [, opened, attributes = '', empty, closed, text] of xml.matchAll(marks)) {
    if (opened === 'fldChar') {
      if (attributes.includes('"begin"')) fieldDepth += 1;
      else if (attributes.includes('"end"')) fieldDepth = Math.max(0, fieldDepth - 1);
    } else if (opened === 't' || opened === 'delText') isText = empty !== '/';
    else if (opened === 'tab' || opened === 'br' || opened === 'cr') line += ' ';
    else if (closed === 't' || closed === 'delText') isText = false;
    else if (closed === 'p') {
      lines.push(line);
      line = '';
    } else if (text !== undefined && isText && fieldDepth === 0) line += text;
  }
  return lines
    .map((each) =>
      each
        .replace(/&(?:lt|gt|quot|apos|amp);/g, (entity) => entities[entity] ?? entity)
        .replace(/\s+/g, ' ')
        .trim(),
    )
    .filter((each) => each !== '')
    .join('\n');
}

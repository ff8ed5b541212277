/** Marks of a WordprocessingML part that matter for its running text. Word and LibreOffice both use the prefix `w`. */
const marks =
  /<w:(p|t|delText|instrText|tab|br|cr|fldChar)(?=[\s/>])([^>]*?)(\/?)>|<\/w:(p|t|delText|instrText)>|([^<]+)/g;

const entities: Readonly<Record<string, string>> = {
  '&lt;': '<',
  '&gt;': '>',
  '&quot;': '"',
  '&apos;': "'",
  '&amp;': '&',
};

/** Text of XML with its entities resolved. */
export const readEntities = (text: string): string =>
  text.replace(/&(?:lt|gt|quot|apos|amp);/g, (entity) => entities[entity] ?? entity);

const isLink = (instruction: string): boolean => /^\s*HYPERLINK\s/.test(instruction);

/**
 * The words of a document part: a line for each paragraph that has any, blanks collapsed. Results of fields (page
 * numbers, contents list, numbers of tables) are left out, for any word processor may work them out anew; words of a
 * link are kept, for LibreOffice writes links to other files as fields. Deleted text under tracked changes is kept, so
 * that a tracked change always shows.
 *
 * @param keepsResult for the instruction of a field, whether its result counts as words
 */
export function runningText(xml: string, keepsResult: (instruction: string) => boolean = isLink): string {
  const lines: string[] = [];
  let line = '';
  /** Instructions of the fields that are open, the outermost first. */
  const fields: string[] = [];
  let isText = false;
  let isInstruction = false;
  for (const [, opened, attributes = '', empty, closed, text] of xml.matchAll(marks)) {
    if (opened === 'fldChar') {
      if (attributes.includes('"begin"')) fields.push('');
      else if (attributes.includes('"end"')) fields.pop();
    } else if (opened === 't' || opened === 'delText') isText = empty !== '/';
    else if (opened === 'instrText') isInstruction = empty !== '/';
    else if (opened === 'tab' || opened === 'br' || opened === 'cr') line += ' ';
    else if (closed === 't' || closed === 'delText') isText = false;
    else if (closed === 'instrText') isInstruction = false;
    else if (closed === 'p') {
      lines.push(line);
      line = '';
    } else if (text !== undefined && isInstruction) fields.push(`${fields.pop() ?? ''}${text}`);
    else if (text !== undefined && isText && fields.every(keepsResult)) line += text;
  }
  return lines
    .map((each) => readEntities(each).replace(/\s+/g, ' ').trim())
    .filter((each) => each !== '')
    .join('\n');
}

import { strFromU8, unzipSync } from 'fflate';

/** The text parts of a Word file by path. */
export function xmlParts(bytes: Uint8Array): Map<string, string> {
  return new Map(
    Object.entries(unzipSync(bytes))
      .filter(([path]) => /\.(?:xml|rels)$/.test(path))
      .map(([path, content]) => [path, strFromU8(content)]),
  );
}

/** Lines of text of a part: paragraphs and line breaks end a line, tabs are tabs, field instructions are left out. */
export function linesOf(xml: string): string[] {
  return (
    xml
      .replace(/<w:instrText[^>]*>[^<]*<\/w:instrText>/g, '')
      .replace(/<w:tab\/>/g, '\t')
      .replace(/<w:br\/>|<\/w:p>/g, '\n')
      .replace(/<[^>]*>/g, '')
      .split('\n')
      // The writers set blanks that do not break before units; the model has ordinary ones.
      .map((line) => unescape(line).replaceAll('\u00a0', ' ').trim())
      .filter((line) => line !== '')
  );
}

/** Entities of XML and the ones that HTML writers use, back to characters. */
export function unescape(text: string): string {
  const named: Record<string, string> = { lt: '<', gt: '>', quot: '"', amp: '&' };
  return text.replace(/&(?:#(\d+)|(\w+));/g, (all, code, name) =>
    code === undefined ? (named[name] ?? all) : String.fromCodePoint(Number(code)),
  );
}

/** What is wrong with the XML by the rules of XML 1.0 that matter here: tags nest, entities are known, no stray signs. */
export function illFormed(xml: string): string | undefined {
  const open: string[] = [];
  let rest = xml.replace(/^<\?xml[^>]*\?>\s*/, '');
  while (rest !== '') {
    const match = /^(?:<(\/?)([A-Za-z_][\w:.-]*)((?:\s+[\w:.-]+="[^"<]*")*)\s*(\/?)>|([^<]+))/.exec(rest);
    if (match === null) return `not XML: ${rest.slice(0, 80)}`;
    const [all, closing, name = '', attributes = '', empty, text = ''] = match;
    if (/&(?!(?:lt|gt|amp|quot|apos|#\d+|#x[0-9a-fA-F]+);)/.test(attributes + text))
      return `stray &: ${all.slice(0, 80)}`;
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
    if (/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/.test(all))
      return `control character: ${all.slice(0, 80)}`;
    if (name !== '' && closing === '/' && open.pop() !== name) return `</${name}> closes nothing`;
    if (name !== '' && closing === '' && empty === '') open.push(name);
    rest = rest.slice(all.length);
  }
  return open.length > 0 ? `<${open.at(-1)}> is not closed` : undefined;
}

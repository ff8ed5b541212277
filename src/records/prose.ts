/** Plain scans of a Markdown body that need no parse tree. */

export interface Mention {
  readonly id: string;
  readonly offset: number;
}

const blank = (text: string): string => text.replace(/[^\n]/g, ' ');

/** Blanks every closed comment `<!-- … -->`. A walk rather than a pattern, which would be slow on many open ones. */
const blankComments = (text: string): string => {
  let result = '';
  let from = 0;
  for (let start = text.indexOf('<!--'); start !== -1; start = text.indexOf('<!--', from)) {
    const end = text.indexOf('-->', start + 4);
    if (end === -1) break;
    result += text.slice(from, start) + blank(text.slice(start, end + 3));
    from = end + 3;
  }
  return result + text.slice(from);
};

/** The text of a heading line without its marks: `## Purpose ##` gives level 2 and `Purpose`. */
const headingOf = (line: string): { readonly heading: string; readonly level: number } | undefined => {
  const level = /^#{1,6}(?=[ \t])/.exec(line)?.[0].length;
  if (level === undefined || line.length > 400) return undefined;
  const text = line.slice(level).trim();
  let end = text.length;
  while (end > 0 && text[end - 1] === '#') end -= 1;
  // Closing marks are set off by a blank, so that "Class C#" keeps its last sign.
  const isClosing = end === 0 || /[ \t]/.test(text[end - 1] ?? '');
  const heading = (isClosing ? text.slice(0, end) : text).trim();
  return heading === '' ? undefined : { heading, level };
};

/** Blanks out fenced code, code spans, comments, and the targets of links. Offsets stay as they are. */
const withoutCode = (body: string): string => {
  const lines = body.split('\n');
  let fence: string | undefined;
  const unfenced = lines.map((line) => {
    const mark = /^ {0,3}(`{3,}|~{3,})/.exec(line)?.[1];
    if (fence) {
      if (mark && mark[0] === fence[0] && mark.length >= fence.length && line.trim() === mark)
        fence = undefined;
      return blank(line);
    }
    if (mark) {
      fence = mark;
      return blank(line);
    }
    return line;
  });
  return blankComments(unfenced.join('\n'))
    .replace(/(`{1,3})[^`\n]{1,500}\1/g, blank)
    .replace(/\]\([^)\n]{0,500}\)/g, blank);
};

/** What a text takes in by an inline directive such as `:claim[CM-01]`: the words in the brackets, in order. */
export const takenIn = (
  body: string,
  directive: 'claim' | 'phrase' | 'value',
): readonly { readonly label: string; readonly offset: number }[] =>
  [...withoutCode(body).matchAll(new RegExp(`(?<![:\\w]):${directive}\\[([^\\]\\n]{1,200})\\]`, 'g'))].map(
    (match) => ({
      label: (match[1] ?? '').trim(),
      offset: match.index,
    }),
  );

/**
 * Blanks out what is not prose: code, comments, the targets of links, and what asks for a value. A view block's body is
 * code as well: its ids are the view's business.
 */
export const proseOnly = (body: string): string =>
  withoutCode(body).replace(/:value\[[^\]\n]{0,200}\](\{[^}\n]{0,200}\})?/g, blank);

/** Ids in prose: any of the prefixes, a hyphen, and a number with what may follow it. */
export const mentionsIn = (body: string, prefixes: readonly string[]): readonly Mention[] => {
  if (prefixes.length === 0) return [];
  const pattern = new RegExp(
    `(?<![A-Za-z0-9-])(?:${prefixes.join('|')})-[0-9](?:[A-Za-z0-9]|[.-](?=[A-Za-z0-9])){0,30}`,
    'g',
  );
  return [...proseOnly(body).matchAll(pattern)].map((match) => ({
    id: match[0],
    offset: match.index,
  }));
};

export interface Section {
  readonly heading: string;
  readonly level: number;
  readonly text: string;
  readonly offset: number;
}

/** Sections of a body by its `#` headings; the text before the first heading has level 0. */
export const sectionsOf = (body: string): readonly Section[] => {
  const sections: { heading: string; level: number; offset: number; textFrom: number }[] = [
    { heading: '', level: 0, offset: 0, textFrom: 0 },
  ];
  let offset = 0;
  for (const line of proseOnly(body).split('\n')) {
    const found = headingOf(line);
    if (found) sections.push({ ...found, offset, textFrom: offset + line.length });
    offset += line.length + 1;
  }
  return sections.map(({ heading, level, offset: at, textFrom }, index) => ({
    heading,
    level,
    text: body.slice(textFrom, sections[index + 1]?.offset ?? body.length),
    offset: at,
  }));
};

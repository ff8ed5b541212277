/** Plain scans of a Markdown body that need no parse tree. */

export interface Mention {
  readonly id: string;
  readonly offset: number;
}

/**
 * Blanks out what is not prose: fenced code, code spans, comments, and the targets of links. Offsets stay as they
 * are. A view block's body is code as well: its ids are the view's business.
 */
export const proseOnly = (body: string): string => {
  const blank = (text: string): string => text.replace(/[^\n]/g, ' ');
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
  return unfenced
    .join('\n')
    .replace(/<!--[\s\S]{0,20000}?-->/g, blank)
    .replace(/(`{1,3})[^`\n]{1,500}\1/g, blank)
    .replace(/\]\([^)\n]{0,500}\)/g, blank)
    .replace(/:value\[[^\]\n]{0,200}\](\{[^}\n]{0,200}\})?/g, blank);
};

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
  const prose = proseOnly(body);
  const marks = [...prose.matchAll(/^(#{1,6})[ \t]+(.{1,200}?)[ \t]*#*$/gm)];
  const opening = {
    heading: '',
    level: 0,
    text: body.slice(0, marks[0]?.index ?? body.length),
    offset: 0,
  };
  const rest = marks.map((mark, index) => ({
    heading: mark[2] ?? '',
    level: (mark[1] ?? '').length,
    text: body.slice(mark.index + mark[0].length, marks[index + 1]?.index ?? body.length),
    offset: mark.index,
  }));
  return [opening, ...rest];
};

/** The statement of a record: the prose before the first heading, on one line, without Markdown marks. */
export const statementOf = (body: string): string =>
  (sectionsOf(body)[0]?.text ?? '')
    .replace(/<!--[\s\S]{0,20000}?-->/g, '')
    .replace(/[*_`]/g, '')
    .replace(/\s+/g, ' ')
    .trim();

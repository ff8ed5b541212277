/**
 * Cuts a source file into the stretches that become paragraphs of a compiled document. Inline values and phrases
 * (`:value[...]`, `:phrase[...]`) read otherwise in the document, so only the words around them are kept.
 */

/** A stretch of the source that becomes one paragraph: its lines, and its words between what is filled in. */
export interface SourceUnit {
  /**
   * `data`: a value of the front matter or of a view block. `view`: a whole view block, whose text is drawn from
   * records. `row`: a line of a table.
   */
  readonly kind: 'data' | 'text' | 'heading' | 'row' | 'view';
  readonly isFrontMatter: boolean;
  /** From 0. */
  readonly firstLine: number;
  readonly lines: readonly string[];
  readonly words: readonly string[];
  /** The words as one text. */
  readonly whole: string;
}

const directive = /:[a-z][a-z_-]{0,40}(?:\[[^\]\n]{0,300}\])(?:\{[^}\n]{0,300}\})?/gi;
/** An image that becomes a figure: its caption is what stands in quotation marks, else the text in brackets. */
const image = /!\[([^\]\n]{0,300})\]\([^)"\n]{0,300}(?:"([^"\n]{0,300})")?\)/g;
const link = /\[([^\]\n]{0,300})\]\([^)\n]{0,300}\)/g;
/** The mark of a footnote, which is filled in by its number. */
const footnoteMark = /\[\^[^\]\s]{1,100}\]:?/g;
/** The name that an author gave to a heading, a table or a figure, which is not shown. */
const anchorMark = /\s{0,9}\{#[^}\s]{1,100}\}/g;
const listMark = /^\s{0,12}(?:#{1,6}\s+|>\s?|[-*+]\s+(?:\[[ xX]\]\s+)?|\d{1,9}[.)]\s+)/;
const key = /^\s{0,40}(?:- )?(?:"?[A-Za-z_][A-Za-z0-9_.-]{0,60}"?:(?:\s|$))?/;
/** A line of YAML that opens an entry; others carry on a text over several lines. */
const entry = /^\s{0,40}(?:- |-$|#|"?[A-Za-z_][A-Za-z0-9_.-]{0,60}"?:(?:\s|$))/;
const fence = /^\s{0,3}(`{3,}|~{3,})\s{0,9}(\S{0,60})/;

/** Without marks of Markdown and with single blanks, so that compiled and written text can be compared. */
export const plainWords = (text: string): string =>
  text
    .replace(/[*_`"\u201c\u201d\u2018\u2019'|\\]/g, '')
    .replace(/\s+/g, ' ')
    .trim()
    .toLowerCase();

/** A line without the mark of a heading, quote or list at its start. */
export const withoutMark = (line: string): string => line.replace(listMark, '');

const wordsAround = (source: string): readonly string[] =>
  source
    .replace(image, (_, alternative: string, caption: string | undefined) => caption ?? alternative)
    // A link without words of its own is a cross-reference, which is filled in.
    .replace(link, (_, words: string) => (words === '' ? '\n' : words))
    .replace(directive, '\n')
    .replace(footnoteMark, '\n')
    .replace(anchorMark, '')
    .split('\n')
    .map(plainWords)
    .filter((each) => each !== '');

interface Stretch {
  readonly kind: SourceUnit['kind'];
  readonly isFrontMatter?: boolean;
  readonly firstLine: number;
  readonly lines: readonly string[];
  readonly text: string;
}

const unitOf = ({ kind, isFrontMatter = false, firstLine, lines, text }: Stretch): SourceUnit => {
  const words = kind === 'view' ? [] : wordsAround(text);
  return { kind, isFrontMatter, firstLine, lines, words, whole: words.join(' ') };
};

/** YAML entry by entry, values without their keys. */
const dataUnits = (
  lines: readonly string[],
  from: number,
  end: number,
  isFrontMatter: boolean,
): readonly SourceUnit[] => {
  const units: SourceUnit[] = [];
  for (let at = from; at < end; ) {
    let next = at + 1;
    while (next < end && (lines[next] ?? '').trim() !== '' && !entry.test(lines[next] ?? '')) next += 1;
    const own = lines.slice(at, next);
    const value = [(own[0] ?? '').replace(key, '').replace(/^[>|][+-]?$/, ''), ...own.slice(1)].join(' ');
    // Of a view block documents show the caption; what else it says chooses records. Nor do they show the type of a record.
    if (isFrontMatter ? !/^type:/.test(own[0] ?? '') : /^\s{0,9}caption:/.test(own[0] ?? ''))
      units.push(unitOf({ kind: 'data', isFrontMatter, firstLine: at, lines: own, text: value }));
    at = next;
  }
  return units;
};

/**
 * Front matter entry by entry, of view blocks the caption; the body by paragraphs, list items, headings, rows and code blocks. In
 * the order of the file, a view block before its entries.
 */
export const sourceUnits = (file: string): readonly SourceUnit[] => {
  const lines = file.split(/\r?\n/);
  const end = lines[0] === '---' ? lines.indexOf('---', 1) : -1;
  const units: SourceUnit[] = [...dataUnits(lines, 1, end, true)];
  let open: string[] = [];
  let from = end + 1;
  const close = (): void => {
    const [first = ''] = open;
    const kind = /^\s*#{1,6}\s/.test(first) ? 'heading' : /^\s*\|/.test(first) ? 'row' : 'text';
    const text = open
      .map((line) => withoutMark(line))
      .join(' ')
      // The caption of the table below.
      .replace(/^Table:\s/, '');
    if (open.length > 0) units.push(unitOf({ kind, firstLine: from, lines: open, text }));
    open = [];
  };
  for (let at = end + 1; at < lines.length; at += 1) {
    const line = lines[at] ?? '';
    const [, fenceMark, language] = fence.exec(line) ?? [];
    if (fenceMark !== undefined) {
      close();
      let last = at + 1;
      while (last < lines.length && !(lines[last] ?? '').trim().startsWith(fenceMark)) last += 1;
      const isView = language === 'plinth';
      const own = lines.slice(at, last + 1);
      const text = lines.slice(at + 1, last).join(' ');
      units.push(unitOf({ kind: isView ? 'view' : 'text', firstLine: at, lines: own, text }));
      if (isView) units.push(...dataUnits(lines, at + 1, last, false));
      at = last;
      continue;
    }
    const isAlone = /^\s*(?:#{1,6}\s|\||:::)/.test(line);
    if (line.trim() === '' || isAlone || listMark.test(line)) close();
    // Marks of sections (`:::landscape`) and the rule below the head of a table say nothing.
    if (line.trim() === '' || /^\s*(?::::+[\w-]*|[|:\s-]+)\s*$/.test(line)) continue;
    if (open.length === 0) from = at;
    open.push(line);
    if (isAlone) close();
  }
  close();
  return units;
};

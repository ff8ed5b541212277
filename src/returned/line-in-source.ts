/**
 * Finds the line of a source file from which a paragraph of a compiled document came. Inline values and phrases
 * (`:value[...]`, `:phrase[...]`) read otherwise in the document, so the words around them decide.
 */

/** Shorter passages say too little to be looked for. */
const shortestPassage = 4;

/** The share of a compiled paragraph that the words of its source must make up; what is left are values filled in. */
const leastShare = 0.4;

/** A stretch of the source that becomes one paragraph: its lines, and its words between what is filled in. */
interface Unit {
  /** From 0. */
  readonly firstLine: number;
  readonly lines: readonly string[];
  readonly words: readonly string[];
}

const directive = /:[a-z][a-z_-]{0,40}(?:\[[^\]\n]{0,300}\])(?:\{[^}\n]{0,300}\})?/gi;
const link = /\[([^\]\n]{0,300})\]\([^)\n]{0,300}\)/g;
/** The mark of a footnote, which is filled in by its number. */
const footnoteMark = /\[\^[^\]\s]{1,100}\]/g;
/** The name that an author gave to a heading, which is not shown. */
const anchorMark = /\s{0,9}\{#[^}\s]{1,100}\}/g;
const mark = /^\s{0,12}(?:#{1,6}\s+|>\s?|[-*+]\s+(?:\[[ xX]\]\s+)?|\d{1,9}[.)]\s+)/;

/** Without marks of Markdown and with single blanks, so that compiled and written text can be compared. */
const plain = (text: string): string =>
  text
    .replace(/[*_`"\u201c\u201d\u2018\u2019'|\\]/g, '')
    .replace(/\s+/g, ' ')
    .trim()
    .toLowerCase();

const wordsAround = (source: string): readonly string[] =>
  source
    // A link without words of its own is a cross-reference, which is filled in.
    .replace(link, (_, words: string) => (words === '' ? '\n' : words))
    .replace(directive, '\n')
    .replace(footnoteMark, '\n')
    .replace(anchorMark, '')
    .split('\n')
    .map(plain)
    .filter((each) => each !== '');

const unitOf = (lines: readonly string[], firstLine: number, text = lines.join(' ')): Unit => ({
  firstLine,
  lines,
  words: wordsAround(text),
});

/** Front matter line by line, its values without keys; the body by paragraphs, list items, headings and rows. */
const unitsOf = (file: string): readonly Unit[] => {
  const lines = file.split(/\r?\n/);
  const end = lines[0] === '---' ? lines.indexOf('---', 1) : -1;
  const units: Unit[] = [];
  for (let at = 1; at < end; at += 1) {
    const line = lines[at] ?? '';
    units.push(unitOf([line], at, line.replace(/^\s{0,40}(?:- )?(?:[A-Za-z_]{1,60}:\s)?/, '')));
  }
  let open: string[] = [];
  let from = end + 1;
  const close = (): void => {
    if (open.length > 0) units.push(unitOf(open, from, open.map((line) => line.replace(mark, '')).join(' ')));
    open = [];
  };
  for (let at = end + 1; at < lines.length; at += 1) {
    const line = lines[at] ?? '';
    const isAlone = /^\s*(?:#{1,6}\s|\||:::|```)/.test(line);
    if (line.trim() === '' || isAlone || mark.test(line)) close();
    if (line.trim() === '') continue;
    if (open.length === 0) from = at;
    open.push(line);
    if (isAlone) close();
  }
  close();
  return units;
};

/** How many characters of the paragraph the unit explains; 0 where it cannot be its source. */
const likeness = (unit: Unit, paragraph: string): number => {
  const whole = unit.words.join(' ');
  if (whole.length < shortestPassage) return 0;
  // A cell of a table, a part of a line.
  if (whole.includes(paragraph)) return paragraph.length;
  let at = 0;
  let explained = 0;
  for (const words of unit.words) {
    const found = paragraph.indexOf(words, at);
    if (found === -1) return 0;
    at = found + words.length;
    explained += words.length;
  }
  return explained >= leastShare * paragraph.length ? explained : 0;
};

/** The line of a unit on which a passage begins, else its first. */
const lineOfPassage = (unit: Unit, passage: string): number => {
  const lines = unit.lines.map((line) => plain(line.replace(mark, '')));
  const index =
    passage === ''
      ? -1
      : lines.findIndex((line, at) => {
          const follows = lines.slice(at).join(' ').indexOf(passage);
          return follows !== -1 && follows < line.length;
        });
  return unit.firstLine + (index === -1 ? 0 : index);
};

/**
 * The line of a file on which a passage of a compiled paragraph stands, counted from 1. The paragraph is found first,
 * then the passage in it: one word alone stands in many places. Where no paragraph is like it, the passage is taken
 * where the file holds it once.
 */
export const lineInSource = (file: string, paragraph: string, passage: string): number | undefined => {
  const wanted = plain(passage);
  // The number of a heading and the id of its record are added when it is compiled.
  const compiled = plain(paragraph)
    .replace(/^\d{1,3}(?:\.\d{1,3}){0,6} /, '')
    .replace(/^[a-z]{1,6}-\d[a-z0-9.-]{0,30} /, '');
  let best: Unit | undefined;
  let most = 0;
  const units = unitsOf(file);
  if (compiled.length >= shortestPassage)
    for (const unit of units) {
      const score = likeness(unit, compiled);
      if (score > most) [best, most] = [unit, score];
    }
  if (best) return lineOfPassage(best, wanted) + 1;
  if (wanted.length < shortestPassage) return undefined;
  const holding = units.filter((unit) => unit.words.join(' ').includes(wanted));
  return holding.length === 1 && holding[0] ? lineOfPassage(holding[0], wanted) + 1 : undefined;
};

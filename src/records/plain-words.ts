/**
 * A text without what makes no difference to its words: marks of Markdown, quotation marks, marks of lists and quotations
 * at the start of a line, and line breaks. Words, numbers and punctuation stay.
 */
export const plainWords = (text: string): string =>
  text
    .replace(/[*_`"\u201c\u201d\u2018\u2019'\\]/g, '')
    .replace(/^[ \t]{0,8}[>#-]+[ \t]/gm, '')
    .replace(/\s+/g, ' ')
    .trim();

/** Finds a wording whole: not within a longer word or number. Blanks, line breaks, case and a full stop at its end are the same. */
const wordingPattern = (wording: string): RegExp | undefined => {
  const words = plainWords(wording)
    .replace(/[.]$/, '')
    .split(' ')
    .filter((word) => word !== '');
  if (words.length === 0) return undefined;
  const pattern = words.map((word) => word.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&')).join('\\s+');
  return new RegExp(`(?<![\\p{L}\\p{N}]|\\p{N}[.,])${pattern}(?![\\p{L}\\p{N}]|[.,]\\p{N})`, 'giu');
};

/** Whether a text holds a wording, whatever the marks of Markdown. */
export const holdsWording = (text: string, wording: string): boolean =>
  wordingPattern(wording)?.test(plainWords(text)) ?? false;

/** The text with every occurrence of the wordings blanked, the longest first; offsets as they were. */
export const withoutWordings = (text: string, wordings: readonly string[]): string =>
  [...wordings]
    .sort((a, b) => b.length - a.length || (a < b ? -1 : 1))
    .reduce((left, wording) => {
      const pattern = wordingPattern(wording);
      return pattern ? left.replace(pattern, (found) => found.replace(/[^\n]/g, ' ')) : left;
    }, text);

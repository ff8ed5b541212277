import { oncePerText } from './once-per-text.ts';

/** A passage that repeats a wording with a difference. */
export interface NearCopy {
  readonly offset: number;
  readonly length: number;
  readonly text: string;
}

/** A word of a text, as it is compared. */
export interface Word {
  /** As compared: without marks of Markdown and quotation marks. */
  readonly text: string;
  /** For finding passages: lower case, without punctuation at the end. */
  readonly key: string;
  readonly offset: number;
  readonly end: number;
}

/** Words in a row that make a passage a copy of a wording's start or end. */
const anchorLength = 4;

const onOneLine = (text: string): string => text.replace(/\s+/g, ' ').trim();

const unended = (word: string): string => word.replace(/[.,;:]+$/, '');

const marks = /[*_`"\u201c\u201d\u2018\u2019']/g;

/** Words of a text; what has neither letter nor digit is left out. */
export const wordsOf = (text: string): readonly Word[] => {
  const words: Word[] = [];
  for (const match of text.matchAll(/\S+/g)) {
    const plain = match[0].replace(marks, '');
    // What has neither letter nor digit is a mark of a list, a quotation or a table.
    if (!/[\p{L}\p{N}]/u.test(plain)) continue;
    words.push({
      text: plain,
      key: plain.toLowerCase().replace(/[.,;:!?)]+$/, ''),
      offset: match.index,
      end: match.index + match[0].length,
    });
  }
  return words;
};

/**
 * Passages that start or end with the same four words as a wording, share enough of its words (`leastShared`), and are not
 * the wording. Marks of Markdown, line breaks, quotation marks, the case of the first letter and punctuation at the end
 * make no difference; commas inside do. Wordings of fewer than six words are too common to be looked for.
 */
export const nearCopies = (text: string, wording: string): readonly NearCopy[] => nearCopiesIn(wording)(text);

/**
 * `nearCopies` of one wording, prepared for many texts.
 *
 * @param least how many of its words, by their number, a passage must share
 */
export const nearCopiesIn = (
  wording: string,
  least: (length: number) => number = leastShared,
): ((text: string) => readonly NearCopy[]) => {
  const model = wordsOf(wording);
  return model.length < 6 ? () => [] : oncePerText((text) => findCopies(text, model, least(model.length)));
};

const findCopies = (text: string, model: readonly Word[], least: number): readonly NearCopy[] => {
  const lower = text.toLowerCase();
  const mayHold = (anchor: readonly Word[]): boolean => anchor.every((word) => lower.includes(word.key));
  if (!mayHold(model.slice(0, anchorLength)) && !mayHold(model.slice(-anchorLength))) return [];
  const words = wordsOf(text);
  const found: NearCopy[] = [];
  let beyond = 0;
  for (let at = 0; at + anchorLength <= words.length; at += 1) {
    const startsHere = sameKeys(words, at, model, 0);
    const endsHere = sameKeys(words, at, model, model.length - anchorLength);
    if (!startsHere && !endsHere) continue;
    if (startsHere ? at < beyond : at + anchorLength <= beyond) continue;
    const first = startsHere ? at : Math.max(beyond, passageStart(words, at, model));
    if (startsHere && isWhole(words, at, model)) {
      beyond = at + model.length;
      continue;
    }
    const last = startsHere ? passageEnd(words, at, model) : at + anchorLength - 1;
    const passage = words.slice(first, last + 1);
    if (sharedWords(passage, model) < least) continue;
    const offset = passage[0]?.offset ?? 0;
    const length = (passage.at(-1)?.end ?? offset) - offset;
    found.push({
      offset,
      length,
      text: passage.map((word) => word.text).join(' '),
    });
    beyond = last + 1;
  }
  return found;
};

/** Half of the words; of a short wording all but one, since four of its words say little. */
const leastShared = (length: number): number => Math.max(length / 2, Math.min(length - 1, 12));

const sameKeys = (words: readonly Word[], at: number, model: readonly Word[], from: number): boolean => {
  for (let index = 0; index < anchorLength; index += 1)
    if (words[at + index]?.key !== model[from + index]?.key) return false;
  return true;
};

const isWhole = (words: readonly Word[], at: number, model: readonly Word[]): boolean =>
  model.every((word, index) => {
    const other = words[at + index];
    if (!other) return false;
    if (index === model.length - 1) return other.key === word.key;
    return index === 0 ? other.text.toLowerCase() === word.text.toLowerCase() : other.text === word.text;
  });

/** Back to the start of the sentence, or as far as the wording is long. */
const passageStart = (words: readonly Word[], at: number, model: readonly Word[]): number => {
  const limit = Math.max(0, at + anchorLength - model.length);
  let first = at;
  while (first > limit && !/[.!?:]$/.test(words[first - 1]?.text ?? '')) first -= 1;
  return first;
};

/** The passage reaches to the wording's last four words, else to the end of the sentence, else as far as the wording is long. */
const passageEnd = (words: readonly Word[], at: number, model: readonly Word[]): number => {
  const limit = Math.min(words.length, at + model.length + anchorLength);
  for (let index = at + 1; index + anchorLength <= limit; index += 1)
    if (sameKeys(words, index, model, model.length - anchorLength)) return index + anchorLength - 1;
  for (let index = at + anchorLength; index < limit; index += 1)
    if (/[.!?]$/.test(words[index]?.text ?? '')) return index;
  return Math.min(words.length, at + model.length) - 1;
};

const sharedWords = (passage: readonly Word[], model: readonly Word[]): number => {
  const left = new Map<string, number>();
  for (const { key } of passage) left.set(key, (left.get(key) ?? 0) + 1);
  let shared = 0;
  for (const { key } of model) {
    const count = left.get(key) ?? 0;
    if (count === 0) continue;
    shared += 1;
    left.set(key, count - 1);
  }
  return shared;
};

/** The first words in which two texts differ, for a message: `"dental teams" instead of "dental surgeons"`. */
export const wordDifference = (actual: string, expected: string): string => {
  const left = wordsOf(actual).map((word) => word.text);
  const right = wordsOf(expected).map((word) => word.text);
  const shorter = Math.min(left.length, right.length);
  let start = 0;
  const sameAt = (index: number): boolean =>
    left[index] === right[index] || (index === 0 && left[0]?.toLowerCase() === right[0]?.toLowerCase());
  while (start < shorter && sameAt(start)) start += 1;
  // A full stop at the end is no difference, where there is another one.
  const sameFromEnd = (index: number): boolean => {
    const [one = '', other = ''] = [left[left.length - 1 - index], right[right.length - 1 - index]];
    return one === other || (index === 0 && start < shorter - 1 && unended(one) === unended(other));
  };
  let end = 0;
  while (end < shorter - start && sameFromEnd(end)) end += 1;
  const part = (words: readonly string[]): string => {
    const middle = words.slice(start, words.length - end);
    return `${middle.slice(0, 12).join(' ')}${middle.length > 12 ? ' …' : ''}`;
  };
  const [was, should] = [part(left), part(right)];
  // Punctuation after the words matters only where it is the whole difference.
  const [bareWas, bareShould] = [unended(was), unended(should)];
  // The same words, and a mark or a blank that is not compared.
  if (was === '' && should === '') return `"${onOneLine(actual)}" instead of "${onOneLine(expected)}"`;
  if (was === '') return `"${bareShould}" is missing`;
  if (should === '') return `"${bareWas}" is added`;
  return bareWas === bareShould
    ? `"${was}" instead of "${should}"`
    : `"${bareWas}" instead of "${bareShould}"`;
};

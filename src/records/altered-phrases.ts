import { type NearCopy, type Word, wordsOf } from './near-copies.ts';
import { oncePerText } from './once-per-text.ts';

const isNumber = (word: Word | undefined): boolean => /^[-+]?\d{1,9}(?:[.,]\d{1,9})?$/.test(word?.key ?? '');

const valueOf = (word: Word | undefined): number => Number((word?.key ?? '').replace(',', '.'));

/** Words before a passage that make it a reading, a challenge, an earlier state or what is excluded. */
const toldOf =
  /\b(?:average|changed|earlier|formerly|highest|instead|largest|lowest|maximum|mean|measured|median|minimum|misuse|never|not?|observed|other|outside|smallest|tested|was|were|worst|wrong)\b/i;

/** Words before a number that make it a limit or the end of a range. */
const limitOf =
  /\b(?:about|above|at (?:least|most)|below|between|exceeds?|from|less|more|over|than|under)\b|[±<>≤≥~–-]\s*$|\b(?:to|and|or)\s*$/i;

/** Words directly before a range that is the size of what stands before them: `granules sized 0.5 to 1.0 mm`. */
const ofSize = new Set(['of', 'sized', 'size', 'sizes', 'measuring', 'from']);

/** A plural and a singular are the same word. */
const stem = (word: string): string => word.replace(/s$/, '');

/** How many of the model's words the passage has, word for word but for the numbers; 0 where one differs. */
const sameShape = (
  words: readonly Word[],
  at: number,
  model: readonly Word[],
): 'same numbers' | 'other numbers' | undefined => {
  let differs = false;
  for (const [index, expected] of model.entries()) {
    const word = words[at + index];
    if (!word) return undefined;
    if (isNumber(expected)) {
      if (!isNumber(word)) return undefined;
      differs ||= valueOf(word) !== valueOf(expected);
    } else if (word.key !== expected.key) return undefined;
  }
  return differs ? 'other numbers' : 'same numbers';
};

const copyOf = (words: readonly Word[], from: number, length: number): NearCopy => {
  const passage = words.slice(from, from + length);
  const offset = passage[0]?.offset ?? 0;
  return {
    offset,
    length: (passage.at(-1)?.end ?? offset) - offset,
    text: passage
      .map((word) => word.text)
      .join(' ')
      .replace(/[.,;:!?)]+$/, ''),
  };
};

/** Where the wording begins with the thing that has the range: its last word and the rest from the first number on. */
const rangeOf = (
  model: readonly Word[],
): { readonly thing: string; readonly range: readonly Word[] } | undefined => {
  const first = model.findIndex(isNumber);
  const range = model.slice(first);
  const thing = model.slice(0, Math.max(first, 0)).findLast(({ key }) => key.length > 4)?.key;
  return thing !== undefined && range.filter(isNumber).length === 2 && range.length === 4
    ? { thing: stem(thing), range }
    : undefined;
};

/**
 * Passages that have the words of a wording with other numbers: `0.60 cm³ in 25 squeezes` for `0.50 cm³ in 25 squeezes`.
 * Numbers that are written otherwise and are the same make no difference, nor do limits and readings such as
 * `at least 0.45 cm³`. A wording needs three words besides its numbers. A range of a thing is found in other words as
 * well: `granules sized 0.5 to 1.0 mm`, `0.5 to 1.0 mm granules`.
 */
export const otherNumbersIn = (wording: string): ((text: string) => readonly NearCopy[]) => {
  const model = wordsOf(wording);
  const words = model.filter((word) => !isNumber(word));
  if (words.length === model.length || words.length < 3 || !words.some(({ key }) => key.length > 3))
    return () => [];
  const ranged = rangeOf(model);
  const needed = (ranged?.range ?? model).filter((word) => !isNumber(word)).map(({ key }) => key);
  return oncePerText((text) => {
    const lower = text.toLowerCase();
    return needed.every((key) => lower.includes(key)) ? findOtherNumbers(text, model, ranged) : [];
  });
};

const findOtherNumbers = (
  text: string,
  model: readonly Word[],
  ranged: ReturnType<typeof rangeOf>,
): readonly NearCopy[] => {
  const words = wordsOf(text);
  const meansOther = (at: number): boolean => {
    const offset = words[at]?.offset ?? 0;
    const before = text.slice(Math.max(0, offset - 40), offset);
    const clause = before.slice(before.search(/[^.!?;:|\n]*$/));
    return toldOf.test(clause) || (isNumber(words[at]) && limitOf.test(clause));
  };
  const found: NearCopy[] = [];
  let beyond = 0;
  for (let at = 0; at < words.length; at += 1) {
    if (at < beyond) continue;
    const shape = sameShape(words, at, model);
    if (shape !== undefined) {
      beyond = at + model.length;
      if (shape === 'other numbers' && !meansOther(at)) found.push(copyOf(words, at, model.length));
    } else if (ranged && sameShape(words, at, ranged.range) === 'other numbers') {
      const { range, thing } = ranged;
      beyond = at + range.length;
      const [before, beforeThat] = [words[at - 1], words[at - 2]];
      const directly = stem(before?.key ?? '') === thing && !/[.,;:!?]$/.test(before?.text ?? '');
      const over = ofSize.has(before?.key ?? '') && stem(beforeThat?.key ?? '') === thing;
      const last = words[at + range.length - 1];
      const after = /[.,;:!?)]$/.test(last?.text ?? '') ? undefined : words[at + range.length];
      if (directly || over) {
        const from = directly ? at - 1 : at - 2;
        // "Granules stay 0.5 to 1.0 mm below the line" is no size.
        if (
          !/^(?:above|apart|away|below|deep|from|high|long|over|under)$/.test(after?.key ?? '') &&
          !meansOther(from)
        )
          found.push(copyOf(words, from, at + range.length - from));
      } else if (stem(after?.key ?? '') === thing && !meansOther(at))
        found.push(copyOf(words, at, range.length + 1));
    }
  }
  return found;
};

/** First words that make a wording a statement of what is excluded. */
const excludes = /^(?:not|never|do not|must not|no)\b/i;

/** Words that alone say nothing. */
const joining = new Set(['and', 'or', 'nor', 'a', 'an', 'the', 'in', 'with', 'of', 'for']);

/** Words that begin a statement of exclusion and by which a cut of it is known. */
const startLength = 3;

/**
 * Passages that are a statement of exclusion with a part cut off: `Not for injecting liquids.` for `Not for injecting
 * liquids or cements`. Where the cut statements of one text say the whole between them, there is none.
 */
export const cutExclusionsIn = (wording: string): ((text: string) => readonly NearCopy[]) => {
  const model = wordsOf(wording);
  if (model.length < startLength + 2 || !excludes.test(wording.trim())) return () => [];
  return oncePerText((text) => {
    const lower = text.toLowerCase();
    if (!model.slice(0, startLength).every(({ key }) => lower.includes(key))) return [];
    const words = wordsOf(text);
    const cuts = words.flatMap((_, at) => {
      const length = cutLength(text, words, at, model);
      return length === undefined ? [] : [{ at, length }];
    });
    const told = new Set(
      cuts.flatMap(({ at, length }) => words.slice(at, at + length).map(({ key }) => key)),
    );
    return model.every(({ key }) => told.has(key) || joining.has(key))
      ? []
      : cuts.map(({ at, length }) => copyOf(words, at, length));
  });
};

const cutLength = (
  text: string,
  words: readonly Word[],
  at: number,
  model: readonly Word[],
): number | undefined => {
  for (let index = 0; index < startLength; index += 1)
    if (words[at + index]?.key !== model[index]?.key) return undefined;
  let next = startLength;
  const missing: string[] = [];
  for (let index = startLength - 1; index < model.length; index += 1) {
    const word = words[at + index];
    if (!word) return undefined;
    if (index >= startLength) {
      while (next < model.length && model[next]?.key !== word.key) {
        missing.push(model[next]?.key ?? '');
        next += 1;
      }
      if (next === model.length) return undefined;
      next += 1;
    }
    const following = words[at + index + 1];
    const between = text.slice(word.end, following?.offset ?? text.length);
    if (
      /[.!?;:)]["\u201d\u2019'*_]{0,3}$/.test(text.slice(word.offset, word.end)) ||
      !following ||
      /\n\s*\n|\||\n\s*[-*#>\d]/.test(between)
    ) {
      const left = [...missing, ...model.slice(next).map(({ key }) => key)];
      return index >= startLength && left.some((key) => !joining.has(key)) ? index + 1 : undefined;
    }
  }
  return undefined;
};

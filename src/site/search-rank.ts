import { folded, idKey, nearestWords, type Sought, soughtIn } from './search-words.ts';

/** What the index says of one thing: path, id, title, numbers of kind and state. */
export type NamedEntry = readonly [string, string, string, number, number];

export interface Hit {
  readonly index: number;
  readonly score: number;
}

interface Found {
  readonly hits: readonly Hit[];
  readonly count: number;
  /** The words that were found; others than those of the query where some of these were found nowhere. */
  readonly sought: Sought;
  readonly isNearest: boolean;
}

/** Names as they are compared, made once. */
export interface SearchIndex {
  readonly ids: readonly string[];
  readonly idKeys: readonly string[];
  readonly titles: readonly string[];
  readonly states: readonly string[];
  /** Running texts, by number; missing where they are not loaded yet. */
  readonly texts: string[];
  /** Every word of titles and texts, for words that are mistyped. */
  readonly words: Set<string>;
}

/** A reader asks for what failed, whatever form the state has. */
const otherWords: Readonly<Record<string, string>> = { pass: 'passed', fail: 'failed' };

const addWords = (words: Set<string>, text: string): void => {
  for (const [word] of text.matchAll(/\p{L}{4,30}/gu)) words.add(word);
};

export const searchIndex = (entries: readonly NamedEntry[], states: readonly string[] = []): SearchIndex => {
  const words = new Set<string>();
  const titles = entries.map(([, , title]) => folded(title));
  for (const title of titles) addWords(words, title);
  const ids = entries.map(([, id]) => folded(id));
  return {
    ids,
    idKeys: ids.map(idKey),
    titles,
    states: entries.map(([, , , , state]) => {
      const word = folded(states[state] ?? '');
      return otherWords[word] ?? word;
    }),
    texts: [],
    words,
  };
};

/** Adds running texts that were loaded. */
export const addTexts = (index: SearchIndex, first: number, texts: readonly string[]): void => {
  for (const [offset, text] of texts.entries()) {
    const plain = folded(text);
    index.texts[first + offset] = plain;
    addWords(index.words, plain);
  }
};

const isWordStart = (text: string, at: number): boolean =>
  at === 0 || !/[\p{L}\p{N}]/u.test(text[at - 1] ?? '');

const holdsLettersAndDigits = (word: string): boolean => /\p{L}/u.test(word) && /\d/.test(word);

/** A word of the query, with what is asked of it once for all entries. */
interface SoughtWord {
  readonly word: string;
  readonly key: string | undefined;
}

/** How well one word fits: the id first, then the title, the state, the running text; nought where it is not found. */
const scoreOf = ({ word, key }: SoughtWord, index: SearchIndex, at: number): number => {
  const id = index.ids[at] ?? '';
  if (id === word) return 1000;
  const idKeyed = index.idKeys[at] ?? '';
  if (key !== undefined && idKeyed === key) return 900;
  if (id.startsWith(word)) return 400 - Math.min(99, id.length - word.length);
  if (key !== undefined && idKeyed.startsWith(key)) return 200 - Math.min(99, idKeyed.length - key.length);
  // A clause is named by its table and its number: `GSPR 10.4.1`.
  const number = id.indexOf(` ${word}`);
  if (number !== -1) return 300 - Math.min(99, id.length - number - word.length);
  const title = index.titles[at] ?? '';
  const place = title.indexOf(word);
  if (place !== -1) return (isWordStart(title, place) ? 120 : 60) + (place === 0 ? 20 : 0);
  if (id.includes(word)) return 80;
  if (index.states[at] === word) return 40;
  return index.texts[at]?.includes(word) ? 10 : 0;
};

const hitsOf = (sought: Sought, index: SearchIndex): Hit[] => {
  const words = sought.map((spellings) =>
    spellings.map(
      (word): SoughtWord => ({ word, key: holdsLettersAndDigits(word) ? idKey(word) : undefined }),
    ),
  );
  const hits: Hit[] = [];
  if (words.length === 0) return hits;
  for (let at = 0; at < index.ids.length; at += 1) {
    let score = 0;
    for (const spellings of words) {
      let best = 0;
      for (const spelling of spellings) best = Math.max(best, scoreOf(spelling, index, at));
      if (best === 0) {
        score = 0;
        break;
      }
      score += best;
    }
    if (score > 0) hits.push({ index: at, score });
  }
  return hits;
};

/** Whether a word is part of any known one. Running texts are not gone through again for it. */
const isAnywhere = (spellings: readonly string[], index: SearchIndex): boolean => {
  if (spellings.some((word) => index.words.has(word) || !/^\p{L}+$/u.test(word))) return true;
  for (const known of index.words) if (spellings.some((word) => known.includes(word))) return true;
  return false;
};

/**
 * Everything that holds all words of the query, the best first; of equals, in the order of the index. A word that is
 * found nowhere stands for the words nearest to it.
 */
export const search = (query: string, index: SearchIndex, most: number): Found => {
  const asked = soughtIn(query);
  let sought = asked;
  let hits = hitsOf(sought, index);
  if (hits.length === 0 && asked.length > 0) {
    const nearest = asked.map((spellings) =>
      isAnywhere(spellings, index) ? spellings : nearestWords(spellings[0] ?? '', index.words),
    );
    // A word that nothing comes near to leaves nothing to be found.
    if (
      nearest.every((spellings) => spellings.length > 0) &&
      nearest.some((spellings, at) => spellings !== asked[at])
    ) {
      sought = nearest;
      hits = hitsOf(sought, index);
    }
  }
  return {
    hits: hits.sort((a, b) => b.score - a.score || a.index - b.index).slice(0, most),
    count: hits.length,
    sought,
    isNearest: sought !== asked,
  };
};

/** The part of a text around the first word that it holds. */
export const pieceAround = (text: string | undefined, sought: Sought, longest = 150): string => {
  if (text === undefined) return '';
  const found = sought
    .flat()
    .map((word) => text.indexOf(word))
    .filter((at) => at !== -1);
  if (found.length === 0) return '';
  const start = Math.max(0, Math.min(...found) - Math.floor(longest / 3));
  return `${start > 0 ? '… ' : ''}${text.slice(start, start + longest)}${start + longest < text.length ? ' …' : ''}`;
};

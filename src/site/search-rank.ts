/** What the index says of one thing: path, id, title, numbers of kind and state. */
export type NamedEntry = readonly [string, string, string, number, number];

export interface Hit {
  readonly index: number;
  readonly score: number;
}

/** Names in lower case, made once. */
export interface SearchIndex {
  readonly ids: readonly string[];
  readonly titles: readonly string[];
  /** Running texts, by number; missing where they are not loaded yet. */
  readonly texts: string[];
}

export const searchIndex = (entries: readonly NamedEntry[]): SearchIndex => ({
  ids: entries.map(([, id]) => id.toLowerCase()),
  titles: entries.map(([, , title]) => title.toLowerCase()),
  texts: [],
});

/** Words that are looked for; all of them must be found. */
export const wordsOf = (query: string): readonly string[] =>
  query
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== '')
    .slice(0, 8);

const isWordStart = (text: string, at: number): boolean =>
  at === 0 || !/[\p{L}\p{N}]/u.test(text[at - 1] ?? '');

/** How well one word fits: the id first, then the title, then the running text; nought where it is not found. */
const scoreOf = (word: string, id: string, title: string, text: string | undefined): number => {
  if (id === word) return 1000;
  if (id.startsWith(word)) return 400 - Math.min(99, id.length - word.length);
  const at = title.indexOf(word);
  if (at !== -1) return (isWordStart(title, at) ? 120 : 60) + (at === 0 ? 20 : 0);
  if (id.includes(word)) return 80;
  return text?.includes(word) ? 10 : 0;
};

/** Everything that holds all words of the query, the best first; of equals, in the order of the index. */
export const search = (
  query: string,
  index: SearchIndex,
  most: number,
): { readonly hits: readonly Hit[]; readonly count: number } => {
  const words = wordsOf(query);
  if (words.length === 0) return { hits: [], count: 0 };
  const hits: Hit[] = [];
  for (let at = 0; at < index.ids.length; at += 1) {
    let score = 0;
    for (const word of words) {
      const own = scoreOf(word, index.ids[at] ?? '', index.titles[at] ?? '', index.texts[at]);
      if (own === 0) {
        score = 0;
        break;
      }
      score += own;
    }
    if (score > 0) hits.push({ index: at, score });
  }
  return {
    hits: hits.sort((a, b) => b.score - a.score || a.index - b.index).slice(0, most),
    count: hits.length,
  };
};

/** The part of a text around the first word that it holds. */
export const pieceAround = (text: string | undefined, query: string, longest = 150): string => {
  if (text === undefined) return '';
  const found = wordsOf(query)
    .map((word) => text.indexOf(word))
    .filter((at) => at !== -1);
  if (found.length === 0) return '';
  const start = Math.max(0, Math.min(...found) - Math.floor(longest / 3));
  return `${start > 0 ? '… ' : ''}${text.slice(start, start + longest)}${start + longest < text.length ? ' …' : ''}`;
};

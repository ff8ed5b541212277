/** Words that are looked for; each may be met by any of its spellings, the one that was typed first. */
export type Sought = readonly (readonly string[])[];

/**
 * Text as it is compared: in lower case, with one kind of hyphen, blank and apostrophe. Both what is searched and what
 * is looked for go through here, and nothing changes its place.
 */
export const folded = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[\u2010\u2011\u2013\u2212]/g, '-')
    .replace(/[\u00a0\u2007\u2009\u202f]/g, ' ')
    .replace(/[\u2018\u2019]/g, "'");

/** Quotation marks around a word, and the stops and brackets of a sentence, are no part of it. */
const edges = /^["'“”„«»‹›([{]+|["'“”„«»‹›)\]},;:.!?]+$/g;

/** The words of a query, as they are compared. */
const wordsOf = (query: string): readonly string[] =>
  folded(query)
    .split(/\s+/)
    .map((word) => word.replace(edges, ''))
    .filter((word) => word !== '')
    .slice(0, 8);

const spellingsOf = (word: string): readonly string[] => {
  const found = new Set([word]);
  if (/^\p{L}{5,}$/u.test(word)) {
    found.add(
      word.replace(
        /([iy])([sz])(e[sdr]?|ers|ing|ations?)$/,
        (_, vowel: string, sign: string, end: string) => `${vowel}${sign === 's' ? 'z' : 's'}${end}`,
      ),
    );
    found.add(
      word.includes('our')
        ? word.replace('our', 'or')
        : word.replace(/or(?=s?$|ed$|ing$|less$|al$|able$)/, 'our'),
    );
  }
  if (/^\p{L}+(?:-\p{L}+)+$/u.test(word)) found.add(word.replaceAll('-', ' '));
  return [...found];
};

/** What a query looks for, with the British and American spellings of its words. */
export const soughtIn = (query: string): Sought => wordsOf(query).map(spellingsOf);

/** An id without its hyphens and leading noughts, so that UN8, un-8 and UN-08 are one. */
export const idKey = (id: string): string => id.replace(/[-_/ ]+/g, '').replace(/(?<![\d.])0+(?=\d)/g, '');

/** How many letters of a word of this length may be wrong. */
const mostWrong = (length: number): number => (length < 5 ? 0 : length < 8 ? 1 : 2);

/** Letters to add, drop, change or swap with the next until one word is the other; more than `most` is not counted. */
const distance = (a: string, b: string, most: number): number => {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, at) => at);
  for (let row = 1; row <= a.length; row += 1) {
    const next = [row];
    let least = row;
    for (let at = 1; at <= b.length; at += 1) {
      const isSame = a[row - 1] === b[at - 1];
      let cost = Math.min(
        (last[at] ?? 0) + 1,
        (next[at - 1] ?? 0) + 1,
        (last[at - 1] ?? 0) + (isSame ? 0 : 1),
      );
      if (row > 1 && at > 1 && a[row - 1] === b[at - 2] && a[row - 2] === b[at - 1])
        cost = Math.min(cost, (before[at - 2] ?? 0) + 1);
      next.push(cost);
      if (cost < least) least = cost;
    }
    if (least > most) return most + 1;
    before = last;
    last = next;
  }
  return last[b.length] ?? most + 1;
};

const mostNearest = 6;

/** The known words that are nearest to one that is mistyped; none for a short word. */
export const nearestWords = (word: string, known: Iterable<string>): readonly string[] => {
  let most = mostWrong(word.length);
  if (most === 0 || !/^[\p{L}-]+$/u.test(word)) return [];
  let found: string[] = [];
  for (const other of known) {
    const wrong = distance(word, other, most);
    if (wrong > most) continue;
    if (wrong < most) {
      most = wrong;
      found = [];
    }
    found.push(other);
  }
  return found.sort().slice(0, mostNearest);
};

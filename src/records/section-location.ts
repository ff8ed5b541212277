import { plainWords } from './plain-words.ts';
import { sectionsOf } from './prose.ts';

/** What a heading or a location is compared by: words only, in small letters. */
const comparable = (words: string): string => plainWords(words).toLowerCase();

/** Numbers of headings in their order, as a compiled document counts them: never more than one level below the last. */
const countHeadings = (levels: readonly number[]): readonly string[] => {
  let numbers: readonly number[] = [];
  return levels.map((level) => {
    const shown = Math.max(1, Math.min(level, numbers.length + 1));
    numbers = [...numbers.slice(0, shown - 1), (numbers[shown - 1] ?? 0) + 1];
    return numbers.join('.');
  });
};

const numbersOf = (levels: readonly number[]): ReadonlySet<string> => new Set(countHeadings(levels));

/** The section numbers that a location opens with: `2, 4 and 6`, `2 to 5`, `1, picture with the parts`. */
const numbersNamed = (words: string): readonly string[] => {
  const [first = '', ...others] = words.split(/(?:,|;| and | or | to ) ?/);
  const opening = /^\d{1,3}(?:\.\d{1,3}){0,5}(?![\p{L}\p{N}])/u.exec(first)?.[0];
  if (opening === undefined) return [];
  const end = others.findIndex((other) => !/^\d{1,3}(?:\.\d{1,3}){0,5}$/.test(other.trim()));
  return [opening, ...(end < 0 ? others : others.slice(0, end)).map((other) => other.trim())];
};

/** What may follow the name of a section within a location. */
const isPartEnd = (after: string): boolean =>
  after === '' || /^(?:[,;:.(]| (?:\(|and |or |of |to ))/.test(after);

/**
 * What a location such as `section 9` or `section Risk control, last paragraph` names and the body of a document does
 * not have. Other locations are not judged. Where views write parts of the document, sections below the first level
 * and those that open with one of `others` (ids and titles of records) may come from them and are not judged.
 */
export const missingSection = (
  body: string,
  location: string,
  others: (words: string) => boolean,
): string | undefined => {
  const named = /^sections? (.+)$/i.exec(plainWords(location))?.[1];
  if (named === undefined) return undefined;
  const headings = sectionsOf(body).filter(({ level }) => level > 0);
  const words = comparable(named);
  const isHere = headings.some(({ heading }) => {
    const name = comparable(heading);
    return words.startsWith(name) && isPartEnd(words.slice(name.length));
  });
  if (isHere) return undefined;
  const hasViews = /^(?:`{3,}|~{3,}) ?plinth /m.test(body);
  const numbers = numbersNamed(named);
  if (numbers.length > 0) {
    const known = numbersOf(headings.map(({ level }) => level));
    return numbers.find((number) => (hasViews ? !known.has(number.split('.')[0] ?? '') : !known.has(number)));
  }
  // A heading that is filled in when the document is written may read as anything.
  const isFilledIn = headings.some(({ heading }) => /:[a-z]{1,20}\[/.test(heading));
  return isFilledIn || (hasViews && others(words)) ? undefined : named;
};

/**
 * Index of the heading that a location such as `section 9` or `section Risk control, last paragraph` names, the first one
 * where it names several; undefined where it names none of them. `headings` are all of the document, in its order.
 */
export const headingAt = (
  location: string,
  headings: readonly { readonly words: string; readonly level: number }[],
): number | undefined => {
  const named = /^sections? (.+)$/i.exec(plainWords(location))?.[1];
  if (named === undefined) return undefined;
  const words = comparable(named);
  const byName = headings
    .map(({ words: heading }, index) => ({ name: comparable(heading), index }))
    .filter(({ name }) => name !== '' && words.startsWith(name) && isPartEnd(words.slice(name.length)))
    .sort((a, b) => b.name.length - a.name.length || a.index - b.index)[0];
  if (byName) return byName.index;
  const [number] = numbersNamed(named);
  const index = number === undefined ? -1 : countHeadings(headings.map(({ level }) => level)).indexOf(number);
  return index < 0 ? undefined : index;
};

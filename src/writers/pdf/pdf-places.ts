/**
 * The places of a PDF that has been printed from a Word file, and the pages that they stand on.
 *
 * A named place (PDF 1.7, 12.3.2.3) is a name of the destinations' dictionary; LibreOffice makes one of each bookmark.
 * It writes the signs of the name other than letters and digits by their hexadecimal numbers, without the mark that
 * would tell so, in the versions that are known to us.
 */
const asWritten = (bookmark: string): readonly string[] => [bookmark, placeName(bookmark)];

/** A bookmark as a name of letters and digits alone, which every program keeps as it is. */
export const placeName = (bookmark: string): string =>
  bookmark.replace(/[^A-Za-z0-9]/g, (sign) =>
    (sign.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(2, '0'),
  );

const pagesPattern = /\/Type ?\/Pages\b[^>]*?\/Kids ?\[([\d R\s]*)\]/g;
const placePattern = /\/([A-Za-z0-9_#]+) ?\[ ?(\d+) 0 R ?\/XYZ/g;

/**
 * The page of each bookmark, from 1, of those that are found. Empty where the file is not written as LibreOffice writes
 * it: with objects that are not compressed, and one list of all pages.
 */
export const pagesOfPlaces = (pdf: Uint8Array, bookmarks: Iterable<string>): ReadonlyMap<string, string> => {
  // Latin-1 keeps each byte as one character.
  const text = Buffer.from(pdf).toString('latin1');
  const lists = [...text.matchAll(pagesPattern)];
  if (lists.length !== 1) return new Map();
  const pages = new Map(
    [...(lists[0]?.[1] ?? '').matchAll(/(\d+) 0 R/g)].map(([, object = ''], index) => [object, index + 1]),
  );
  const places = new Map(
    [...text.matchAll(placePattern)].map(([, name = '', object = '']) => [name, object]),
  );
  const found = new Map<string, string>();
  for (const bookmark of bookmarks) {
    const object = asWritten(bookmark)
      .map((name) => places.get(name))
      .find((place) => place !== undefined);
    const page = object === undefined ? undefined : pages.get(object);
    if (page !== undefined) found.set(bookmark, String(page));
  }
  return found;
};

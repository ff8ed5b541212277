/**
 * Names for the places in a document that links point to. Word keeps bookmark names of up to 40 letters, digits
 * and low lines that start with a letter (from memory: Word's own limits); HTML takes the same names.
 */

const longestBookmarkName = 40;

/**
 * The bookmark of a record: `rec_VP_09A` for VP-09A. Depends on the id alone, so that a reviewer's comment can
 * be traced home without the document's source. Two ids never share a name: an id with other characters than
 * letters, digits and hyphens, or a long one, gets a check sum of the whole id at its end.
 */
export function recordBookmark(id: string): string {
  return bookmarkName('rec', id);
}

/** The bookmark of a heading, table or figure with this anchor. */
export function anchorBookmark(anchor: string): string {
  return bookmarkName('to', anchor);
}

/**
 * The anchor of a heading by its text: lower case, words joined by hyphens, for example `scope-and-purpose`.
 *
 * @param taken anchors already given; the new one is added
 */
export function headingAnchor(text: string, taken: Set<string>): string {
  const words = text
    .normalize('NFC')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}\p{M}]+/gu, '-')
    .replace(/^-|-$/g, '');
  const base = words === '' ? 'section' : words;
  let anchor = base;
  for (let n = 2; taken.has(anchor); n += 1) anchor = `${base}-${n}`;
  taken.add(anchor);
  return anchor;
}

function bookmarkName(prefix: string, key: string): string {
  const plain = `${prefix}_${key.replace(/[^A-Za-z0-9]/g, '_')}`;
  if (/^[A-Za-z0-9-]+$/.test(key) && plain.length <= longestBookmarkName) return plain;
  const sum = checkSum(key);
  return `${plain.slice(0, longestBookmarkName - sum.length - 1)}_${sum}`;
}

/** FNV-1a over the UTF-16 code units, twice with different starts: 16 hexadecimal digits. */
function checkSum(text: string): string {
  return [0x811c9dc5, 0x9e3779b9]
    .map((start) => {
      let hash = start;
      for (let i = 0; i < text.length; i += 1) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
      return (hash >>> 0).toString(16).padStart(8, '0');
    })
    .join('');
}

import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { placeName } from './pdf-places.ts';

/** A link of our own to another file: relative, so that it starts neither with a scheme nor with a slash. */
const wordTarget = /(Target=")([^":/\\][^":\\]*)\.docx("\s+TargetMode="External")/g;

/** The bookmark of a record, or a link to one: here or, by the same name, in another file. */
const recordPlace = /(<w:(?:bookmarkStart|hyperlink)\b[^>]*? w:(?:name|anchor)=")(rec_[^"]*)(")/g;

/**
 * A Word file whose links to other Word files of its folder lead to their PDFs, for the program that prints it, and
 * whose records have names that this program keeps: a link to a record in another PDF finds it by the same name.
 */
export const withLinksToPdf = (docx: Uint8Array): Uint8Array =>
  withChangedParts(docx, (name, text) => {
    if (/^word\/_rels\/[^/]+\.rels$/.test(name)) return text.replace(wordTarget, '$1$2.pdf$3');
    return text.replace(
      recordPlace,
      (_, before: string, place: string, after: string) => before + placeName(place) + after,
    );
  });

/** A page number of the contents list: the result of its field (ISO/IEC 29500-1, 17.16.5.43). */
const pageField =
  /(<w:instrText xml:space="preserve"> PAGEREF (\w+) \\h <\/w:instrText><\/w:r><w:r><w:fldChar w:fldCharType="separate"\/><\/w:r><w:r>(?:<w:rPr>(?:<w:\w+(?: [^<>]*)?\/>)*<\/w:rPr>)?<w:t xml:space="preserve">)([^<]*)(<\/w:t>)/g;

/** The bookmarks that the lists of contents, tables and figures name a page for. */
export const listedBookmarks = (docx: Uint8Array): readonly string[] => {
  const body = unzipSync(docx, { filter: ({ name }) => name === bodyPart })[bodyPart];
  return body ? [...strFromU8(body).matchAll(pageField)].map(([, , bookmark = '']) => bookmark) : [];
};

/** A Word file whose contents list names these pages. Where it names them already, the file itself is returned. */
export const withListedPages = (docx: Uint8Array, pages: ReadonlyMap<string, string>): Uint8Array =>
  withChangedParts(docx, (name, text) =>
    name === bodyPart
      ? text.replace(
          pageField,
          (_, before: string, bookmark: string, page: string, after: string) =>
            before + (pages.get(bookmark) ?? page) + after,
        )
      : text,
  );

const bodyPart = 'word/document.xml';

/** The file with its parts of text changed; the file itself where nothing is. */
const withChangedParts = (docx: Uint8Array, changed: (name: string, text: string) => string): Uint8Array => {
  const before = unzipSync(docx, {
    filter: ({ name }) => /^word\/(?:_rels\/[^/]+\.rels|[^/]+\.xml)$/.test(name),
  });
  const after: Record<string, Uint8Array> = {};
  for (const [name, bytes] of Object.entries(before)) {
    const text = strFromU8(bytes);
    const now = changed(name, text);
    if (now !== text) after[name] = strToU8(now);
  }
  if (Object.keys(after).length === 0) return docx;
  return zipSync({ ...unzipSync(docx), ...after }, { mtime: new Date(1980, 0, 2, 12), level: 1 });
};

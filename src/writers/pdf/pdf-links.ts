import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';

/** A link of our own to another file: relative, so that it starts neither with a scheme nor with a slash. */
const wordTarget = /(Target=")([^":/\\][^":\\]*)\.docx("\s+TargetMode="External")/g;

/**
 * A Word file whose links to other Word files of its folder lead to their PDFs, for the program that prints it. A file
 * without such links is returned as it is.
 */
export const withLinksToPdf = (docx: Uint8Array): Uint8Array => {
  const isRelationships = ({ name }: { readonly name: string }): boolean =>
    /^word\/_rels\/[^/]+\.rels$/.test(name);
  const before = Object.entries(unzipSync(docx, { filter: isRelationships }));
  const after = before.map(
    ([name, bytes]) => [name, strFromU8(bytes).replace(wordTarget, '$1$2.pdf$3')] as const,
  );
  if (before.every(([, bytes], index) => strFromU8(bytes) === after[index]?.[1])) return docx;
  const parts = {
    ...unzipSync(docx),
    ...Object.fromEntries(after.map(([name, text]) => [name, strToU8(text)])),
  };
  return zipSync(parts, { mtime: new Date(1980, 0, 2, 12), level: 1 });
};

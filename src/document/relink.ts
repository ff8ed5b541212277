import type { Document, FileLink } from './model.ts';

/** Where a link to a file leads to from now on; undefined where there is no such file any more. */
export type NewPlace = (link: FileLink) => Pick<FileLink, 'path' | 'inHtml'> | undefined;

/** The document with its links to files led elsewhere. A link whose file is gone keeps its words. */
export const relink = (document: Document, place: NewPlace): Document => ({
  ...document,
  blocks: walk(document.blocks, place) as Document['blocks'],
  footnotes: walk(document.footnotes, place) as Document['footnotes'],
});

const isFileLink = (value: object): value is FileLink => 'kind' in value && value.kind === 'file-link';

const walk = (value: unknown, place: NewPlace): unknown => {
  if (Array.isArray(value))
    return value.flatMap((item: unknown): readonly unknown[] => {
      if (typeof item !== 'object' || item === null || !isFileLink(item)) return [walk(item, place)];
      const children = walk(item.children, place) as FileLink['children'];
      const found = place(item);
      if (!found) return children;
      const { path: _path, inHtml: _inHtml, ...rest } = item;
      return [{ ...rest, ...found, children }];
    });
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, walk(inner, place)]));
};

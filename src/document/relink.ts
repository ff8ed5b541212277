import type { Document, FileLink } from './model.ts';

/** Where a link to a file leads to from now on; undefined where there is no such file any more. */
export type NewPlace = (link: FileLink) => Pick<FileLink, 'path' | 'inHtml'> | undefined;

/** The document with its links to files and to records elsewhere led to new places. A link whose file is gone keeps its words. */
export const relink = ({ elsewhere, ...document }: Document, place: NewPlace): Document => ({
  ...document,
  ...(elsewhere ? { elsewhere: movedElsewhere(elsewhere, place) } : {}),
  blocks: walk(document.blocks, place) as Document['blocks'],
  footnotes: walk(document.footnotes, place) as Document['footnotes'],
});

const movedElsewhere = (
  elsewhere: NonNullable<Document['elsewhere']>,
  place: NewPlace,
): NonNullable<Document['elsewhere']> =>
  new Map(
    [...elsewhere].flatMap(([id, { path, inHtml, opensWhole }]) => {
      const found = place({
        kind: 'file-link',
        path,
        ...(inHtml === undefined ? {} : { inHtml }),
        children: [],
      });
      return found ? [[id, { ...found, opensWhole }] as const] : [];
    }),
  );

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

import type { HouseStyles } from './house-styles.ts';
import { inherited } from './house-styles.ts';
import { inSchemaOrder, withProperty } from './schema-order.ts';
import { childOf, type Element, element, elementsOf, valueOf, withChildren } from './xml-tree.ts';

/** How one level of a list is numbered. */
export interface NumberLevel {
  /** Name of the format (ISO/IEC 29500-1, 17.18.59): `decimal`, `upperRoman`. */
  readonly format: string;
  readonly start: number;
  /** `%1.%2`: text with places for the numbers of the levels. */
  readonly text: string;
  /** All numbers in Arabic digits, whatever the format of their level. */
  readonly isLegal: boolean;
}

/** The numbering of headings of one level. */
export interface HeadingNumbering {
  readonly levels: readonly NumberLevel[];
  /** Level in the list, from 0. */
  readonly level: number;
  /** Number of the list in the document. */
  readonly list: number;
}

/** The numbering definitions that the styles use, numbered anew. */
export interface HouseNumbering {
  readonly outlines: readonly Element[];
  readonly lists: readonly Element[];
  /** By level of headings, from 1: undefined where headings of that level have no number. */
  readonly headings: readonly (HeadingNumbering | undefined)[];
  /** The styles, pointing to the lists under their new numbers. */
  readonly styles: ReadonlyMap<string, Element>;
}

/** Definitions get ids from here on, so that they don't meet those of the document's own lists. */
const firstOutline = 100;

const headingLevels = [1, 2, 3, 4, 5, 6] as const;

/** Takes over the lists that styles of the house style use, above all the one that numbers the headings. */
export const readNumbering = (
  part: Element | undefined,
  { byId, newIds }: Pick<HouseStyles, 'byId' | 'newIds'>,
): HouseNumbering => {
  const outlineById = new Map(
    elementsOf(part, 'w:abstractNum').map((each) => [each.attributes['w:abstractNumId'] ?? '', each]),
  );
  const listById = new Map(elementsOf(part, 'w:num').map((each) => [each.attributes['w:numId'] ?? '', each]));
  const used = new Set(
    [...byId.values()]
      .map((style) => valueOf(style, 'w:pPr', 'w:numPr', 'w:numId') ?? '')
      .filter((id) => listById.has(id)),
  );
  const newLists = new Map([...used].map((id, index) => [id, index + 1]));
  const outlineIds = [
    ...new Set([...used].map((id) => valueOf(listById.get(id), 'w:abstractNumId') ?? '')),
  ].filter((id) => outlineById.has(id));
  const newOutlines = new Map(outlineIds.map((id, index) => [id, String(firstOutline + index)]));
  for (const id of used)
    if (!newOutlines.has(valueOf(listById.get(id), 'w:abstractNumId') ?? '')) newLists.delete(id);

  const styles = new Map([...byId].map(([id, style]) => [id, withNewList(style, newLists)] as const));
  const headings = headingLevels.map((level) => {
    const id = `Heading${level}`;
    const numbering = (name: string): string | undefined =>
      inherited(byId, id, (style) => valueOf(style, 'w:pPr', 'w:numPr', name));
    const old = numbering('w:numId');
    const list = old === undefined ? undefined : newLists.get(old);
    if (old === undefined || list === undefined) return undefined;
    const levels = levelsOf(listById.get(old), outlineById, byId, listById);
    const linked = levels.findIndex((each) => newIds.get(valueOf(each, 'w:pStyle') ?? '') === id);
    const at = linked >= 0 ? linked : Number(numbering('w:ilvl') ?? 0);
    const read = levels.map(numberLevel);
    return isNumbered(read[at]) ? { levels: read, level: at, list } : undefined;
  });
  return {
    outlines: outlineIds.map((id) =>
      outline(outlineById.get(id) as Element, newOutlines.get(id) ?? '', newIds),
    ),
    lists: [...newLists].map(([old, id]) => list(listById.get(old) as Element, id, newOutlines, newIds)),
    headings: continued(headings, styles),
    styles,
  };
};

const isNumbered = (level: NumberLevel | undefined): boolean =>
  level !== undefined && !['none', 'bullet'].includes(level.format) && /%[1-9]/.test(level.text);

/** Headings that the house style has no style for go on in the list that numbers the others. */
const continued = (
  headings: readonly (HeadingNumbering | undefined)[],
  styles: ReadonlyMap<string, Element>,
): readonly (HeadingNumbering | undefined)[] => {
  const first = headings.find((each) => each !== undefined);
  return headings.map((heading, index) => {
    if (heading || !first || styles.has(`Heading${index + 1}`)) return heading;
    const level = first.level + index - headings.indexOf(first);
    return isNumbered(first.levels[level]) ? { ...first, level } : undefined;
  });
};

/** The levels of a list, by its own and those of the definition behind it, which may be that of a list style. */
const levelsOf = (
  list: Element | undefined,
  outlineById: ReadonlyMap<string, Element>,
  styles: ReadonlyMap<string, Element>,
  listById: ReadonlyMap<string, Element>,
  mayFollow = true,
): readonly Element[] => {
  const definition = outlineById.get(valueOf(list, 'w:abstractNumId') ?? '');
  const styleLink = valueOf(definition, 'w:numStyleLink');
  if (styleLink !== undefined && mayFollow) {
    const behind = valueOf(styles.get(styleLink), 'w:pPr', 'w:numPr', 'w:numId');
    return levelsOf(listById.get(behind ?? ''), outlineById, styles, listById, false);
  }
  const own = new Map(
    elementsOf(list, 'w:lvlOverride').flatMap((override) => {
      const level = childOf(override, 'w:lvl');
      return level ? [[override.attributes['w:ilvl'] ?? '', level] as const] : [];
    }),
  );
  return elementsOf(definition, 'w:lvl')
    .toSorted((a, b) => Number(a.attributes['w:ilvl']) - Number(b.attributes['w:ilvl']))
    .map((level) => own.get(level.attributes['w:ilvl'] ?? '') ?? level);
};

const numberLevel = (level: Element): NumberLevel => {
  const legal = childOf(level, 'w:isLgl');
  return {
    format: valueOf(level, 'w:numFmt') ?? 'decimal',
    start: Number(valueOf(level, 'w:start') ?? 1) || 0,
    text: valueOf(level, 'w:lvlText') ?? '',
    isLegal: legal !== undefined && !['0', 'false'].includes(legal.attributes['w:val'] ?? '1'),
  };
};

const withNewList = (style: Element, lists: ReadonlyMap<string, number>): Element => {
  const properties = childOf(style, 'w:pPr');
  const numbering = childOf(properties, 'w:numPr');
  if (!properties || !numbering) return style;
  const old = valueOf(numbering, 'w:numId');
  const id = old === undefined ? undefined : lists.get(old);
  const changed = numbering.children.flatMap((child) => {
    if (typeof child === 'string' || child.name !== 'w:numId') return [child];
    // 0 takes a number away that would be inherited.
    return [element('w:numId', { 'w:val': String(id ?? 0) })];
  });
  return withPart(style, withProperty(properties, withChildren(numbering, changed)));
};

/** A style with its paragraph properties replaced. */
export const withPart = (style: Element, part: Element): Element =>
  inSchemaOrder(
    withChildren(style, [
      ...style.children.filter((child) => typeof child === 'string' || child.name !== part.name),
      part,
    ]),
  );

/** Ids of styles within a definition follow the styles; a level must not number a style that is not there. */
const renamedStyles = (parent: Element, newIds: ReadonlyMap<string, string>): Element =>
  withChildren(
    parent,
    parent.children.flatMap((child) => {
      if (typeof child === 'string') return [];
      if (!/^w:(?:pStyle|rStyle|styleLink|numStyleLink)$/.test(child.name))
        return [renamedStyles(child, newIds)];
      const target = newIds.get(child.attributes['w:val'] ?? '');
      return target === undefined ? [] : [element(child.name, { 'w:val': target })];
    }),
  );

const only = (attributes: Readonly<Record<string, string>>, ...names: readonly string[]) =>
  Object.fromEntries(names.flatMap((name) => (name in attributes ? [[name, attributes[name] ?? '']] : [])));

const level = (each: Element): Element => ({
  ...each,
  attributes: only(each.attributes, 'w:ilvl', 'w:tplc', 'w:tentative'),
});

const outline = (definition: Element, id: string, newIds: ReadonlyMap<string, string>): Element => {
  const renamed = inSchemaOrder(renamedStyles(definition, newIds));
  return {
    ...renamed,
    attributes: { 'w:abstractNumId': id },
    children: elementsOf(renamed).map((child) => (child.name === 'w:lvl' ? level(child) : child)),
  };
};

const list = (
  definition: Element,
  id: number,
  newOutlines: ReadonlyMap<string, string>,
  newIds: ReadonlyMap<string, string>,
): Element => {
  const renamed = inSchemaOrder(renamedStyles(definition, newIds));
  return {
    ...renamed,
    attributes: { 'w:numId': String(id) },
    children: elementsOf(renamed).map((child) =>
      child.name === 'w:abstractNumId'
        ? element('w:abstractNumId', {
            'w:val': newOutlines.get(child.attributes['w:val'] ?? '') ?? '',
          })
        : child,
    ),
  };
};

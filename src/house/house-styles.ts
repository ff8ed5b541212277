import { inSchemaOrder } from './schema-order.ts';
import { comparableName, isBuiltIn, otherNamesOf } from './style-names.ts';
import { childOf, type Element, element, elementsOf, valueOf, withChildren } from './xml-tree.ts';

/** A style that documents use. */
export interface WantedStyle {
  readonly id: string;
  readonly name: string;
  readonly type: 'paragraph' | 'character' | 'table';
}

/** The styles of a house style under the ids that documents use. */
export interface HouseStyles {
  /** By id, in the order of the file. */
  readonly byId: ReadonlyMap<string, Element>;
  /** Ids in the file to ids in documents. */
  readonly newIds: ReadonlyMap<string, string>;
  readonly defaults: Element | undefined;
  readonly latent: Element | undefined;
  /** Wanted styles that it does not have. */
  readonly missing: readonly WantedStyle[];
}

/** Names of the missing styles that Word has by itself: those that a house style could have. */
export const missingBuiltIn = ({ missing }: Pick<HouseStyles, 'missing'>): readonly string[] =>
  missing.map(({ name }) => name).filter(isBuiltIn);

/**
 * Matches the styles of a file with those that documents use: by name, since the ids differ with the language of the
 * program that made the file; then by their further names; then by the names that other languages have. Styles that only
 * documents of Plinth have, such as "Record Table", are matched with styles that somebody made, not with those that a
 * program brings along under the same name.
 */
export const matchStyles = (part: Element | undefined, wanted: readonly WantedStyle[]): HouseStyles => {
  const all = elementsOf(part, 'w:style').filter((style) => idOf(style) !== '');
  const known = all.map((style) => ({
    style,
    type: typeOf(style),
    name: nameOf(style),
    furtherNames: furtherNames(style),
    isCustom: isCustom(style),
    isDefault: isDefault(style),
  }));
  const matches = new Map<Element, WantedStyle>();
  const found = new Set<string>();
  const match = (want: WantedStyle, fits: (each: (typeof known)[number]) => boolean): void => {
    if (found.has(want.id)) return;
    const first = known.find(
      (each) =>
        each.type === want.type &&
        (isBuiltIn(want.name) || each.isCustom) &&
        fits(each) &&
        !matches.has(each.style),
    );
    if (first === undefined) return;
    matches.set(first.style, want);
    found.add(want.id);
  };
  for (const want of wanted) {
    const wantedName = comparableName(want.name);
    match(want, ({ name }) => name === wantedName);
  }
  for (const want of wanted) {
    const wantedName = comparableName(want.name);
    match(want, (each) => each.furtherNames.includes(wantedName));
  }
  for (const want of wanted) {
    const others = otherNamesOf(want.name);
    match(want, ({ name }) => others.includes(name));
  }
  const normal = wanted.find(({ id }) => id === 'Normal');
  if (normal) match(normal, (each) => each.isDefault);
  return {
    ...renamed(all, matches, wanted),
    defaults: childOf(part, 'w:docDefaults'),
    latent: childOf(part, 'w:latentStyles'),
    missing: wanted.filter(({ id }) => !found.has(id)),
  };
};

const idOf = (style: Element): string => style.attributes['w:styleId'] ?? '';
const typeOf = (style: Element): string => style.attributes['w:type'] ?? 'paragraph';
const nameOf = (style: Element): string => comparableName(valueOf(style, 'w:name') ?? '');
const furtherNames = (style: Element): readonly string[] =>
  (valueOf(style, 'w:aliases') ?? '').split(',').map(comparableName);
const isCustom = ({ attributes }: Element): boolean =>
  /^(?:1|true|on)$/.test(attributes['w:customStyle'] ?? '');
const isDefault = ({ attributes }: Element): boolean => /^(?:1|true|on)$/.test(attributes['w:default'] ?? '');

const renamed = (
  all: readonly Element[],
  matches: ReadonlyMap<Element, WantedStyle>,
  wanted: readonly WantedStyle[],
): Pick<HouseStyles, 'byId' | 'newIds'> => {
  const taken = new Set(wanted.map(({ id }) => id));
  const wantedNames = new Set(wanted.map(({ name }) => comparableName(name)));
  const newIds = new Map<string, string>();
  const kept: { readonly id: string; readonly style: Element }[] = [];
  for (const style of all) {
    const old = idOf(style);
    // Where an id is given twice, the first style holds, as in Word.
    if (newIds.has(old)) continue;
    let id = matches.get(style)?.id ?? old;
    for (let n = 2; !matches.has(style) && taken.has(id); n += 1) id = `${old}_${n}`;
    taken.add(id);
    newIds.set(old, id);
    kept.push({ id, style });
  }
  const defaults = new Set<string>();
  const parents = new Map(
    kept.map(({ id, style }) => [id, newIds.get(valueOf(style, 'w:basedOn') ?? '')] as const),
  );
  const cut = circleEnds(parents);
  const byId = new Map(
    kept.map(({ id, style }) => {
      const want = matches.get(style);
      const type = typeOf(style);
      const mayBeDefault =
        ['Normal', 'TableNormal'].includes(id) ||
        (isDefault(style) && (type === 'character' || type === 'numbering'));
      const standsFor = mayBeDefault && !defaults.has(type);
      if (standsFor) defaults.add(type);
      const name = want?.name ?? valueOf(style, 'w:name') ?? id;
      const attributes = {
        'w:type': type,
        ...(standsFor ? { 'w:default': '1' } : {}),
        ...(isCustom(style) ? { 'w:customStyle': '1' } : {}),
        'w:styleId': id,
      };
      const shownName =
        want === undefined && wantedNames.has(comparableName(name)) ? `${name} (house)` : name;
      const children = style.children.flatMap((child) => {
        if (typeof child === 'string') return [];
        if (child.name === 'w:name') return [element('w:name', { 'w:val': shownName })];
        // Names that stand for a style of ours would make two styles of one name.
        if (child.name === 'w:aliases') return [];
        if (!['w:basedOn', 'w:next', 'w:link'].includes(child.name)) return [child];
        const target = newIds.get(child.attributes['w:val'] ?? '');
        if (target === undefined || (child.name === 'w:basedOn' && cut.has(id))) return [];
        return [element(child.name, { 'w:val': target })];
      });
      const named = childOf(style, 'w:name')
        ? children
        : [element('w:name', { 'w:val': shownName }), ...children];
      return [id, inSchemaOrder(withChildren({ ...style, attributes }, named))] as const;
    }),
  );
  return { byId, newIds };
};

/** Styles whose base leads back to themselves: one of each circle, so that it is cut there. */
const circleEnds = (parents: ReadonlyMap<string, string | undefined>): ReadonlySet<string> => {
  const done = new Set<string>();
  const ends = new Set<string>();
  for (const start of parents.keys()) {
    const path = new Set<string>();
    for (let at: string | undefined = start; at !== undefined && !done.has(at); ) {
      path.add(at);
      const next: string | undefined = parents.get(at);
      if (next !== undefined && path.has(next)) {
        ends.add(at);
        break;
      }
      at = next;
    }
    for (const id of path) done.add(id);
  }
  return ends;
};

/** The first of a style and those that it is based on which has an answer. */
export const inherited = <Answer>(
  styles: ReadonlyMap<string, Element>,
  id: string,
  answer: (style: Element) => Answer | undefined,
): Answer | undefined => {
  // `renamed` has cut circles.
  for (let style = styles.get(id); style !== undefined; ) {
    const found = answer(style);
    if (found !== undefined) return found;
    style = styles.get(valueOf(style, 'w:basedOn') ?? '');
  }
  return undefined;
};

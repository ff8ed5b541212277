import { allOf, childOf, type Element, isOn } from './xml-tree.ts';

/** Paper and margins in twentieths of a point, upright. */
export interface PageSetup {
  readonly width: number;
  readonly height: number;
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
  /** From the edge of the paper to the running head and foot. */
  readonly header: number;
  readonly footer: number;
}

/** Which running head or foot stands on which pages: relationship ids. */
export interface RunningReferences {
  readonly default?: string;
  readonly even?: string;
  /** On the first page of the file. */
  readonly cover?: string;
}

export interface Sections {
  /** Undefined where the file has no page size that text fits on. */
  readonly page: PageSetup | undefined;
  readonly header: RunningReferences;
  readonly footer: RunningReferences;
}

/** Narrower columns of text than 80 mm, or lower ones, are no page for a document with tables. */
const leastText = 4536;

/** Reads paper and margins, and the running heads of the first page and of the pages of the last section. */
export const readSections = (document: Element): Sections => {
  const all = allOf(document, 'w:sectPr');
  const last = all.at(-1);
  return {
    page: last && pageSetup(last),
    header: references(all, 'w:headerReference'),
    footer: references(all, 'w:footerReference'),
  };
};

const references = (sections: readonly Element[], name: string): RunningReferences => {
  const current = new Map<string, string>();
  let cover: string | undefined;
  for (const [index, section] of sections.entries()) {
    // A section without a running head of its own goes on with the one before.
    for (const child of section.children)
      if (typeof child !== 'string' && child.name === name)
        current.set(child.attributes['w:type'] ?? 'default', child.attributes['r:id'] ?? '');
    if (index === 0) cover = current.get(isOn(section, 'w:titlePg') ? 'first' : 'default');
  }
  const usual = current.get('default');
  const even = current.get('even');
  return {
    ...(usual === undefined ? {} : { default: usual }),
    ...(even === undefined ? {} : { even }),
    ...(cover === undefined ? {} : { cover }),
  };
};

const pageSetup = (section: Element): PageSetup | undefined => {
  const size = childOf(section, 'w:pgSz')?.attributes ?? {};
  const margins = childOf(section, 'w:pgMar')?.attributes ?? {};
  const length = (value: string | undefined): number => Math.abs(Math.round(Number(value)));
  const [a, b] = [length(size['w:w']), length(size['w:h'])];
  const gutter = length(margins['w:gutter'] ?? '0');
  const page: PageSetup = {
    width: Math.min(a, b),
    height: Math.max(a, b),
    top: length(margins['w:top']),
    bottom: length(margins['w:bottom']),
    left: length(margins['w:left']) + gutter,
    right: length(margins['w:right']),
    header: length(margins['w:header'] ?? '708'),
    footer: length(margins['w:footer'] ?? '708'),
  };
  const isUsable =
    Object.values(page).every(Number.isFinite) &&
    page.height <= 31680 &&
    page.width - page.left - page.right >= leastText &&
    page.width - page.top - page.bottom >= leastText;
  return isUsable ? page : undefined;
};

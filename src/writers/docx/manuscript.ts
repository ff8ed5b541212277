import { replaceUnprintable } from '../../document/clean-text.ts';
import type { Document } from '../../document/model.ts';
import { type Counters, createCounters, findTargets, type Targets } from '../../document/numbering.ts';
import { headingLabel } from '../../house/heading-label.ts';
import type { HouseStyle } from '../../house/house-style.ts';
import { houseColours } from './house-colours.ts';
import { type Colours, housePages, type Pages } from './look.ts';
import { escapeXml } from './xml.ts';

/** A file that a part of the package points to. */
export interface Relationship {
  readonly id: string;
  readonly type: string;
  readonly target: string;
  readonly external: boolean;
}

/** An entry of a contents list. */
export interface ContentsEntry {
  readonly level: number;
  readonly number: string;
  readonly text: string;
  readonly bookmark: string;
}

/** The parts that hold text and have relationships of their own. */
type Story = 'document' | 'footnotes';

/** Draws a picture of an SVG for programs that can't: PNG bytes. */
export type Rasterise = (svg: string, widthPx: number, heightPx: number) => Uint8Array;

/** What one run of the writer knows and gathers. Lives for one document only. */
export interface Manuscript {
  readonly document: Document;
  readonly targets: Targets;
  readonly counters: Counters;
  readonly rasterise: Rasterise | undefined;
  readonly house: HouseStyle | undefined;
  readonly paper: Pages;
  readonly colours: Colours;
  /** Page by bookmark, where known. */
  readonly pages: ReadonlyMap<string, string>;
  readonly relationships: Readonly<Record<Story, Relationship[]>>;
  /** Binary parts by their path in the package. */
  readonly media: Map<string, Uint8Array>;
  readonly headings: ContentsEntry[];
  readonly tables: ContentsEntry[];
  readonly figures: ContentsEntry[];
  /** First number and kind of each list, in order; the list's number in the file is its index plus `firstListNumber`. */
  readonly lists: ListStart[];
  readonly givenBookmarks: Set<string>;
  story: Story;
  lastBookmarkId: number;
  unprintable: number;
  /** The record whose heading came last and whose text still runs. */
  openRecord: { readonly bookmarkId: number; readonly level: number } | undefined;
}

export type ListStart =
  | { readonly kind: 'bullet' | 'checked' | 'unchecked' }
  | { readonly kind: 'decimal'; readonly start: number };

/** A manuscript for one pass over the document. */
export function createManuscript(
  document: Document,
  options: {
    readonly pages: ReadonlyMap<string, string>;
    readonly rasterise: Rasterise | undefined;
    readonly house: HouseStyle | undefined;
  },
): Manuscript {
  return {
    document,
    targets: findTargets(document),
    counters: createCounters(),
    rasterise: options.rasterise,
    house: options.house,
    paper: housePages(options.house),
    colours: houseColours(options.house),
    pages: options.pages,
    relationships: { document: [], footnotes: [] },
    media: new Map(),
    headings: [],
    tables: [],
    figures: [],
    lists: [],
    givenBookmarks: new Set(),
    story: 'document',
    lastBookmarkId: 0,
    unprintable: 0,
    openRecord: undefined,
  };
}

/** Text ready for XML; characters that XML can't hold are replaced and counted. */
export function cleanXml(manuscript: Manuscript, text: string): string {
  const clean = replaceUnprintable(text);
  manuscript.unprintable += clean.replaced;
  return escapeXml(clean.text);
}

/** Adds a relationship to the story at hand, once for each target, and gives its id. */
export function relate(
  manuscript: Manuscript,
  relationship: {
    readonly type: string;
    readonly target: string;
    readonly external: boolean;
  },
): string {
  const all = manuscript.relationships[manuscript.story];
  const known = all.find((each) => each.target === relationship.target && each.type === relationship.type);
  if (known !== undefined) return known.id;
  // Ids of the fixed parts are rId1 and so on; these never meet them.
  const id = `rLink${all.length + 1}`;
  all.push({ id, ...relationship });
  return id;
}

/**
 * Opens a bookmark, unless one of this name was set before: the first holds.
 *
 * @returns start and end marks to put around the content, empty where the name is taken
 */
export function bookmark(
  manuscript: Manuscript,
  name: string,
): { readonly start: string; readonly end: string; readonly id: number } {
  if (manuscript.givenBookmarks.has(name)) return { start: '', end: '', id: 0 };
  manuscript.givenBookmarks.add(name);
  manuscript.lastBookmarkId += 1;
  const id = manuscript.lastBookmarkId;
  return {
    id,
    start: `<w:bookmarkStart w:id="${id}" w:name="${name}"/>`,
    end: `<w:bookmarkEnd w:id="${id}"/>`,
  };
}

/** The number of a heading as it is printed before it: that of the house style, where there is one. */
export const shownNumber = (number: string, { house }: Manuscript): string =>
  house?.numbersHeadings ? headingLabel(number.split('.').map(Number), house.headings) : number;

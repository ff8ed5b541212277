import { XmlFault } from '../returned/xml-events.ts';
import { type HeadingNumbering, readNumbering, withPart } from './house-numbering.ts';
import { type HousePackage, type HouseRelationship, openHousePackage } from './house-package.ts';
import {
  type HouseStyles,
  inherited,
  matchStyles,
  missingBuiltIn,
  type WantedStyle,
} from './house-styles.ts';
import { type PageSetup, type RunningReferences, readSections } from './page-setup.ts';
import { type Dropped, readStory, type Story } from './running-story.ts';
import { inSchemaOrder, withProperty } from './schema-order.ts';
import {
  allOf,
  childOf,
  type Element,
  element,
  elementsOf,
  isOn,
  type Node,
  valueOf,
  withChildren,
  writeTree,
} from './xml-tree.ts';

export type { HeadingNumbering } from './house-numbering.ts';
export type { WantedStyle } from './house-styles.ts';
export type { PageSetup } from './page-setup.ts';
export type { Dropped, Story } from './running-story.ts';

/** A tab stop of a style, in twentieths of a point. */
export interface TabStop {
  readonly position: number;
  readonly kind: string;
}

/** Running heads or feet. `landscape` has its tabs and tables as wide as the lying page. */
export interface RunningStories {
  readonly cover?: Story;
  readonly portrait?: Story;
  readonly landscape?: Story;
  readonly evenPortrait?: Story;
  readonly evenLandscape?: Story;
}

/** What a maker's Word file gives to documents. All XML is of our own writing: nothing in it is taken over unread. */
export interface HouseStyle {
  /** XML of the element w:docDefaults, without its language; undefined where the file has none. */
  readonly defaults: { readonly paragraph: string; readonly run: string } | undefined;
  readonly latent: string;
  /** XML of each style. */
  readonly styles: readonly string[];
  /** Ids of the styles, those of documents among them. */
  readonly styleIds: ReadonlySet<string>;
  readonly outlines: string;
  readonly lists: string;
  /** How many lists there are: documents number theirs from there on. */
  readonly listCount: number;
  /** By level from 1. */
  readonly headings: readonly (HeadingNumbering | undefined)[];
  /** Whether its headings have numbers; where not, documents give them their own. */
  readonly numbersHeadings: boolean;
  readonly theme: string | undefined;
  readonly colourMap: string;
  readonly page: PageSetup | undefined;
  readonly header: RunningStories;
  readonly footer: RunningStories;
  readonly evenAndOdd: boolean;
  /** Pictures by their path in the file. */
  readonly pictures: ReadonlyMap<string, Uint8Array>;
  /** Colours RRGGBB, or `auto`, of headings and links. */
  readonly headingColour: string | undefined;
  readonly linkColour: string | undefined;
  /** Name of the font of plain text, where the file names one. */
  readonly textFont: string | undefined;
  /** Tab stops of the styles of running lines and lists of contents, by id. */
  readonly tabs: ReadonlyMap<string, readonly TabStop[]>;
  /** Left indents of styles, by id. */
  readonly indents: ReadonlyMap<string, number>;
  /** Names of Word's own styles that it lacks. */
  readonly missing: readonly string[];
  readonly dropped: readonly Dropped[];
}

export type HouseStyleOutcome =
  | { readonly ok: true; readonly style: HouseStyle }
  | { readonly ok: false; readonly reason: string; readonly hint: string };

/** Styles whose tab stops the lines of a document must know. */
const withTabs = ['Header', 'Footer', 'TOC1', 'TOC2', 'TOC3', 'TableofFigures'] as const;

/**
 * Reads a .docx or .dotx file as a house style.
 *
 * @param bytes the file, which is not trusted
 * @param wanted the styles that documents use
 * @returns the reason where it cannot be one
 */
export const readHouseStyle = (bytes: Uint8Array, wanted: readonly WantedStyle[]): HouseStyleOutcome => {
  try {
    const opened = openHousePackage(bytes);
    return opened.ok ? { ok: true, style: read(opened.package, wanted) } : opened;
  } catch (error) {
    if (!(error instanceof XmlFault)) throw error;
    return {
      ok: false,
      reason: `one of its parts cannot be read: ${error.message.split('\n')[0]}`,
      hint: 'Open it in a word processor and save it again as .docx, in the usual form and not as "Strict Open XML".',
    };
  }
};

const read = (file: HousePackage, wanted: readonly WantedStyle[]): HouseStyle => {
  const relationships = file.relationshipsOf(file.main);
  const partOf = (type: string): string | undefined =>
    [...relationships.values()].find((each) => each.type === type && !each.external)?.target;
  const tree = (type: string): Element | undefined => {
    const path = partOf(type);
    return path === undefined ? undefined : file.tree(path);
  };
  const dropped: Dropped[] = [];
  const drop = (each: Dropped): void => {
    if (!dropped.some((other) => other.what === each.what && other.reason === each.reason))
      dropped.push(each);
  };
  for (const { type, external } of relationships.values())
    if (external && type === 'attachedTemplate')
      drop({ what: 'the attached template', reason: 'it lies outside of the file' });
  const found = matchStyles(tree('styles'), wanted);
  const numbering = readNumbering(tree('numbering'), found);
  const numbersHeadings = numbering.headings.some((each) => each !== undefined);
  const styles = new Map(
    [...numbering.styles].map(([id, style]) => {
      const level = /^Heading([1-6])$/.exec(id)?.[1];
      return [
        id,
        level === undefined
          ? style
          : asHeading(style, Number(level) - 1, numbersHeadings ? undefined : numbering.lists.length + 1),
      ] as const;
    }),
  );
  const document = file.tree(file.main) as Element;
  const sections = readSections(document);
  if (sections.page === undefined && allOf(document, 'w:pgSz').length > 0)
    drop({ what: 'its page size', reason: 'it leaves too little room for text' });
  const settings = tree('settings');
  const evenAndOdd = isOn(settings, 'w:evenAndOddHeaders');
  const pictures = new Map<string, Uint8Array>();
  const stories = createStories(file, { relationships, found, styles, page: sections.page, pictures, drop });
  const theme = tree('theme');
  const colour = (id: string): string | undefined => {
    const value = inherited(styles, id, (style) => valueOf(style, 'w:rPr', 'w:color'));
    if (value !== undefined && /^[0-9A-Fa-f]{6}$/.test(value)) return value.toUpperCase();
    return styles.has(id) && (value === undefined || value === 'auto') ? 'auto' : undefined;
  };
  return {
    defaults: defaultsOf(found),
    latent: found.latent ? writeTree(found.latent) : '',
    styles: [...styles.values()].map(writeTree),
    styleIds: new Set(styles.keys()),
    outlines: numbering.outlines.map(writeTree).join(''),
    lists: numbering.lists.map(writeTree).join(''),
    listCount: numbering.lists.length,
    headings: numbering.headings,
    numbersHeadings,
    theme: theme && writeTheme(theme, drop),
    colourMap: colourMapOf(settings),
    page: sections.page,
    header: stories(sections.header, evenAndOdd),
    footer: stories(sections.footer, evenAndOdd),
    evenAndOdd,
    pictures,
    headingColour: colour('Heading1'),
    linkColour: colour('Hyperlink'),
    textFont: textFontOf(styles, found, theme),
    tabs: new Map(withTabs.filter((id) => styles.has(id)).map((id) => [id, tabsOf(styles, id)])),
    indents: new Map(withTabs.filter((id) => styles.has(id)).map((id) => [id, indentOf(styles, id)])),
    missing: missingBuiltIn(found),
    dropped,
  };
};

/** A heading's style, which shows in the outline, and has a number where the house style gives none. */
const asHeading = (style: Element, level: number, ownList: number | undefined): Element => {
  const given = childOf(style, 'w:pPr') ?? element('w:pPr');
  const outlined = withProperty(given, element('w:outlineLvl', { 'w:val': String(level) }));
  const numbered =
    ownList === undefined
      ? outlined
      : withProperty(
          outlined,
          element('w:numPr', {}, [
            element('w:ilvl', { 'w:val': String(level) }),
            element('w:numId', { 'w:val': String(ownList) }),
          ]),
        );
  return withPart(style, numbered);
};

const defaultsOf = ({ defaults }: HouseStyles): HouseStyle['defaults'] => {
  if (!defaults) return undefined;
  const inner = (...path: readonly string[]): string => {
    const found = childOf(defaults, ...path);
    return found ? inSchemaOrder(found).children.map(writeTree).join('') : '';
  };
  return { paragraph: inner('w:pPrDefault', 'w:pPr'), run: inner('w:rPrDefault', 'w:rPr') };
};

const textFontOf = (
  styles: ReadonlyMap<string, Element>,
  { defaults }: HouseStyles,
  theme: Element | undefined,
): string | undefined => {
  const fonts =
    inherited(styles, 'Normal', (style) => childOf(style, 'w:rPr', 'w:rFonts')) ??
    childOf(defaults, 'w:rPrDefault', 'w:rPr', 'w:rFonts');
  const themed = fonts?.attributes['w:asciiTheme'];
  if (themed === undefined) return fonts?.attributes['w:ascii'];
  const kind = themed.startsWith('major') ? 'a:majorFont' : 'a:minorFont';
  const scheme = childOf(theme, 'a:themeElements', 'a:fontScheme', kind, 'a:latin');
  return scheme?.attributes['typeface'];
};

const tabsOf = (styles: ReadonlyMap<string, Element>, id: string): readonly TabStop[] =>
  elementsOf(
    inherited(styles, id, (style) => childOf(style, 'w:pPr', 'w:tabs')),
    'w:tab',
  ).map(({ attributes }) => ({
    position: Math.round(Number(attributes['w:pos'])) || 0,
    kind: attributes['w:val'] ?? 'left',
  }));

const indentOf = (styles: ReadonlyMap<string, Element>, id: string): number => {
  const found = inherited(styles, id, (style) => {
    const { attributes } = childOf(style, 'w:pPr', 'w:ind') ?? element('w:ind');
    return attributes['w:left'] ?? attributes['w:start'];
  });
  return Math.round(Number(found ?? 0)) || 0;
};

/** Which colours of the theme stand for text and background. Word's usual ones where the file says nothing. */
const colourMapOf = (settings: Element | undefined): string => {
  const found = childOf(settings, 'w:clrSchemeMapping');
  return found ? writeTree(withChildren(found, [])) : '';
};

/** The theme, without pictures: those of its backgrounds are for slides. */
const writeTheme = (theme: Element, drop: (dropped: Dropped) => void): string => {
  if (allOf(theme, 'a:blip').length > 0)
    drop({ what: 'a picture of the theme', reason: 'documents have no use for backgrounds of slides' });
  const without = (at: Element): Element =>
    withChildren(
      at,
      at.children.flatMap((child): readonly Node[] => {
        if (typeof child === 'string') return [child];
        if (child.name === 'a:extLst') return [];
        return child.name === 'a:blipFill' ? [element('a:noFill')] : [without(child)];
      }),
    );
  return writeTree(without(theme));
};

const createStories = (
  file: HousePackage,
  options: {
    readonly relationships: ReadonlyMap<string, HouseRelationship>;
    readonly found: HouseStyles;
    readonly styles: ReadonlyMap<string, Element>;
    readonly page: PageSetup | undefined;
    readonly pictures: Map<string, Uint8Array>;
    readonly drop: (dropped: Dropped) => void;
  },
) => {
  const { relationships, found, styles, page, pictures, drop } = options;
  const stretch = page ? (page.height - page.left - page.right) / (page.width - page.left - page.right) : 1;
  const story = (id: string | undefined, factor: number): Story | undefined => {
    const target = id === undefined ? undefined : relationships.get(id);
    const part = target && !target.external ? file.tree(target.target) : undefined;
    if (!target || !part) return undefined;
    const read = readStory(part, {
      relationships: file.relationshipsOf(target.target),
      newIds: found.newIds,
      styles,
      stretch: factor,
      holds: (path) => file.bytes(path) !== undefined,
      drop,
    });
    for (const path of read.pictures.values()) pictures.set(path, file.bytes(path) as Uint8Array);
    return read;
  };
  return (references: RunningReferences, evenAndOdd: boolean): RunningStories => {
    const all = {
      cover: story(references.cover, 1),
      portrait: story(references.default, 1),
      landscape: story(references.default, stretch),
      evenPortrait: evenAndOdd ? story(references.even, 1) : undefined,
      evenLandscape: evenAndOdd ? story(references.even, stretch) : undefined,
    };
    return Object.fromEntries(Object.entries(all).filter(([, each]) => each !== undefined));
  };
};

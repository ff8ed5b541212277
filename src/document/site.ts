import type { Block, Document, Inline, Tone } from './model.ts';

/**
 * The model of the browsable copy: pages and what stands on them, independent of HTML. It knows nothing of records but
 * their ids; the pages of the site are made by `src/pages`, and written by `src/writers/site`.
 */
export interface Site {
  /** Name of the device. */
  readonly title: string;
  /** Code of the device, where it has one. */
  readonly code?: string;
  readonly organisation: string;
  /** BCP 47, for example en-GB. */
  readonly language: string;
  /** ISO date that everything is stated for. */
  readonly asOf: string;
  /** At the foot of every page. */
  readonly caution: string;
  /** Where the copy came from: tool version, revision, digest. At the foot of every page. */
  readonly origin: readonly { readonly name: string; readonly value: string }[];
  readonly navigation: readonly NavigationGroup[];
  readonly recordTitles: ReadonlyMap<string, string>;
  /** Paths of record pages by id. */
  readonly recordPaths: ReadonlyMap<string, string>;
  /** Paths of document pages by the names of their deliverables, without ending. */
  readonly deliverablePaths: ReadonlyMap<string, string>;
  /** Files of the technical file by the paths of the pages that were made from one. */
  readonly sources: ReadonlyMap<string, string>;
  /** What is shown in place of a page that there is not. */
  readonly missing: (path: string) => SitePage;
  /** Made one after the other, so that a large file need not be held in memory whole. */
  readonly pages: () => Iterable<SitePage>;
  /** Files that are handed on byte for byte. */
  readonly files: () => Iterable<{ readonly path: string; readonly bytes: Uint8Array }>;
  readonly search: () => Iterable<SearchEntry>;
}

export interface NavigationGroup {
  readonly title?: string;
  readonly entries: readonly NavigationEntry[];
}

export interface NavigationEntry {
  readonly title: string;
  readonly path: string;
  readonly count?: number;
}

/** Something that the search of the copy finds. */
export interface SearchEntry {
  readonly path: string;
  /** Id of a record, code of a finding; empty where there is none. */
  readonly id: string;
  readonly title: string;
  /** What it is, in words: `Design input`. */
  readonly kind: string;
  /** Standing or status, as a word. */
  readonly state: string;
  /** Running text that is searched too. */
  readonly text: string;
}

export interface SitePage {
  /** Relative to the site's folder, with `/`. */
  readonly path: string;
  readonly title: string;
  /** A line above the title that says what this is. */
  readonly above?: readonly SiteInline[];
  /** Short words below the title: status, standing. */
  readonly marks?: readonly (readonly SiteInline[])[];
  /** Path of the entry of the navigation under which the page belongs. */
  readonly under: string;
  /** Pages before and after this one, in the order of reading. */
  readonly before?: { readonly path: string; readonly title: string };
  readonly after?: { readonly path: string; readonly title: string };
  /** A sentence to quote the page by. */
  readonly citation?: string;
  readonly parts: readonly SitePart[];
  /** Footnotes of the blocks on the page. */
  readonly footnotes?: readonly (readonly Block[])[];
}

/** A link to another page of the copy. */
export interface PageLink {
  readonly kind: 'page-link';
  /** Relative to the site's folder; may end in `#place`. */
  readonly path: string;
  readonly children: readonly Inline[];
}

/** Where a thing stands, or a verdict: a word with a shape of its own before it. */
export interface StateMark {
  readonly kind: 'state-mark';
  readonly state: string;
}

export type SiteInline = Inline | PageLink | StateMark;

export interface Section {
  readonly kind: 'section';
  /** Anchor on the page. */
  readonly id: string;
  readonly title: string;
  readonly parts: readonly SitePart[];
}

/** Blocks of the document model. */
export interface Blocks {
  readonly kind: 'blocks';
  readonly blocks: readonly Block[];
}

/** Running words that may hold links to other pages. */
export interface Words {
  readonly kind: 'words';
  readonly children: readonly SiteInline[];
  readonly look?: 'lead' | 'quiet';
}

export interface SiteNotice {
  readonly kind: 'site-notice';
  readonly tone: Tone;
  readonly lines: readonly (readonly SiteInline[])[];
}

/** Names and values. */
export interface Facts {
  readonly kind: 'facts';
  readonly entries: readonly { readonly name: string; readonly value: readonly SiteInline[] }[];
}

export interface GridColumn {
  readonly title: string;
  /** Names the column in addresses of views, where the title would not do. */
  readonly key?: string;
  /** Share of the width. */
  readonly width: number;
  readonly align?: 'right';
  /** Readers choose among the values of the column. */
  readonly isChoice?: true;
  /** Not shown until the reader asks for it. */
  readonly isHidden?: true;
  /** Left out on narrow screens until the reader asks for it. */
  readonly isSpare?: true;
  /** Words that say the same as in the row above are set back. */
  readonly groups?: true;
}

export interface GridRow {
  readonly cells: readonly (readonly SiteInline[])[];
  /** Anchor on the page. */
  readonly anchor?: string;
}

/** A table that readers filter, sort, choose columns of and take away as CSV. */
export interface Grid {
  readonly kind: 'grid';
  /** Unique in the site: names the file of its data and of its CSV form. */
  readonly id: string;
  readonly caption: string;
  readonly columns: readonly GridColumn[];
  readonly rows: readonly GridRow[];
  /** What stands there where no row is. */
  readonly whenEmpty: string;
  /** A table that is short or secondary needs no tools. */
  readonly isPlain?: true;
}

/** How many records of each kind stand how; each bar leads to them. */
export interface StandingSummary {
  readonly kind: 'standing-summary';
  readonly caption: string;
  readonly rows: readonly {
    readonly title: string;
    readonly path: string;
    readonly counts: readonly { readonly state: string; readonly count: number; readonly path: string }[];
  }[];
}

/** Numbers that say at a glance how things are. */
export interface Tiles {
  readonly kind: 'tiles';
  readonly tiles: readonly {
    readonly value: string;
    readonly label: string;
    readonly detail?: string;
    readonly path: string;
    readonly tone: Tone;
  }[];
}

/** Risks in cells of severity and probability; a cell leads to what lies in it. */
export interface RiskMap {
  readonly kind: 'risk-map';
  readonly severities: readonly { readonly name: string; readonly meaning: string }[];
  /** The highest first. */
  readonly bands: readonly { readonly name: string; readonly meaning: string }[];
  readonly panels: readonly {
    readonly id: string;
    readonly title: string;
    /** For each band, for each severity. */
    readonly cells: readonly (readonly RiskCell[])[];
  }[];
}

export interface RiskCell {
  readonly anchor: string;
  readonly isAcceptable: boolean;
  readonly ids: readonly string[];
}

/** A record with the records around it, in columns from what it answers to, to what answers it. */
export interface Neighbourhood {
  readonly kind: 'neighbourhood';
  readonly alternative: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly nodeWidth: number;
  readonly nodeHeight: number;
  readonly nodes: readonly {
    readonly id: string;
    /** Undefined where the node stands for several records that have no room. */
    readonly path?: string;
    readonly label: string;
    readonly title: string;
    readonly state?: string;
    readonly x: number;
    readonly y: number;
    readonly isCentre?: true;
  }[];
  readonly edges: readonly {
    readonly from: { readonly x: number; readonly y: number };
    readonly to: { readonly x: number; readonly y: number };
  }[];
}

/** Files to take away. */
export interface Downloads {
  readonly kind: 'downloads';
  readonly files: readonly { readonly path: string; readonly label: string; readonly detail: string }[];
}

/** A whole document, with the same text as its Word form. */
export interface WholeDocument {
  readonly kind: 'document';
  readonly document: Document;
}

export type SitePart =
  | Section
  | Blocks
  | Words
  | SiteNotice
  | Facts
  | Grid
  | StandingSummary
  | Tiles
  | RiskMap
  | Neighbourhood
  | Downloads
  | WholeDocument;

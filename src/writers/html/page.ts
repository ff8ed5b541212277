import type { Document } from '../../document/model.ts';
import { type Counters, createCounters, findTargets, type Targets } from '../../document/numbering.ts';

/** A heading as the contents list shows it. */
interface PageHeading {
  readonly level: number;
  readonly number: string;
  readonly html: string;
  readonly id: string;
}

/** What a page of the browsable copy has around it: other pages and files to point to, and a style sheet of its own. */
export interface Surroundings {
  /** Where the page of a record lies; undefined where it has none. */
  readonly recordHref: (id: string) => string | undefined;
  /** The page that stands for a deliverable, by the path that the document names; undefined where there is none. */
  readonly fileHref: (path: string) => string | undefined;
  /** Puts a drawing into a file beside the page, and says where. */
  readonly figureHref: (svg: string) => string;
  /** Headings, tables and figures of a document are numbered, those of other pages are not. */
  readonly isNumbered: boolean;
}

/** What one run of the writer knows and gathers. Lives for one document only. */
export interface Page {
  /** Absent for a page that stands alone. */
  readonly around?: Surroundings;
  readonly document: Document;
  readonly targets: Targets;
  readonly counters: Counters;
  readonly headings: PageHeading[];
  readonly givenIds: Set<string>;
}

/** A page for one pass over the document. */
export function createPage(document: Document, around?: Surroundings): Page {
  return {
    ...(around ? { around } : {}),
    document,
    targets: findTargets(document),
    counters: createCounters(),
    headings: [],
    givenIds: new Set(),
  };
}

/** Empty elements that carry the ids, each given once: the first place holds. */
export function idMarks(ids: readonly (string | undefined)[], page: Page): string {
  return ids
    .map((id) => {
      if (id === undefined || page.givenIds.has(id)) return '';
      page.givenIds.add(id);
      return `<span id="${id}" class="mark"></span>`;
    })
    .join('');
}

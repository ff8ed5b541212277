import type { Document } from '../../document/model.ts';
import { type Counters, createCounters, findTargets, type Targets } from '../../document/numbering.ts';

/** A heading as the contents list shows it. */
interface PageHeading {
  readonly level: number;
  readonly number: string;
  readonly html: string;
  readonly id: string;
}

/** What one run of the writer knows and gathers. Lives for one document only. */
export interface Page {
  readonly document: Document;
  readonly targets: Targets;
  readonly counters: Counters;
  readonly headings: PageHeading[];
  readonly givenIds: Set<string>;
}

/** A page for one pass over the document. */
export function createPage(document: Document): Page {
  return {
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

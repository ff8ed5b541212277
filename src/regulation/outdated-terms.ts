import data from './outdated-terms.json' with { type: 'json' };

/** A term that law or a standard has replaced. */
export interface OutdatedTerm {
  readonly term: string;
  /** ISO date from which the new term holds. */
  readonly since: string;
  readonly instead: string;
  /** Key of `termProvenance`. */
  readonly provenance: string;
  /** Written in capitals as given: an abbreviation or a name. */
  readonly exact?: boolean;
  /** Also with an s. */
  readonly plural?: boolean;
}

/** An outdated term in a text. */
export interface OutdatedMention {
  readonly term: OutdatedTerm;
  readonly text: string;
  readonly offset: number;
}

export const outdatedTerms: readonly OutdatedTerm[] = data.terms;

/** How each term is known, in words. */
export const termProvenance: Readonly<Record<string, string>> = data.meta.provenance;

/** The earliest day from which a term of the list is outdated. */
export const firstTermOutdated: string = outdatedTerms.map((term) => term.since).sort()[0] ?? '';

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');

const patterns = outdatedTerms.map((term) => ({
  term,
  pattern: new RegExp(
    `(?<![A-Za-z0-9-])${term.term.split(' ').map(escaped).join('[ \\u00a0\\n]{1,3}')}${term.plural ? 's?' : ''}(?![A-Za-z0-9-])`,
    term.exact ? 'g' : 'gi',
  ),
}));

/** One look that passes over the texts with no term at all, which are nearly all. */
const anyTerm = new RegExp(
  outdatedTerms.map(({ term }) => term.split(' ').map(escaped).join('[ \\u00a0\\n]{1,3}')).join('|'),
  'i',
);

/** Words before a term by which a text tells of the past: "formerly the design history file". */
const tellsOfThePast =
  /(?:formerly|previously|earlier|once called|known as|replaces|replaced|in place of|instead of)[^.;]{0,30}$/i;

/** Terms in a text that are outdated on a day. A passage that says that the term is of the past may use it. */
export const outdatedMentions = (text: string, day: string): readonly OutdatedMention[] =>
  (anyTerm.test(text) ? patterns : [])
    .filter(({ term }) => term.since <= day)
    .flatMap(({ term, pattern }) =>
      [...text.matchAll(pattern)]
        .filter((match) => !tellsOfThePast.test(text.slice(Math.max(0, match.index - 60), match.index)))
        .map((match) => ({ term, text: match[0].replace(/\s+/g, ' '), offset: match.index })),
    );

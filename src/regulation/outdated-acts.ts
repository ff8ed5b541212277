import table from './outdated-acts.json' with { type: 'json' };

/** A mention of an act or guidance that no longer holds. */
export interface OutdatedActMention {
  /** For example `Directive 93/42/EEC`. */
  readonly name: string;
  /** ISO date from which it no longer holds. */
  readonly since: string;
  /** What happened to it: `was repealed by …`. */
  readonly what: string;
  readonly instead: string;
  readonly offset: number;
  readonly length: number;
}

const acts = table.rows.map((row) => ({
  ...row,
  pattern: new RegExp(
    `(?<![A-Za-z0-9/])(?:${row.forms.map((form) => form.replace(/ /g, '\\s')).join('|')})(?![A-Za-z0-9/])`,
    'g',
  ),
}));

/** The first day from which any of the acts no longer holds. */
export const actsOutdatedSince: string = table.rows.map(({ since }) => since).sort()[0] ?? '';

/** Words by which a sentence tells of the past, or says that the former text is used knowingly. */
const past =
  /\b(?:repealed|replaced|replaces|superseded|supersedes|formerly|former|previously|previous|until|withdrawn|legacy|no longer|(?:was|were|had been) (?:certified|approved|cleared|placed|marketed|CE[- ]marked|in force)|Article 1[12]0|Article 112|Article 122)\b/i;

/** The sentence around a mention: a full stop ends it where a blank and a capital letter follow, and so does an empty line. */
const sentenceAround = (text: string, offset: number): string => {
  const ends = /[.!?]\s+(?=[A-Z])|\n[ \t]*\n/g;
  let start = 0;
  for (const match of text.matchAll(ends)) {
    const end = match.index + match[0].length;
    if (end > offset) return text.slice(start, match.index);
    start = end;
  }
  return text.slice(start);
};

/** Mentions in a text, without those in a sentence that tells of the past. `day` is the one that the text speaks of. */
export const outdatedActs = (text: string, day: string): readonly OutdatedActMention[] =>
  acts
    .filter(({ since }) => day >= since)
    .flatMap(({ name, since, what, instead, pattern }) =>
      [...text.matchAll(pattern)]
        .filter((match) => !past.test(sentenceAround(text, match.index)))
        .map((match) => ({ name, since, what, instead, offset: match.index, length: match[0].length })),
    );

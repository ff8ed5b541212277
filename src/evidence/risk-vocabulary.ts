import { nearestName } from '../records/nearest-name.ts';
import type { RecordOf } from '../records/record.ts';

type Vocabulary = NonNullable<RecordOf<'risk-plan'>['fields']['vocabulary']>;

/** A term without what does not tell it from another: capitals and the width of spaces. */
export const plainTerm = (text: string): string => text.toLowerCase().replace(/\s+/g, ' ').trim();

/** The entry of a vocabulary for a word of a risk. */
export const termOf = <Term extends { readonly term: string }>(
  terms: readonly Term[] | undefined,
  word: string,
): Term | undefined => terms?.find((each) => plainTerm(each.term) === plainTerm(word));

/** How to mend a word that the vocabulary lacks: the nearest term, else all of them. */
export const termHint = (terms: readonly { readonly term: string }[], word: string): string => {
  const near = nearestName(
    word,
    terms.map((each) => each.term),
  );
  return near
    ? `Did you mean "${near}"? Otherwise add the term to the plan.`
    : `Use one of: ${terms.map((each) => each.term).join(', ')}; or add the term to the plan.`;
};

/** Severity class that the vocabulary gives to a harm. */
export const severityOfHarm = (vocabulary: Vocabulary | undefined, harm: string): string | undefined =>
  termOf(vocabulary?.harms, harm)?.severity;

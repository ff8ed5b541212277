import { nearCopiesIn } from './near-copies.ts';
import { holdsWording, plainWords } from './plain-words.ts';
import { proseOnly, sectionsOf } from './prose.ts';
import type { TechnicalRecord } from './record.ts';

/** A passage that a text gives as the intended purpose. */
export interface PurposePassage {
  readonly offset: number;
  readonly length: number;
  readonly text: string;
}

const introduction = /\bintended purpose[*_"]{0,3}\s?:[*_]{0,3}[\s>]{0,8}/gi;

const ofAnotherDevice =
  /\b(?:comparable|competitor|competing|equivalent|legacy|marketed|other|predecessor|predicate|reference|similar)\b/i;

/** What follows is a reference, a mark or an answer rather than a purpose. */
const isReference =
  /^(?:see|as|stated|given|taken|unchanged|the same|same|section|chapter|page|identical|equal|not|yes|no|none|n\/a|to be|[:[<|`{#-]|\p{Lu}{1,5}-\d)/iu;

/** Passages that a text introduces as the intended purpose. */
const introduced = (text: string): readonly PurposePassage[] =>
  [...text.matchAll(introduction)].flatMap((match): readonly PurposePassage[] => {
    const offset = match.index + match[0].length;
    const [rest = ''] = text.slice(offset, offset + 600).split(/\n\s{0,5}\n/);
    const before = text.slice(Math.max(0, match.index - 300), match.index);
    const [sentence = ''] = rest.split(/(?<=[.!?])\s/);
    return isReference.test(rest.trim()) ||
      ofAnotherDevice.test(before.slice(before.lastIndexOf('\n\n') + 1)) ||
      sentence.trim().split(/\s+/).length < 4
      ? []
      : [{ offset, length: sentence.trimEnd().length, text: rest }];
  });

/** Sections under the heading "Intended purpose" that begin by saying what the device is for. */
const underHeading = (body: string): readonly PurposePassage[] =>
  sectionsOf(body).flatMap(({ heading, text, offset }): readonly PurposePassage[] => {
    const first = text.trim().replace(/^>\s?/, '');
    if (!/^(?:\d[\d.]{0,10}\s)?intended purpose$/i.test(heading)) return [];
    if (
      !/^(?:for\s\p{L}{2,20}ing\b|to\s\p{L}{3,20})|^[^.\n]{0,80}\b(?:intended|meant)\s(?:for|to)\b/iu.test(
        first,
      )
    )
      return [];
    const [sentence = ''] = first.split(/(?<=[.!?])\s/);
    const at = body.indexOf(sentence, offset);
    return [{ offset: Math.max(at, offset), length: sentence.length, text }];
  });

const isPurpose = (text: string, purpose: string): boolean => {
  const plain = plainWords(text);
  // A few words may lead up to it: "The device is meant to hold and deliver ...".
  return (
    /^[^:]{0,80}:phrase\[\s{0,5}intended_purpose/.test(text.trim()) ||
    holdsWording(plain.slice(0, plainWords(purpose).length + 60), purpose) ||
    nearCopiesIn(purpose)(text).length > 0
  );
};

/** Passages after the words "Intended purpose:" that are not the wording; those that are nearly it are told elsewhere. */
export const otherPurposesIn = (text: string, purpose: string): readonly PurposePassage[] =>
  introduced(text).filter((passage) => !isPurpose(passage.text, purpose));

/** The same in a body, and in documents also below the heading "Intended purpose". */
export const otherPurposesOf = (record: TechnicalRecord, purpose: string): readonly PurposePassage[] => [
  ...otherPurposesIn(proseOnly(record.body), purpose),
  ...(record.type === 'document' ? underHeading(record.body) : []).filter(
    (passage) => !isPurpose(passage.text, purpose),
  ),
];

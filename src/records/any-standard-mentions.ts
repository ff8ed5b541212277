import { oncePerText } from './once-per-text.ts';
import type { DatedMention } from './standard-mentions.ts';

/** A dated mention of any standard, with its designation as printed: `EN ISO 10993-1`. */
export interface AnyStandardMention extends DatedMention {
  readonly designation: string;
}

/** Publishers whose designations are known by their letters, each with what may adopt it in front. */
const designation =
  '(?:(?:BS|DIN|NF|UNI|SN|NEN|SS|AAMI|ANSI(?:/AAMI)?|CSA|JIS|AS|NZS|GB) )?(?:EN )?(?:(?:ISO|IEC)(?:/IEC|/ASTM)?|ASTM|CISPR|EN|AAMI)(?:/TR|/TS)?(?: TR| TS| TIR)? ?[A-Z]{0,3}\\d{2,6}(?:/[A-Z]\\d+M?)?(?:-\\d{1,3}(?=[-: (]))*';

/** A colon, brackets or a hyphen lead to the year; with two digits only behind the hyphen of ASTM. */
const pattern = new RegExp(
  `(?<![A-Za-z0-9/-])(${designation})(?: ?: ?((?:19|20)\\d{2})| ?\\(((?:19|20)\\d{2})\\)|-((?:19|20)\\d{2}|(?<=ASTM[^:]{2,16}-)\\d{2}))(?![\\d-]*\\d)`,
  'g',
);

/** Dated mentions of standards by any of the usual publishers. A mention without a year names the one in the list. */
export const anyDatedMentions = oncePerText((text): readonly AnyStandardMention[] =>
  [...text.replace(/[\u00a0\n]/g, ' ').matchAll(pattern)].map((match) => ({
    designation: match[1] ?? '',
    text: match[0],
    offset: match.index,
    year: match[2] ?? match[3] ?? match[4] ?? '',
  })),
);

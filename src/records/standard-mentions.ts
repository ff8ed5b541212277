/** A dated mention of a standard in a text: `ISO 10993-1:2018`, `ASTM F1980-21`. */
export interface DatedMention {
  readonly text: string;
  readonly offset: number;
  /** Four digits, or two where the text gives two. */
  readonly year: string;
}

/** Bodies that adopt standards of others under a year of their own: EN ISO 10993-1:2020 is not ISO 10993-1. */
const adopters =
  /(?:(?:EN|BS|DIN|NF|UNI|SN|NEN|SS|ANSI|AAMI|CSA|JIS|AS|NZS|GB)(?:\/[A-Z]{2,5})?[ \u00a0\n/-]{1,3}){1,3}$/;

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');

/** Whether adoptions of the standard are left out, taken as well, or the only ones that are taken. */
export interface MentionOptions {
  readonly adopted: 'no' | 'too' | 'only';
}

/**
 * Finder of dated mentions of one designation. The year follows behind a colon, in brackets or behind a hyphen; with two
 * digits only where the publisher is not ISO, IEC or a body that adopts their standards (there a hyphen starts a part
 * number). The text of an adoption begins with who adopted it: `EN ISO 10993-1:2020`.
 */
export const datedMentionsOf = (
  designation: string,
  { adopted }: MentionOptions = { adopted: 'no' },
): ((text: string) => readonly DatedMention[]) => {
  const words = designation.trim().split(/\s+/);
  const name = words.map(escaped).join('[ \\u00a0\\n]{1,3}');
  const hasParts = /^(?:ISO|IEC|EN|BS|DIN|CISPR)\b/.test(designation.trim());
  const behindHyphen = hasParts ? '(?:19|20)\\d{2}' : '\\d{4}|\\d{2}';
  const year = ` ?: ?(\\d{4}${hasParts ? '' : '|\\d{2}'})|-(${behindHyphen})| ?\\(((?:19|20)\\d{2})\\)`;
  const pattern = new RegExp(`(?<![A-Za-z0-9/])${name}(?:${year})(?![\\d-]*\\d)`, 'g');
  return (text) =>
    words.every((word) => text.includes(word))
      ? [...text.matchAll(pattern)].flatMap((match) => {
          const adopter = adopters.exec(text.slice(Math.max(0, match.index - 20), match.index))?.[0] ?? '';
          if (adopted !== 'too' && (adopted === 'only') !== (adopter !== '')) return [];
          return [
            {
              text: (adopter + match[0]).replace(/\s+/g, ' '),
              offset: match.index - adopter.length,
              year: match[1] ?? match[2] ?? match[3] ?? '',
            },
          ];
        })
      : [];
};

/** Whether a year as mentioned, of two or four digits, is a year of an edition such as `2019` or `2008+Amd 1:2019`. */
export const isYearOf = (year: string, edition: string): boolean => {
  const years = edition.match(/\d{4}|\d{2}/g) ?? [];
  return years.some(
    (each) => each === year || (each.length !== year.length && each.slice(-2) === year.slice(-2)),
  );
};

/** A dated mention of a standard in a text: `ISO 10993-1:2018`, `ASTM F1980-21`. */
export interface DatedMention {
  readonly text: string;
  readonly offset: number;
  /** Four digits, or two where the text gives two. */
  readonly year: string;
}

/** Bodies that adopt standards of others under a year of their own: EN ISO 10993-1:2020 is not ISO 10993-1. */
const adopters = /(?:EN|BS|DIN|NF|UNI|SN|NEN|SS|ANSI|AAMI|CSA|JIS|AS|NZS|GB)(?:\/[A-Z]{2,5})?[ \u00a0/-]$/;

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');

/**
 * Finder of dated mentions of one designation. A colon and four digits follow it; where the publisher is not ISO, IEC
 * or a body that adopts their standards, a hyphen with two or four digits may follow as well (there it starts a part
 * number).
 */
export const datedMentionsOf = (designation: string): ((text: string) => readonly DatedMention[]) => {
  const words = designation.trim().split(/\s+/);
  const name = words.map(escaped).join('[ \\u00a0\\n]{1,3}');
  const colonOnly = /^(?:ISO|IEC|EN|BS|DIN|CISPR)\b/.test(designation.trim());
  const year = colonOnly ? ' ?: ?(\\d{4})' : '(?: ?: ?|-)(\\d{4}|\\d{2})';
  const pattern = new RegExp(`(?<![A-Za-z0-9/])${name}${year}(?![\\d-]*\\d)`, 'g');
  return (text) =>
    words.every((word) => text.includes(word))
      ? [...text.matchAll(pattern)]
          .filter((match) => !adopters.test(text.slice(Math.max(0, match.index - 12), match.index)))
          .map((match) => ({
            text: match[0].replace(/\s+/g, ' '),
            offset: match.index,
            year: match[1] ?? '',
          }))
      : [];
};

/** Whether a year as mentioned, of two or four digits, is a year of an edition such as `2019` or `2008+Amd 1:2019`. */
export const isYearOf = (year: string, edition: string): boolean => {
  const years = edition.match(/\d{4}|\d{2}/g) ?? [];
  return years.some(
    (each) => each === year || (each.length !== year.length && each.slice(-2) === year.slice(-2)),
  );
};

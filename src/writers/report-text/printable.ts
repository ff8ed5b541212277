/**
 * Text of a technical file made safe for a terminal: control characters, which could move the cursor or recolour the
 * screen, and marks that turn the direction of text become a visible sign. Line breaks and tabs become blanks.
 */
export const printable = (text: string): string =>
  text
    .replace(/[\n\r\t]/g, ' ')
    .replace(/[\p{Cc}\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\u2028\u2029]/gu, '\ufffd');

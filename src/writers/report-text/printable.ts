/**
 * Text of a technical file in which control characters, which could move the cursor of a terminal or recolour it, and
 * marks that turn the direction of text have become a visible sign. Line breaks and tabs stay.
 */
export const visible = (text: string): string =>
  text.replace(/[^\P{Cc}\n\r\t]|[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\u2028\u2029]/gu, '\ufffd');

/** The same on one line: line breaks and tabs become blanks. */
export const printable = (text: string): string => visible(text.replace(/[\n\r\t]/g, ' '));

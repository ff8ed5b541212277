/**
 * What can't stand in an XML 1.0 text (production 2, Char): control characters, lone surrogates, U+FFFE and U+FFFF; and the
 * embeddings, overrides and isolates of the Unicode bidirectional algorithm (UAX 9, 2.1 to 2.6), which are not seen
 * themselves and show the text around them in another order than it has. Marks of direction (U+200E, U+200F, U+061C) stay:
 * they turn nothing else, and texts in Arabic and Hebrew need them.
 */
const unprintable =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: finding control characters is the purpose
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u202a-\u202e\u2066-\u2069\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

// Any surrogate, paired or not: what has none of these needs no closer look.
const suspect =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: finding control characters is the purpose
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u202a-\u202e\u2066-\u2069\ufffe\uffff\ud800-\udfff]/;

/**
 * Replaces each character that a document can't hold, or must not, by U+FFFD, so that its absence stays visible.
 *
 * @param text any text
 * @returns the text, and how many characters were replaced
 */
export function replaceUnprintable(text: string): {
  readonly text: string;
  readonly replaced: number;
} {
  if (!suspect.test(text)) return { text, replaced: 0 };
  let replaced = 0;
  const clean = text.replace(unprintable, () => {
    replaced += 1;
    return '\ufffd';
  });
  return { text: clean, replaced };
}

/** What can't stand in an XML 1.0 text (production 2, Char): control characters, lone surrogates, U+FFFE and U+FFFF. */
const unprintable =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: finding control characters is the purpose
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

// Any surrogate, paired or not: what has none of these needs no closer look.
const suspect =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: finding control characters is the purpose
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff\ud800-\udfff]/;

/**
 * Replaces each character that a document can't hold by U+FFFD, so that its absence stays visible.
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

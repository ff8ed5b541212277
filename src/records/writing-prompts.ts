/** A remark that asks a person to write something, as it stands in the text of a record. */
export interface WritingPrompt {
  /** The whole remark. */
  readonly text: string;
  readonly offset: number;
  /** What is to be written. */
  readonly wanted: string;
}

/**
 * The one form of such remarks, `<!-- Write: what is to be said here. -->`, and the two that `plinth new` lays down.
 * Other remarks are the author's own.
 */
const prompt =
  /<!--\s{0,20}(?:Write:\s{0,20}|Write (?=this section\.)|Say here in one or two sentences (?=what this record states\.))((?:(?!-->)[\s\S]){1,2000})-->/g;

/** The remarks in a text that ask a person to write, in their order. */
export const writingPrompts = (body: string): readonly WritingPrompt[] =>
  [...body.matchAll(prompt)].flatMap(({ 0: text, 1: wanted = '', index }) => {
    const words = wanted.replace(/\s+/g, ' ').trim();
    return words === '' ? [] : [{ text, offset: index, wanted: words }];
  });

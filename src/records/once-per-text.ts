/** Texts whose reading is remembered; then all is forgotten, so that a long run holds no text for ever. */
const mostRemembered = 20_000;

/**
 * A reading of texts that looks at each text once: most texts of a file are as they were when it is checked again, as
 * `plinth serve` does at each change.
 *
 * @param read depends on the text alone, and what it returns is not changed by anybody
 */
export const oncePerText = <Found>(read: (text: string) => Found): ((text: string) => Found) => {
  const known = new Map<string, Found>();
  return (text) => {
    const remembered = known.get(text);
    if (remembered !== undefined) return remembered;
    const found = read(text);
    if (known.size >= mostRemembered) known.clear();
    known.set(text, found);
    return found;
  };
};

/** What a field of a running head shows. Everything else that a field could do is refused. */
export type FieldChoice =
  | { readonly kind: 'page'; readonly instruction: string }
  /** A property of the document; `name` in lower case. */
  | { readonly kind: 'property'; readonly instruction: string; readonly name: string }
  /** Words of the page, which Word fills in. */
  | { readonly kind: 'style'; readonly instruction: string }
  | { readonly kind: 'refused'; readonly word: string };

const properties: Readonly<Record<string, string>> = {
  TITLE: 'title',
  SUBJECT: 'subject',
  AUTHOR: 'author',
  KEYWORDS: 'keywords',
};

/** Names of document properties that every document has. */
const documentProperties = new Set([
  'title',
  'subject',
  'author',
  'keywords',
  'company',
  'document number',
  'revision',
  'record',
]);

/** Longest field instruction that is looked at. */
const longest = 400;

/** Reads the instruction of a field, such as ` PAGE \* MERGEFORMAT `. */
export const readField = (instruction: string): FieldChoice => {
  const clean = instruction.replace(/\s+/g, ' ').trim().slice(0, longest);
  const [first = ''] = clean.split(' ');
  const word = first.toUpperCase();
  if (['PAGE', 'NUMPAGES', 'SECTIONPAGES', 'SECTION'].includes(word))
    return { kind: 'page', instruction: clean };
  if (Object.hasOwn(properties, word))
    return { kind: 'property', instruction: word, name: properties[word] ?? '' };
  if (word === 'DOCPROPERTY') {
    const name = /^\S+ (?:"([^"]*)"|(\S+))/.exec(clean);
    const shown = name?.[1] ?? name?.[2] ?? '';
    return documentProperties.has(shown.toLowerCase())
      ? { kind: 'property', instruction: `DOCPROPERTY "${shown}"`, name: shown.toLowerCase() }
      : { kind: 'refused', word: `DOCPROPERTY "${shown}"` };
  }
  if (word === 'STYLEREF') return { kind: 'style', instruction: clean };
  return { kind: 'refused', word: word.replace(/[^A-Z]/g, '') || 'without a name' };
};

import { SaxesParser } from 'saxes';

/**
 * A node of a part, in the form that the layout engine reads. An element without attributes has none at all, for the
 * engine tells the two apart.
 */
export interface PartNode {
  readonly type: 'element' | 'text';
  readonly name?: string;
  readonly attributes?: Record<string, string>;
  readonly text?: string;
  readonly elements?: PartNode[];
}

/** Reads a part that we wrote ourselves. Blanks count as text everywhere, for within a text they are. */
export const readPart = (xml: string): { readonly elements: PartNode[] } => {
  const top: PartNode[] = [];
  const open = [top];
  const parser = new SaxesParser();
  parser.on('opentag', ({ name, attributes }) => {
    const elements: PartNode[] = [];
    const hasAttributes = Object.keys(attributes).length > 0;
    open.at(-1)?.push({
      type: 'element',
      name,
      ...(hasAttributes ? { attributes: { ...attributes } } : {}),
      elements,
    });
    open.push(elements);
  });
  parser.on('closetag', () => {
    open.pop();
  });
  parser.on('text', (text) => {
    if (open.length > 1) open.at(-1)?.push({ type: 'text', text });
  });
  parser.write(xml).close();
  return { elements: top };
};

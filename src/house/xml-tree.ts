import { readXml, XmlFault } from '../returned/xml-events.ts';

/** An element of a part, under the prefix that its namespace has in all of Plinth's Word files: `w:pStyle`. */
export interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly Node[];
}

export type Node = Element | string;

const wordprocessing = 'http://schemas.openxmlformats.org';

/** Namespaces that are taken over. What is of any other is left out: extensions, and whatever nobody here knows. */
const prefixes: Readonly<Record<string, string>> = {
  [`${wordprocessing}/wordprocessingml/2006/main`]: 'w',
  [`${wordprocessing}/officeDocument/2006/relationships`]: 'r',
  [`${wordprocessing}/drawingml/2006/wordprocessingDrawing`]: 'wp',
  [`${wordprocessing}/drawingml/2006/main`]: 'a',
  [`${wordprocessing}/drawingml/2006/picture`]: 'pic',
  [`${wordprocessing}/markup-compatibility/2006`]: 'mc',
  [`${wordprocessing}/package/2006/relationships`]: 'rel',
  [`${wordprocessing}/package/2006/content-types`]: 'ct',
  'urn:schemas-microsoft-com:vml': 'v',
  'urn:schemas-microsoft-com:office:office': 'o',
  'urn:schemas-microsoft-com:office:word': 'w10',
  'http://www.w3.org/XML/1998/namespace': 'xml',
};

/** Declarations of the namespaces that running heads and themes may use. */
export const houseNamespaces = Object.entries(prefixes)
  .filter(([, prefix]) => !['xml', 'mc', 'rel', 'ct'].includes(prefix))
  .map(([uri, prefix]) => `xmlns:${prefix}="${uri}"`)
  .join(' ');

const deepest = 100;
const mostElements = 300_000;

/** Elements whose text counts with its blanks. */
const texts = new Set(['w:t', 'w:instrText', 'a:t']);

/** Drawings have text elsewhere too, such as the place of a picture; blanks between elements are only layout. */
const countsAsText = (name: string, text: string): boolean =>
  texts.has(name) || (!name.startsWith('w:') && text.trim() !== '');

interface Growing {
  readonly name: string;
  readonly attributes: Record<string, string>;
  readonly children: Node[];
}

/**
 * Reads a part into a tree. Of alternatives (ISO/IEC 29500-3, AlternateContent) the fallback is taken, which every
 * program can show. Throws `XmlFault` where the part is no XML, nests deeper than 100 or has more than 300,000
 * elements.
 */
export const readTree = (xml: string): Element => {
  const top: Growing = { name: '', attributes: {}, children: [] };
  const open: Growing[] = [top];
  /** Depth within an element that is left out; 0 outside. */
  let leftOut = 0;
  let count = 0;
  readXml(xml, {
    open: (element) => {
      count += 1;
      if (count > mostElements) throw new XmlFault(`it has more than ${mostElements} elements`);
      const prefix = Object.hasOwn(prefixes, element.namespace) ? prefixes[element.namespace] : undefined;
      if (leftOut > 0 || prefix === undefined || (prefix === 'mc' && element.name === 'Choice')) {
        leftOut += 1;
        return;
      }
      if (open.length > deepest) throw new XmlFault(`its elements nest deeper than ${deepest}`);
      const grown: Growing = { name: `${prefix}:${element.name}`, attributes: {}, children: [] };
      for (const { namespace, name, value } of element.attributes()) {
        const space = namespace === '' ? undefined : prefixes[namespace];
        if (namespace === '') grown.attributes[name] = value;
        else if (space !== undefined && space !== 'mc') grown.attributes[`${space}:${name}`] = value;
      }
      open.push(grown);
    },
    close: () => {
      if (leftOut > 0) {
        leftOut -= 1;
        return;
      }
      const closed = open.pop() as Growing;
      const parent = open.at(-1) as Growing;
      if (closed.name.startsWith('mc:')) parent.children.push(...closed.children);
      else parent.children.push(closed);
    },
    text: (text) => {
      const at = open.at(-1) as Growing;
      if (leftOut === 0 && countsAsText(at.name, text)) at.children.push(text);
    },
  });
  const [root] = top.children;
  if (root === undefined || typeof root === 'string') throw new XmlFault('it has no element that Word knows');
  return root;
};

const escape = (text: string): string =>
  text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll('\r', '&#13;');

/** The start tag with its attributes. */
const startTag = ({ name, attributes }: Element): string =>
  `<${name}${Object.entries(attributes)
    .map(([key, value]) => ` ${key}="${escape(value)}"`)
    .join('')}`;

/** XML of a node. */
export const writeTree = (node: Node): string => {
  if (typeof node === 'string') return escape(node);
  const inner = node.children.map(writeTree).join('');
  return inner === '' ? `${startTag(node)}/>` : `${startTag(node)}>${inner}</${node.name}>`;
};

/** An element of our own. */
export const element = (
  name: string,
  attributes: Readonly<Record<string, string>> = {},
  children: readonly Node[] = [],
): Element => ({ name, attributes, children });

export const elementsOf = (parent: Element | undefined, name?: string): readonly Element[] =>
  (parent?.children ?? []).filter(
    (child): child is Element => typeof child !== 'string' && (name === undefined || child.name === name),
  );

/** The first child of a name. */
export const childOf = (parent: Element | undefined, ...path: readonly string[]): Element | undefined =>
  path.reduce<Element | undefined>((at, name) => elementsOf(at, name)[0], parent);

/** The value `w:val` of a child, where it has one. */
export const valueOf = (parent: Element | undefined, ...path: readonly string[]): string | undefined =>
  childOf(parent, ...path)?.attributes['w:val'];

/** Whether a switch such as `w:titlePg` is on: there, and not set to off. */
export const isOn = (parent: Element | undefined, name: string): boolean => {
  const found = childOf(parent, name);
  return found !== undefined && !['false', '0', 'off'].includes(found.attributes['w:val'] ?? 'true');
};

/** An element with other children. */
export const withChildren = (parent: Element, children: readonly Node[]): Element => ({
  ...parent,
  children,
});

/** Every element of a name, in the order of the text. */
export const allOf = (parent: Element, name: string): readonly Element[] =>
  elementsOf(parent).flatMap((child) => [...(child.name === name ? [child] : []), ...allOf(child, name)]);

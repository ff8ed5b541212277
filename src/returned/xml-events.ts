import { SaxesParser, type SaxesTagNS } from 'saxes';

/** One element of a WordprocessingML part as it opens. */
export interface OpenedElement {
  /** Local name, for elements of WordprocessingML and its extensions alike. */
  readonly name: string;
  /** URI of its namespace. */
  readonly namespace: string;
  /** Value of an attribute by its local name, of whatever namespace. */
  readonly attribute: (name: string) => string | undefined;
  /** All attributes, with the URI of the namespace; empty for an attribute without one. */
  readonly attributes: () => readonly {
    readonly namespace: string;
    readonly name: string;
    readonly value: string;
  }[];
}

export interface XmlEvents {
  readonly open?: (element: OpenedElement) => void;
  readonly close?: (name: string) => void;
  readonly text?: (text: string) => void;
}

/** Reads XML as a stream of events. */
export type XmlReader = (xml: string, events: XmlEvents) => void;

/** XML that cannot be read, with the reason for the user. */
export class XmlFault extends Error {}

/**
 * Reads XML as a stream of events. A document type is refused, so that no entity can expand. Throws `XmlFault` for XML
 * that is not well-formed.
 */
export const readXml: XmlReader = (xml, events) => {
  const parser = new SaxesParser({ xmlns: true });
  parser.on('error', (error) => {
    throw new XmlFault(error.message);
  });
  parser.on('doctype', () => {
    throw new XmlFault('it declares a document type, which could let text expand without end');
  });
  parser.on('opentag', (tag) => events.open?.(openedElement(tag)));
  parser.on('closetag', (tag) => events.close?.(tag.local));
  parser.on('text', (text) => events.text?.(text));
  parser.write(xml).close();
};

const openedElement = (tag: SaxesTagNS): OpenedElement => ({
  name: tag.local,
  namespace: tag.uri,
  attributes: () =>
    Object.values(tag.attributes).map(({ uri, local, value }) => ({ namespace: uri, name: local, value })),
  attribute: (name) => {
    for (const attribute of Object.values(tag.attributes))
      if (attribute.local === name) return attribute.value;
    return undefined;
  },
});

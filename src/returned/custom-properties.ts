import type { WordPackage } from './word-package.ts';
import { readXml } from './xml-events.ts';

/** The custom properties of a Word file by name: among them what Plinth wrote of the document's origin. */
export const readCustomProperties = (file: WordPackage): ReadonlyMap<string, string> => {
  const properties = new Map<string, string>();
  const xml = file.part('docProps/custom.xml');
  if (xml === undefined) return properties;
  let name: string | undefined;
  let value = '';
  readXml(xml, {
    open: (element) => {
      if (element.name !== 'property') return;
      name = element.attribute('name');
      value = '';
    },
    text: (text) => {
      value += text;
    },
    close: (element) => {
      if (element === 'property' && name !== undefined) {
        properties.set(name, value.trim());
        name = undefined;
      }
    },
  });
  return properties;
};

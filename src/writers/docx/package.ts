import { strToU8, type Zippable, zipSync } from 'fflate';
import type { Relationship } from './manuscript.ts';
import { escapeXml, xmlHead } from './xml.ts';

const officeTypes = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const wordTypes = 'application/vnd.openxmlformats-officedocument.wordprocessingml';

const contentTypes: readonly (readonly [RegExp, string])[] = [
  [/^word\/document\.xml$/, `${wordTypes}.document.main+xml`],
  [/^word\/styles\.xml$/, `${wordTypes}.styles+xml`],
  [/^word\/numbering\.xml$/, `${wordTypes}.numbering+xml`],
  [/^word\/settings\.xml$/, `${wordTypes}.settings+xml`],
  [/^word\/footnotes\.xml$/, `${wordTypes}.footnotes+xml`],
  [/^word\/header\d+\.xml$/, `${wordTypes}.header+xml`],
  [/^word\/footer\d+\.xml$/, `${wordTypes}.footer+xml`],
  [/^word\/theme\/theme\d+\.xml$/, 'application/vnd.openxmlformats-officedocument.theme+xml'],
  [/^docProps\/core\.xml$/, 'application/vnd.openxmlformats-package.core-properties+xml'],
  [/^docProps\/app\.xml$/, 'application/vnd.openxmlformats-officedocument.extended-properties+xml'],
  [/^docProps\/custom\.xml$/, 'application/vnd.openxmlformats-officedocument.custom-properties+xml'],
];

/** Types of pictures by the ending of their names, beyond those that figures have. */
const pictureTypes: Readonly<Record<string, string>> = {
  jpg: 'image/jpeg',
  jpeg: 'image/jpeg',
  gif: 'image/gif',
  bmp: 'image/bmp',
  tif: 'image/tiff',
  tiff: 'image/tiff',
  emf: 'image/x-emf',
  wmf: 'image/x-wmf',
};

/** A relationship of the document to a part of the package; `type` is the last word of the standard's name. */
export function partRelationship(id: string, type: string, target: string): Relationship {
  return { id, type: `${officeTypes}/${type}`, target, external: false };
}

/** A part that lists relationships. */
export function writeRelationships(relationships: readonly Relationship[]): string {
  const entries = relationships.map(
    ({ id, type, target, external }) =>
      `<Relationship Id="${id}" Type="${type}" Target="${escapeXml(target)}"${external ? ' TargetMode="External"' : ''}/>`,
  );
  return `${xmlHead}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${entries.join('')}</Relationships>`;
}

/** The package's own relationships: where the document and its properties are. */
export function packageRelationships(): string {
  return writeRelationships([
    partRelationship('rId1', 'officeDocument', 'word/document.xml'),
    {
      ...partRelationship('rId2', '', 'docProps/core.xml'),
      type: 'http://schemas.openxmlformats.org/package/2006/relationships/metadata/core-properties',
    },
    partRelationship('rId3', 'extended-properties', 'docProps/app.xml'),
    partRelationship('rId4', 'custom-properties', 'docProps/custom.xml'),
  ]);
}

/**
 * Packs the parts. The bytes depend on the parts alone: fixed order and a fixed time, which fflate reads by the
 * local clock's fields, so it is built from local fields too.
 */
export function packParts(parts: ReadonlyMap<string, string | Uint8Array>): Uint8Array {
  const names = [...parts.keys()].sort((a, b) => (a < b ? -1 : 1));
  const overrides = names.flatMap((name) => {
    const type = contentTypes.find(([pattern]) => pattern.test(name))?.[1];
    return type === undefined ? [] : [`<Override PartName="/${name}" ContentType="${type}"/>`];
  });
  const endings = new Set(names.map((name) => name.slice(name.lastIndexOf('.') + 1)));
  const pictures = Object.entries(pictureTypes)
    .filter(([ending]) => endings.has(ending))
    .map(([ending, type]) => `<Default Extension="${ending}" ContentType="${type}"/>`);
  const types =
    `${xmlHead}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">` +
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>' +
    '<Default Extension="xml" ContentType="application/xml"/>' +
    '<Default Extension="png" ContentType="image/png"/><Default Extension="svg" ContentType="image/svg+xml"/>' +
    `${pictures.join('')}${overrides.join('')}</Types>`;
  const files: Zippable = {
    '[Content_Types].xml': strToU8(types),
  };
  for (const name of names) {
    const content = parts.get(name) ?? '';
    const bytes = typeof content === 'string' ? strToU8(content) : content;
    // These are compressed already.
    files[name] = /\.(?:png|jpe?g)$/.test(name) ? [bytes, { level: 0 }] : bytes;
  }
  return zipSync(files, { mtime: new Date(1980, 0, 2, 12), level: 6 });
}

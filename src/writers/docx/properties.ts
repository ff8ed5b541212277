import type { Manuscript } from './manuscript.ts';
import { cleanXml } from './manuscript.ts';
import { xmlHead } from './xml.ts';

/** The part `docProps/core.xml`. Dates are the document's own, never the clock's. */
export function writeCoreProperties(manuscript: Manuscript): string {
  const { document } = manuscript;
  const text = (value: string) => cleanXml(manuscript, value);
  const date = /^\d{4}-\d{2}-\d{2}$/.test(document.date) ? `${document.date}T00:00:00Z` : undefined;
  const stamp = (name: string) =>
    date === undefined ? '' : `<dcterms:${name} xsi:type="dcterms:W3CDTF">${date}</dcterms:${name}>`;
  return (
    `${xmlHead}<cp:coreProperties xmlns:cp="http://schemas.openxmlformats.org/package/2006/metadata/core-properties"` +
    ' xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:dcterms="http://purl.org/dc/terms/" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">' +
    `<dc:title>${text(document.title)}</dc:title><dc:subject>${text(document.subtitle ?? document.product)}</dc:subject>` +
    `<dc:creator>${text(document.organisation)}</dc:creator><cp:keywords>${text(document.number)}</cp:keywords>` +
    `<cp:lastModifiedBy>${text(document.organisation)}</cp:lastModifiedBy>${stamp('created')}${stamp('modified')}` +
    `<cp:contentStatus>${text(document.status)}</cp:contentStatus><dc:language>${text(document.language)}</dc:language>` +
    `<cp:version>${text(document.revision)}</cp:version><dc:identifier>${text(document.number)}</dc:identifier></cp:coreProperties>`
  );
}

/** The part `docProps/app.xml`. */
export function writeApplicationProperties(manuscript: Manuscript): string {
  return (
    `${xmlHead}<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/extended-properties">` +
    `<Application>Plinth</Application><Company>${cleanXml(manuscript, manuscript.document.organisation)}</Company></Properties>`
  );
}

/** Names of the properties that tell whose document it is. */
export const makerProperty = 'Maker';
export const productProperty = 'Product';

/** Name of the property that holds the digest of the file's own words. */
export const wordsProperty = 'Words digest';

/**
 * The part `docProps/custom.xml`: number, revision and record id, then where the document came from, and the digests by
 * which an edited copy is known.
 */
export function writeCustomProperties(manuscript: Manuscript, digests: ReadonlyMap<string, string>): string {
  const { document } = manuscript;
  const entries = new Map<string, string>([
    ['Document Number', document.number],
    ['Revision', document.revision],
    ['Record', document.id],
    [makerProperty, document.organisation],
    [productProperty, document.product],
  ]);
  const known = new Set([...entries.keys()].map((name) => name.toLowerCase()));
  for (const { name, value } of document.provenance) {
    if (known.has(name.toLowerCase())) continue;
    known.add(name.toLowerCase());
    entries.set(name, value);
  }
  for (const [name, digest] of digests) entries.set(name, digest);
  // Ids start at 2; the set's id is the one that user-defined properties have (ISO/IEC 29500-1, 22.3.2).
  const properties = [...entries].map(
    ([name, value], index) =>
      `<property fmtid="{D5CDD505-2E9C-101B-9397-08002B2CF9AE}" pid="${index + 2}" name="${cleanXml(manuscript, name)}">` +
      `<vt:lpwstr>${cleanXml(manuscript, value)}</vt:lpwstr></property>`,
  );
  return (
    `${xmlHead}<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/custom-properties"` +
    ` xmlns:vt="http://schemas.openxmlformats.org/officeDocument/2006/docPropsVTypes">${properties.join('')}</Properties>`
  );
}

import type { HouseStyle } from '../../house/house-style.ts';
import { escapeXml, wordNamespaces, xmlHead } from './xml.ts';

/** The part `settings.xml`: the layout rules of Word 2013 and later, and the separators of footnotes. */
export function writeSettings(language: string, house: HouseStyle | undefined): string {
  const setting = (name: string, value: string) =>
    `<w:compatSetting w:name="${name}" w:uri="http://schemas.microsoft.com/office/word" w:val="${value}"/>`;
  return (
    `${xmlHead}<w:settings ${wordNamespaces}><w:zoom w:percent="100"/><w:defaultTabStop w:val="567"/>` +
    (house?.evenAndOdd ? '<w:evenAndOddHeaders/>' : '') +
    '<w:characterSpacingControl w:val="doNotCompress"/>' +
    '<w:footnotePr><w:footnote w:id="-1"/><w:footnote w:id="0"/></w:footnotePr>' +
    `<w:compat>${setting('compatibilityMode', '15')}${setting('overrideTableStyleFontSizeAndJustification', '1')}` +
    `${setting('enableOpenTypeFeatures', '1')}${setting('doNotFlipMirrorIndents', '1')}` +
    `${setting('differentiateMultirowTableHeaders', '1')}</w:compat>` +
    `<w:themeFontLang w:val="${escapeXml(language)}"/>${house?.colourMap ?? ''}<w:decimalSymbol w:val="."/><w:listSeparator w:val=","/></w:settings>`
  );
}

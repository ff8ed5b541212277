/** Symbols of units as they are printed, with the usual prefixes; what is written out in words may stand on the next line. */
const unit =
  '(?:' +
  '[pnµμmcdkMG]?(?:m|g|s|N|Pa|L|l|mol|V|A|W|J|Hz|Ω|Gy|bar|Nm|Sv|Bq)[²³]?' +
  '|K|h|min|d|wk|mo|°C|°F|°|%|‰|CFU|EU|ppm|ppb|pH|mmHg' +
  ')';

// Each choice starts at the blank and looks ahead before it looks back: most blanks are done with at once.
const sought = new RegExp(
  ' (?:' +
    // A sign and the number that it belongs to.
    '(?=[+−-]?\\d)(?<=[≥≤±<>=≈×] )' +
    // The two probabilities of a risk.
    '|(?=\\d)(?<=(?<![\\p{L}\\p{N}-])P[12] )' +
    // A number and the multiplication or tolerance that goes on with it: 5 × 10⁻³, 45 ± 2.
    '|(?=± ?\\d|× ?10[⁻⁰¹²³⁴⁵⁶⁷⁸⁹])(?<=\\d )' +
    // A number, or a power of ten, and its unit.
    `|(?=${unit}(?![\\p{L}\\p{N}]))(?<=(?:(?<![\\p{L}\\p{N}_.-])[+−-]?\\d{1,15}(?:[.,]\\d{1,15})?|10[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]{1,4}) )` +
    ')',
  'gu',
);

/**
 * A text with a blank that does not break between a number and its unit, and between a sign and its number. Only the
 * writers of pages set it: what is compared, searched and handed to machines keeps the blank of the author.
 */
export const keepTogether = (text: string): string =>
  /\d/.test(text) ? text.replace(sought, '\u00a0') : text;

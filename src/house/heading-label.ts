import type { HeadingNumbering, NumberLevel } from './house-numbering.ts';

/**
 * The number that a word processor prints before a heading.
 *
 * @param numbers the counts of the levels of headings down to this one, from 1
 * @param headings the numbering of each level of headings
 * @returns empty where headings of this level have no number
 */
export const headingLabel = (
  numbers: readonly number[],
  headings: readonly (HeadingNumbering | undefined)[],
): string => {
  const own = headings[numbers.length - 1];
  const level = own?.levels[own.level];
  if (!own || !level) return '';
  return level.text.replace(/%([1-9])/g, (_, digit: string) => {
    const at = Number(digit) - 1;
    const asked = own.levels[at];
    const heading = headings.findIndex((each) => each?.list === own.list && each.level === at);
    const count = numbers[heading];
    if (!asked) return '';
    const value = count === undefined ? asked.start : asked.start + count - 1;
    return numberText(value, level.isLegal ? 'decimal' : asked.format);
  });
};

/** The number by itself, as in "section 3.1": without the full stops, brackets and blanks around it. */
export const bareLabel = (label: string): string => label.replace(/^[\s(]+|[\s.):]+$/g, '');

/** A number in one of the formats of ISO/IEC 29500-1, 17.18.59; formats of other scripts give Arabic digits. */
const numberText = (value: number, format: NumberLevel['format']): string => {
  switch (format) {
    case 'none':
    case 'bullet':
      return '';
    case 'upperRoman':
      return roman(value);
    case 'lowerRoman':
      return roman(value).toLowerCase();
    case 'upperLetter':
      return letters(value);
    case 'lowerLetter':
      return letters(value).toLowerCase();
    case 'decimalZero':
      return String(value).padStart(2, '0');
    default:
      return String(value);
  }
};

const romanNumerals: readonly (readonly [number, string])[] = [
  [1000, 'M'],
  [900, 'CM'],
  [500, 'D'],
  [400, 'CD'],
  [100, 'C'],
  [90, 'XC'],
  [50, 'L'],
  [40, 'XL'],
  [10, 'X'],
  [9, 'IX'],
  [5, 'V'],
  [4, 'IV'],
  [1, 'I'],
];

const roman = (value: number): string => {
  if (value < 1 || value > 3999) return String(value);
  let rest = value;
  let text = '';
  for (const [worth, numeral] of romanNumerals)
    while (rest >= worth) {
      text += numeral;
      rest -= worth;
    }
  return text;
};

/** A to Z, then AA to ZZ: the letter is doubled, as the standard says for `upperLetter`. */
const letters = (value: number): string => {
  if (value < 1 || value > 780) return String(value);
  return String.fromCharCode(65 + ((value - 1) % 26)).repeat(Math.ceil(value / 26));
};

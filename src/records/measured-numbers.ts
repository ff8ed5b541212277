/** A number with its unit in a text. */
export interface MeasuredNumber {
  /** As written: `23`. */
  readonly number: string;
  /** Number and unit as written: `17 to 23 mm³`. */
  readonly text: string;
  readonly offset: number;
}

const number = '\\d{1,9}(?:[.,]\\d{1,9})?';

/** Units of labels and brochures, and how shares are told: `%`, `9 of 10`. */
const units = [
  'mm[²³23]?',
  'cm[²³23]?',
  'm[lL]',
  '[µμ][lLgm]',
  'm?g',
  'kg',
  'k?N',
  'k?Pa',
  'bar',
  '°C',
  '%',
  'per cent',
  'percent',
  'ms',
  's',
  'min',
  'h',
  'd',
  'seconds?',
  'minutes?',
  'hours?',
  'days?',
  'weeks?',
  'months?',
  'years?',
  'times',
].join('|');

const measured = new RegExp(
  `(?<![\\p{L}\\p{N}.,-])(${number})(?:\\s{0,2}(?:to|and|or|–|-|±)\\s{0,2}(${number}))?[\\s\\u00a0-]{0,2}(?:${units})(?![\\p{L}\\p{N}])`,
  'gu',
);

const share = new RegExp(
  `(?<![\\p{L}\\p{N}.,-])(${number})\\s(?:of|out of|in)\\s(${number})(?![\\p{L}\\p{N}])`,
  'gu',
);

/** Numbers of a text that have a unit or are shares, in the order of the text; `17 to 23 mm³` gives two. */
export const measuredNumbersIn = (text: string): readonly MeasuredNumber[] =>
  [...text.matchAll(measured), ...text.matchAll(share)]
    .sort((a, b) => a.index - b.index)
    .flatMap((match) =>
      [match[1], match[2]]
        .filter((each) => each !== undefined)
        .map((each) => ({ number: each, text: match[0].replace(/\s+/g, ' '), offset: match.index })),
    );
